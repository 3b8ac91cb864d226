#include <budclock/weather/header.hpp>
#include <budclock/weather/value_text.hpp>

#include <algorithm>
#include <array>
#include <fmt/format.h>
#include <vector>

namespace budclock::weather {
namespace {

using Unit = std::optional<TemperatureUnit>;

struct Alias {
  std::string_view name;
  ColumnRole role;
  int rank;
};

/// Names without their spaces and punctuation, in lower case. Those of the minimum are made from those of the maximum.
constexpr std::array k_aliases{
    Alias{"date", ColumnRole::date, 0},
    Alias{"dates", ColumnRole::date, 0},
    Alias{"obsdate", ColumnRole::date, 0},
    Alias{"observationdate", ColumnRole::date, 0},
    Alias{"localdate", ColumnRole::date, 0},
    Alias{"yyyymmdd", ColumnRole::date, 0},
    Alias{"ymd", ColumnRole::date, 0},
    Alias{"datetime", ColumnRole::date, 1},
    Alias{"timestamp", ColumnRole::date, 1},
    Alias{"time", ColumnRole::date, 2},
    Alias{"year", ColumnRole::year, 0},
    Alias{"yr", ColumnRole::year, 0},
    Alias{"yyyy", ColumnRole::year, 0},
    Alias{"month", ColumnRole::month, 0},
    Alias{"mon", ColumnRole::month, 0},
    Alias{"mo", ColumnRole::month, 0},
    Alias{"day", ColumnRole::day, 0},
    Alias{"dy", ColumnRole::day, 0},
    Alias{"dayofmonth", ColumnRole::day, 0},
    Alias{"station", ColumnRole::station, 0},
    Alias{"stationid", ColumnRole::station, 0},
    Alias{"stnid", ColumnRole::station, 0},
    Alias{"ghcnid", ColumnRole::station, 0},
    Alias{"id", ColumnRole::station, 1},
    Alias{"siteid", ColumnRole::station, 1},
    Alias{"site", ColumnRole::station, 2},
    Alias{"location", ColumnRole::station, 2},
    Alias{"stationname", ColumnRole::station, 3},
    Alias{"sitename", ColumnRole::station, 3},
    Alias{"name", ColumnRole::station, 4},
    Alias{"tmax", ColumnRole::tmax, 0},
    Alias{"maxt", ColumnRole::tmax, 0},
    Alias{"tx", ColumnRole::tmax, 0},
    Alias{"maxtemp", ColumnRole::tmax, 0},
    Alias{"tempmax", ColumnRole::tmax, 0},
    Alias{"maxtemperature", ColumnRole::tmax, 0},
    Alias{"temperaturemax", ColumnRole::tmax, 0},
    Alias{"maximumtemp", ColumnRole::tmax, 0},
    Alias{"maximumtemperature", ColumnRole::tmax, 0},
    Alias{"temperaturemaximum", ColumnRole::tmax, 0},
    Alias{"dailymax", ColumnRole::tmax, 0},
    Alias{"dailymaxtemp", ColumnRole::tmax, 0},
    Alias{"dailymaximum", ColumnRole::tmax, 0},
    Alias{"dailymaximumtemperature", ColumnRole::tmax, 0},
    Alias{"airtmax", ColumnRole::tmax, 0},
    Alias{"airtempmax", ColumnRole::tmax, 0},
    Alias{"airtemperaturemax", ColumnRole::tmax, 0},
    Alias{"maxairtemp", ColumnRole::tmax, 0},
    Alias{"maxairtemperature", ColumnRole::tmax, 0},
    Alias{"maximumairtemperature", ColumnRole::tmax, 0},
    Alias{"hightemp", ColumnRole::tmax, 0},
    Alias{"temphigh", ColumnRole::tmax, 0},
    Alias{"hightemperature", ColumnRole::tmax, 0},
    Alias{"temperaturehigh", ColumnRole::tmax, 0},
    Alias{"dailyhigh", ColumnRole::tmax, 0},
    Alias{"high", ColumnRole::tmax, 1},
    Alias{"hi", ColumnRole::tmax, 1},
    Alias{"max", ColumnRole::tmax, 1},
    Alias{"maximum", ColumnRole::tmax, 1},
};

void replace_first(std::string& text, std::string_view from, std::string_view to) {
  if (const auto at = text.find(from); at != std::string::npos) text.replace(at, from.size(), to);
}

/// A name of the minimum as the name of the maximum that is built the same way.
std::string as_maximum(std::string name) {
  if (name == "lo") return "hi";
  if (name == "tn") return "tx";
  replace_first(name, "minimum", "maximum");
  replace_first(name, "min", "max");
  replace_first(name, "low", "high");
  return name;
}

const Alias* find_alias(std::string_view name) {
  const auto* found = std::find_if(k_aliases.begin(), k_aliases.end(), [&](const Alias& a) { return a.name == name; });
  return found == k_aliases.end() ? nullptr : found;
}

std::optional<ColumnName> find_column(const std::string& name) {
  if (const Alias* alias = find_alias(name)) return ColumnName{alias->role, alias->rank, std::nullopt};
  const std::string mirrored = as_maximum(name);
  const Alias* alias = mirrored == name ? nullptr : find_alias(mirrored);
  if (alias != nullptr && alias->role == ColumnRole::tmax) return ColumnName{ColumnRole::tmin, alias->rank, {}};
  return std::nullopt;
}

/// The words of a name in lower case: runs of letters and digits. A degree sign, in UTF-8 or Latin-1, parts words.
std::vector<std::string> words_of(std::string_view name) {
  std::vector<std::string> words(1);
  for (const char c : name) {
    const char small = c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
    const bool in_word = (small >= 'a' && small <= 'z') || (small >= '0' && small <= '9');
    if (in_word)
      words.back() += small;
    else if (!words.back().empty())
      words.emplace_back();
  }
  if (words.back().empty()) words.pop_back();
  return words;
}

Unit unit_word(std::string_view word) {
  if (word == "f" || word == "degf" || word == "fahrenheit") return TemperatureUnit::fahrenheit;
  if (word == "c" || word == "degc" || word == "celsius" || word == "centigrade") return TemperatureUnit::celsius;
  return std::nullopt;
}

bool is_degree_word(std::string_view word) {
  return word == "deg" || word == "degs" || word == "degree" || word == "degrees";
}

bool is_temperature(const std::optional<ColumnName>& column) {
  return column && (column->role == ColumnRole::tmax || column->role == ColumnRole::tmin);
}

/// A column of the header that could be the maximum, or the minimum.
struct Candidate {
  std::size_t column;
  int rank;
  Unit unit;
};

std::string names_text(std::span<const Field> names) {
  constexpr std::size_t k_most = 12;
  std::string text;
  for (std::size_t i = 0; i < std::min(names.size(), k_most); ++i) {
    if (i > 0) text += ", ";
    text += trimmed(names[i].text);
  }
  return names.size() > k_most ? text + ", ..." : text;
}

/// Maps one header; holds what the steps share.
class HeaderMapper {
 public:
  HeaderMapper(std::span<const Field> names, std::size_t line, Unit stated, ProblemList& problems)
      : names_{names}, line_{line}, stated_{stated}, problems_{problems} {
    for (std::size_t i = 0; i < names.size(); ++i) found_.push_back(read_column_name(names[i].text));
  }

  std::optional<ColumnMap> map() {
    map_.count = names_.size();
    map_dates();
    if (const auto best = best_column(ColumnRole::station, std::nullopt, "the station")) map_.station = *best;
    map_temperatures();
    return failed_ ? std::nullopt : std::optional{map_};
  }

 private:
  void fail(std::size_t column, std::string message, std::string remedy) {
    problems_.add(Severity::error, line_, column, std::move(message), std::move(remedy));
    failed_ = true;
  }

  std::string quoted(std::size_t column) const { return fmt::format("\"{}\"", trimmed(names_[column].text)); }

  /// The columns of a role; with a unit, those that state it, or none.
  std::vector<Candidate> candidates(ColumnRole role, Unit unit) const {
    std::vector<Candidate> all;
    for (std::size_t i = 0; i < found_.size(); ++i) {
      if (found_[i].role != role) continue;
      if (unit && found_[i].unit && found_[i].unit != unit) continue;
      all.push_back({i, found_[i].rank, found_[i].unit});
    }
    return all;
  }

  /// The column with the plainest name for a role; two that are equally plain are an error.
  std::optional<std::size_t> best_column(ColumnRole role, Unit unit, std::string_view what) {
    auto all = candidates(role, unit);
    if (all.empty()) return std::nullopt;
    std::stable_sort(all.begin(), all.end(), [](const Candidate& a, const Candidate& b) { return a.rank < b.rank; });
    if (all.size() > 1 && all[0].rank == all[1].rank) {
      fail(names_[all[1].column].offset + 1,
           fmt::format("columns {} and {} both look like {}", quoted(all[0].column), quoted(all[1].column), what),
           "rename or remove one");
    }
    return all[0].column;
  }

  void map_dates() {
    if (const auto date = best_column(ColumnRole::date, std::nullopt, "the date")) {
      map_.date = *date;
      return;
    }
    const auto year = best_column(ColumnRole::year, std::nullopt, "the year");
    const auto month = best_column(ColumnRole::month, std::nullopt, "the month");
    const auto day = best_column(ColumnRole::day, std::nullopt, "the day");
    if (year && month && day) {
      map_.year = *year;
      map_.month = *month;
      map_.day = *day;
    } else if (day && !year && !month) {
      map_.date = *day;
    } else {
      fail(0, fmt::format("no column for the date (columns: {})", names_text(names_)),
           "name it date, or name three columns year, month and day");
    }
  }

  void map_temperatures() {
    if (candidates(ColumnRole::tmax, {}).empty() || candidates(ColumnRole::tmin, {}).empty()) {
      const bool neither = candidates(ColumnRole::tmax, {}).empty() && candidates(ColumnRole::tmin, {}).empty();
      const bool no_maximum = candidates(ColumnRole::tmax, {}).empty();
      fail(0,
           fmt::format("no column for the daily {} (columns: {})",
                       neither      ? "maximum and minimum"
                       : no_maximum ? "maximum"
                                    : "minimum",
                       names_text(names_)),
           neither      ? "name them tmax and tmin"
           : no_maximum ? "name it tmax"
                        : "name it tmin");
      return;
    }
    const Unit unit = choose_unit();
    if (!unit) return;
    map_.unit = *unit;
    const auto tmax = best_column(ColumnRole::tmax, unit, "the daily maximum");
    const auto tmin = best_column(ColumnRole::tmin, unit, "the daily minimum");
    map_.tmax = tmax.value_or(ColumnMap::k_none);
    map_.tmin = tmin.value_or(ColumnMap::k_none);
    const bool named = (tmax && found_[*tmax].unit) || (tmin && found_[*tmin].unit);
    map_.unit_evidence = named ? UnitEvidence::header : UnitEvidence::option;
  }

  /// The unit that --units or the names state for both extremes; an error when they disagree or state none.
  Unit choose_unit() {
    const auto fits = [this](TemperatureUnit unit) {
      return !candidates(ColumnRole::tmax, unit).empty() && !candidates(ColumnRole::tmin, unit).empty();
    };
    const Unit named = first_named_unit(fits);
    if (stated_) {
      if (fits(*stated_)) return stated_;
      const std::size_t column = first_with_unit();
      fail(names_[column].offset + 1,
           fmt::format("column {} is in degrees {}, but --units says {}", quoted(column), symbol(*found_[column].unit),
                       symbol(*stated_)),
           "drop --units or correct the header");
      return std::nullopt;
    }
    if (named) return named;
    const std::size_t tmax = candidates(ColumnRole::tmax, {}).front().column;
    const std::size_t tmin = candidates(ColumnRole::tmin, {}).front().column;
    if (found_[tmax].unit) {
      fail(0, fmt::format("columns {} and {} are in different units", quoted(tmax), quoted(tmin)),
           "give both in one unit");
    } else {
      fail(0, fmt::format("nothing tells the unit of columns {} and {}", quoted(tmax), quoted(tmin)),
           "add --units F or --units C");
    }
    return std::nullopt;
  }

  /// The first unit in the header in which both extremes can be had.
  template <typename Fits>
  Unit first_named_unit(const Fits& fits) const {
    for (const ColumnName& column : found_) {
      if (is_temperature(column) && column.unit && fits(*column.unit)) return column.unit;
    }
    return std::nullopt;
  }

  std::size_t first_with_unit() const {
    const auto at = std::find_if(found_.begin(), found_.end(),
                                 [](const ColumnName& column) { return is_temperature(column) && column.unit; });
    return static_cast<std::size_t>(at - found_.begin());
  }

  std::span<const Field> names_;
  std::size_t line_;
  Unit stated_;
  ProblemList& problems_;
  std::vector<ColumnName> found_;
  ColumnMap map_;
  bool failed_ = false;
};

}  // namespace

ColumnName read_column_name(std::string_view name) {
  auto words = words_of(name);
  Unit unit;
  while (words.size() > 1) {
    const Unit stated = unit_word(words.back());
    if (!stated && !is_degree_word(words.back())) break;
    if (stated) unit = stated;
    words.pop_back();
  }
  std::string joined;
  for (const std::string& word : words) joined += word;
  auto column = find_column(joined);
  for (const std::string_view suffix : {"degf", "degc", "f", "c"}) {  // "tmaxf"
    if (column || unit || !joined.ends_with(suffix)) continue;
    column = find_column(joined.substr(0, joined.size() - suffix.size()));
    if (is_temperature(column))
      unit = unit_word(suffix);
    else
      column.reset();
  }
  if (!column) return {};
  if (is_temperature(column)) column->unit = unit;
  return *column;
}

int roles_filled(std::span<const Field> names) {
  bool date = false;
  bool tmax = false;
  bool tmin = false;
  for (const Field& name : names) {
    const ColumnRole role = read_column_name(name.text).role;
    date = date || role == ColumnRole::date || role == ColumnRole::day;
    tmax = tmax || role == ColumnRole::tmax;
    tmin = tmin || role == ColumnRole::tmin;
  }
  return int{date} + int{tmax} + int{tmin};
}

std::optional<ColumnMap> map_columns(std::span<const Field> names, std::size_t line,
                                     std::optional<TemperatureUnit> stated_unit, ProblemList& problems) {
  return HeaderMapper{names, line, stated_unit, problems}.map();
}

}  // namespace budclock::weather

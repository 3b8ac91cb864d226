#include <budclock/weather/header.hpp>
#include <budclock/weather/value_text.hpp>

#include <algorithm>
#include <charconv>
#include <fmt/format.h>
#include <utility>

namespace budclock::weather {
namespace {

using Unit = std::optional<TemperatureUnit>;

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

/// The column that the user named, or gave the place of.
std::optional<std::size_t> find_chosen_column(std::string_view chosen, const std::vector<std::string>& names) {
  const auto named = std::find(names.begin(), names.end(), chosen);
  if (named != names.end()) return static_cast<std::size_t>(named - names.begin());
  const auto like = std::find_if(names.begin(), names.end(), [&](const std::string& name) {
    return !plain_name(chosen).empty() && plain_name(name) == plain_name(chosen);
  });
  if (like != names.end()) return static_cast<std::size_t>(like - names.begin());
  std::size_t place = 0;
  const auto [stopped, error] = std::from_chars(chosen.data(), chosen.data() + chosen.size(), place);
  if (error != std::errc{} || stopped != chosen.data() + chosen.size()) return std::nullopt;
  if (place < 1 || place > names.size()) return std::nullopt;
  return place - 1;
}

const char* option_word(ColumnRole role) {
  switch (role) {
    case ColumnRole::tmax:
      return "tmax";
    case ColumnRole::tmin:
      return "tmin";
    case ColumnRole::temperature:
      return "temperature";
    case ColumnRole::station:
      return "station";
    default:
      return "date";
  }
}

const char* what(ColumnRole role) {
  if (role == ColumnRole::tmax) return "the daily maximum";
  return role == ColumnRole::tmin ? "the daily minimum" : "the temperature";
}

/// Maps one header; holds what the steps share.
class HeaderMapper {
 public:
  HeaderMapper(std::span<const Field> names, std::size_t line, Unit stated, const ColumnChoice& chosen,
               ProblemList& problems)
      : names_{names}, line_{line}, stated_{stated}, chosen_{chosen}, problems_{problems} {
    for (const Field& name : names) {
      found_.push_back(read_column_name(name.text));
      map_.names.emplace_back(trimmed(name.text));
    }
  }

  std::optional<ColumnMap> map() {
    map_.count = names_.size();
    map_.header_line = line_;
    choose(chosen_.date, ColumnRole::date);
    choose(chosen_.station, ColumnRole::station);
    choose(chosen_.tmax, ColumnRole::tmax);
    choose(chosen_.tmin, ColumnRole::tmin);
    choose(chosen_.temperature, ColumnRole::temperature);
    map_dates();
    if (const auto best = best_column(ColumnRole::station, std::nullopt, "the station")) map_.station = *best;
    map_values();
    return failed_ ? std::nullopt : std::optional{map_};
  }

 private:
  void fail(std::size_t column, std::string message, std::string remedy) {
    problems_.add(Severity::error, line_, column, std::move(message), std::move(remedy));
    failed_ = true;
  }

  /// Gives a role to the column that the user named, and takes it from all others.
  void choose(const std::string& chosen, ColumnRole role) {
    if (chosen.empty()) return;
    const auto column = find_chosen_column(chosen, map_.names);
    if (!column) {
      return fail(0, fmt::format("--columns names \"{}\", and there is no such column", chosen),
                  fmt::format("the columns are {}", names_text(names_)));
    }
    for (ColumnName& other : found_) {
      if (other.role == role) other.role = ColumnRole::other;
    }
    found_[*column] = {role, 0, unit_in_name(map_.names[*column])};
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
           fmt::format("choose with --columns {}=NAME", option_word(role)));
    }
    return all[0].column;
  }

  void map_dates() {
    map_time_of_day();
    if (const auto date = best_column(ColumnRole::date, std::nullopt, "the date")) {
      map_.date = *date;
      return;
    }
    const auto year = best_column(ColumnRole::year, std::nullopt, "the year");
    const auto month = best_column(ColumnRole::month, std::nullopt, "the month");
    const auto day = best_column(ColumnRole::day, std::nullopt, "the day");
    const auto day_of_year = best_column(ColumnRole::day_of_year, std::nullopt, "the day of the year");
    if (year && month && day) {
      map_.year = *year;
      map_.month = *month;
      map_.day = *day;
    } else if (year && day_of_year) {
      map_.year = *year;
      map_.day_of_year = *day_of_year;
    } else if (day && !year && !month) {
      map_.date = *day;
    } else if (map_.time != ColumnMap::k_none && found_[map_.time].role == ColumnRole::time) {
      map_.date = std::exchange(map_.time, ColumnMap::k_none);  // "time" for date and time
    } else {
      fail(0, fmt::format("no column for the date (columns: {})", names_text(names_)),
           "name it date, or name three columns year, month and day, or choose it with --columns date=NAME");
    }
  }

  void map_time_of_day() {
    auto time = best_column(ColumnRole::time, std::nullopt, "the time of day");
    if (!time) time = best_column(ColumnRole::hour, std::nullopt, "the hour");
    if (time) map_.time = *time;
  }

  bool has(ColumnRole role) const { return !candidates(role, {}).empty(); }

  void map_values() {
    const bool extremes = has(ColumnRole::tmax) && has(ColumnRole::tmin) && chosen_.temperature.empty();
    if (extremes) {
      map_temperatures({ColumnRole::tmax, ColumnRole::tmin});
    } else if (has(ColumnRole::element) && has(ColumnRole::value) && !has(ColumnRole::tmax)) {
      map_.element = best_column(ColumnRole::element, {}, "the element").value_or(0);
      map_.value = best_column(ColumnRole::value, {}, "the value").value_or(0);
    } else if (has(ColumnRole::temperature) && !has(ColumnRole::tmax) && !has(ColumnRole::tmin)) {
      map_temperatures({ColumnRole::temperature});
    } else if (!chosen_.temperature.empty() && has(ColumnRole::temperature)) {
      map_temperatures({ColumnRole::temperature});
    } else {
      report_no_extremes();
    }
  }

  void report_no_extremes() {
    const bool neither = !has(ColumnRole::tmax) && !has(ColumnRole::tmin);
    const bool no_maximum = !has(ColumnRole::tmax);
    fail(0,
         fmt::format("no column for the daily {} (columns: {})",
                     neither      ? "maximum and minimum"
                     : no_maximum ? "maximum"
                                  : "minimum",
                     names_text(names_)),
         neither      ? "name them tmax and tmin, or choose with --columns tmax=NAME,tmin=NAME"
         : no_maximum ? "name it tmax, or choose it with --columns tmax=NAME"
                      : "name it tmin, or choose it with --columns tmin=NAME");
  }

  /// Finds the columns of these roles, all in one unit.
  void map_temperatures(const std::vector<ColumnRole>& roles) {
    const auto unit = choose_unit(roles);
    if (!unit) return;
    bool named = false;
    for (const ColumnRole role : roles) {
      const auto column = best_column(role, *unit, what(role));
      if (!column) return;
      named = named || found_[*column].unit.has_value();
      (role == ColumnRole::tmax ? map_.tmax : role == ColumnRole::tmin ? map_.tmin : map_.temperature) = *column;
    }
    map_.unit = *unit;
    map_.unit_evidence = named ? UnitEvidence::header : UnitEvidence::option;
  }

  /// The unit that --units or the names state for all of these roles, or none; nothing, with an error, when they
  /// disagree.
  std::optional<Unit> choose_unit(const std::vector<ColumnRole>& roles) {
    const auto fits = [&](TemperatureUnit unit) {
      return std::all_of(roles.begin(), roles.end(), [&](ColumnRole role) { return !candidates(role, unit).empty(); });
    };
    if (stated_) {
      if (fits(*stated_)) return stated_;
      const std::size_t column = first_with_unit();
      fail(names_[column].offset + 1,
           fmt::format("column {} is in degrees {}, but --units says {}", quoted(column), symbol(*found_[column].unit),
                       symbol(*stated_)),
           "drop --units or correct the header");
      return std::nullopt;
    }
    if (const Unit named = first_named_unit(roles, fits)) return named;
    const std::size_t first = candidates(roles.front(), {}).front().column;
    if (!found_[first].unit) return Unit{};
    fail(0,
         fmt::format("columns {} and {} are in different units", quoted(first),
                     quoted(candidates(roles.back(), {}).front().column)),
         "give both in one unit");
    return std::nullopt;
  }

  /// The first unit in the header in which all of these roles can be had.
  template <typename Fits>
  Unit first_named_unit(const std::vector<ColumnRole>& roles, const Fits& fits) const {
    for (const ColumnName& column : found_) {
      const bool wanted = std::find(roles.begin(), roles.end(), column.role) != roles.end();
      if (wanted && column.unit && fits(*column.unit)) return column.unit;
    }
    return std::nullopt;
  }

  std::size_t first_with_unit() const {
    const auto at = std::find_if(found_.begin(), found_.end(), [](const ColumnName& column) { return column.unit; });
    return at == found_.end() ? 0 : static_cast<std::size_t>(at - found_.begin());
  }

  std::span<const Field> names_;
  std::size_t line_;
  Unit stated_;
  const ColumnChoice& chosen_;
  ProblemList& problems_;
  std::vector<ColumnName> found_;
  ColumnMap map_;
  bool failed_ = false;
};

}  // namespace

std::vector<std::size_t> ColumnMap::temperatures() const {
  std::vector<std::size_t> columns;
  for (const std::size_t column : {tmax, tmin, temperature, value}) {
    if (column != k_none) columns.push_back(column);
  }
  return columns;
}

int roles_filled(std::span<const Field> names) {
  bool date = false;
  bool tmax = false;
  bool tmin = false;
  for (const Field& name : names) {
    const ColumnRole role = read_column_name(name.text).role;
    date = date || role == ColumnRole::date || role == ColumnRole::day || role == ColumnRole::day_of_year ||
           role == ColumnRole::time;
    tmax = tmax || role == ColumnRole::tmax || role == ColumnRole::temperature || role == ColumnRole::value;
    tmin = tmin || role == ColumnRole::tmin || role == ColumnRole::temperature || role == ColumnRole::value;
  }
  return int{date} + int{tmax} + int{tmin};
}

std::optional<ColumnMap> map_columns(std::span<const Field> names, std::size_t line,
                                     std::optional<TemperatureUnit> stated_unit, const ColumnChoice& chosen,
                                     ProblemList& problems) {
  return HeaderMapper{names, line, stated_unit, chosen, problems}.map();
}

}  // namespace budclock::weather

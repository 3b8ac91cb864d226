#include <budclock/weather/column_names.hpp>

#include <algorithm>
#include <array>
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
    Alias{"lstdate", ColumnRole::date, 0},
    Alias{"datelocal", ColumnRole::date, 0},
    Alias{"datetime", ColumnRole::date, 1},
    Alias{"timestamp", ColumnRole::date, 1},
    Alias{"dateandtime", ColumnRole::date, 1},
    Alias{"datetimelocal", ColumnRole::date, 1},
    Alias{"localdatetime", ColumnRole::date, 1},
    Alias{"localtime", ColumnRole::date, 2},
    Alias{"valid", ColumnRole::date, 2},
    Alias{"when", ColumnRole::date, 2},
    Alias{"year", ColumnRole::year, 0},
    Alias{"yr", ColumnRole::year, 0},
    Alias{"yyyy", ColumnRole::year, 0},
    Alias{"month", ColumnRole::month, 0},
    Alias{"mon", ColumnRole::month, 0},
    Alias{"mo", ColumnRole::month, 0},
    Alias{"day", ColumnRole::day, 0},
    Alias{"dy", ColumnRole::day, 0},
    Alias{"dayofmonth", ColumnRole::day, 0},
    Alias{"yday", ColumnRole::day_of_year, 0},
    Alias{"doy", ColumnRole::day_of_year, 0},
    Alias{"dayofyear", ColumnRole::day_of_year, 0},
    Alias{"jday", ColumnRole::day_of_year, 1},
    Alias{"julianday", ColumnRole::day_of_year, 1},
    Alias{"jd", ColumnRole::day_of_year, 1},
    Alias{"time", ColumnRole::time, 0},
    Alias{"timeofday", ColumnRole::time, 0},
    Alias{"lsttime", ColumnRole::time, 0},
    Alias{"hour", ColumnRole::hour, 0},
    Alias{"hr", ColumnRole::hour, 0},
    Alias{"hh", ColumnRole::hour, 1},
    Alias{"element", ColumnRole::element, 0},
    Alias{"datatype", ColumnRole::element, 0},
    Alias{"attr", ColumnRole::element, 1},
    Alias{"parameter", ColumnRole::element, 1},
    Alias{"variable", ColumnRole::element, 1},
    Alias{"value", ColumnRole::value, 0},
    Alias{"datavalue", ColumnRole::value, 0},
    Alias{"station", ColumnRole::station, 0},
    Alias{"stationid", ColumnRole::station, 0},
    Alias{"stnid", ColumnRole::station, 0},
    Alias{"ghcnid", ColumnRole::station, 0},
    Alias{"id", ColumnRole::station, 1},
    Alias{"siteid", ColumnRole::station, 1},
    Alias{"wban", ColumnRole::station, 1},
    Alias{"wbanno", ColumnRole::station, 1},
    Alias{"origin", ColumnRole::station, 2},
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
    Alias{"tdailymax", ColumnRole::tmax, 0},
    Alias{"airtcmax", ColumnRole::tmax, 0},
    Alias{"dlytmaxnormal", ColumnRole::tmax, 0},
    Alias{"hitemp", ColumnRole::tmax, 0},
    Alias{"hitemperature", ColumnRole::tmax, 0},
    Alias{"temphi", ColumnRole::tmax, 0},
    Alias{"tempouthi", ColumnRole::tmax, 0},
    Alias{"hightempout", ColumnRole::tmax, 0},
    Alias{"actualmaxtemp", ColumnRole::tmax, 0},
    Alias{"hightemp", ColumnRole::tmax, 0},
    Alias{"temphigh", ColumnRole::tmax, 0},
    Alias{"hightemperature", ColumnRole::tmax, 0},
    Alias{"temperaturehigh", ColumnRole::tmax, 0},
    Alias{"dailyhigh", ColumnRole::tmax, 0},
    Alias{"high", ColumnRole::tmax, 1},
    Alias{"hi", ColumnRole::tmax, 1},
    Alias{"max", ColumnRole::tmax, 1},
    Alias{"maximum", ColumnRole::tmax, 1},
    Alias{"temp", ColumnRole::temperature, 0},
    Alias{"tmp", ColumnRole::temperature, 0},
    Alias{"temperature", ColumnRole::temperature, 0},
    Alias{"airtemp", ColumnRole::temperature, 0},
    Alias{"airtemperature", ColumnRole::temperature, 0},
    Alias{"airt", ColumnRole::temperature, 0},
    Alias{"tair", ColumnRole::temperature, 0},
    Alias{"outdoortemp", ColumnRole::temperature, 0},
    Alias{"outdoortemperature", ColumnRole::temperature, 0},
    Alias{"outsidetemp", ColumnRole::temperature, 0},
    Alias{"tempout", ColumnRole::temperature, 0},
    Alias{"drybulb", ColumnRole::temperature, 1},
    Alias{"drybulbtemperature", ColumnRole::temperature, 1},
};

void replace_first(std::string& text, std::string_view from, std::string_view to) {
  if (const auto at = text.find(from); at != std::string::npos) text.replace(at, from.size(), to);
}

/// A name of the minimum as the name of the maximum that is built the same way.
std::string as_maximum(std::string name) {
  if (name == "lo") return "hi";
  if (name.starts_with("lo") && !name.starts_with("low")) return "hi" + name.substr(2);
  if (name.ends_with("lo")) return name.substr(0, name.size() - 2) + "hi";
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
  return column && (column->role == ColumnRole::tmax || column->role == ColumnRole::tmin ||
                    column->role == ColumnRole::temperature);
}

/// Takes the words that state a unit off the end of a name: "temp deg f" leaves "temp".
Unit take_unit(std::vector<std::string>& words) {
  Unit unit;
  while (words.size() > 1) {
    const Unit stated = unit_word(words.back());
    if (!stated && !is_degree_word(words.back())) break;
    if (stated) unit = stated;
    words.pop_back();
  }
  return unit;
}

/// A name that goes on after what it names: "Date Time, GMT-05:00", "Temp, °F (serial number 20123)".
void drop_additions(std::vector<std::string>& words) {
  if (words.size() > 2 && words[0] == "date" && words[1] == "time") words.resize(2);
  for (std::size_t i = 1; i + 1 < words.size(); ++i) {
    if (words[i].size() == 1 && unit_word(words[i])) words.resize(i + 1);
  }
}

}  // namespace

std::string plain_name(std::string_view name) {
  std::string joined;
  for (const std::string& word : words_of(name)) joined += word;
  return joined;
}

Unit unit_in_name(std::string_view name) {
  auto words = words_of(name);
  drop_additions(words);
  return take_unit(words);
}

ColumnName read_column_name(std::string_view name) {
  auto words = words_of(name);
  drop_additions(words);
  Unit unit = take_unit(words);
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

}  // namespace budclock::weather

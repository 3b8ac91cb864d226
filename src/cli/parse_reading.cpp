#include "parse_common.hpp"

#include <algorithm>
#include <tuple>
#include <utility>

namespace budclock::cli {
namespace {

const std::map<std::string, std::pair<TemperatureUnit, bool>> k_file_units{
    {"C", {TemperatureUnit::celsius, false}},       {"F", {TemperatureUnit::fahrenheit, false}},
    {"c", {TemperatureUnit::celsius, false}},       {"celsius", {TemperatureUnit::celsius, false}},
    {"f", {TemperatureUnit::fahrenheit, false}},    {"fahrenheit", {TemperatureUnit::fahrenheit, false}},
    {"tenths-C", {TemperatureUnit::celsius, true}}, {"tenths-F", {TemperatureUnit::fahrenheit, true}}};
const std::map<std::string, weather::DateOrder> k_date_orders{{"dmy", weather::DateOrder::day_month_year},
                                                              {"mdy", weather::DateOrder::month_day_year},
                                                              {"ymd", weather::DateOrder::year_month_day}};

/// Reads "date=1,tmax=2,tmin=3": for each role a column's name or its place. A name may hold commas when it is followed
/// by no further role.
weather::ColumnChoice parse_columns(const std::string& text) {
  weather::ColumnChoice choice;
  const std::map<std::string, std::string*> roles{{"date", &choice.date},
                                                  {"tmax", &choice.tmax},
                                                  {"tmin", &choice.tmin},
                                                  {"temperature", &choice.temperature},
                                                  {"station", &choice.station}};
  std::string* last = nullptr;
  std::size_t begin = 0;
  while (begin <= text.size()) {
    const std::size_t end = std::min(text.find(',', begin), text.size());
    const std::string piece = text.substr(begin, end - begin);
    const auto role = roles.find(piece.substr(0, piece.find('=')));
    if (role != roles.end() && piece.find('=') != std::string::npos) {
      last = role->second;
      *last = piece.substr(piece.find('=') + 1);
    } else if (last != nullptr) {
      *last += "," + piece;  // a comma inside a name
    } else {
      refuse(
          fmt::format("--columns '{}' names no columns: write it as date=1,tmax=2,tmin=3, with names or places; the "
                      "roles are date, tmax, tmin, temperature and station",
                      text));
    }
    begin = end + 1;
  }
  if (!choice.temperature.empty() && (!choice.tmax.empty() || !choice.tmin.empty())) {
    refuse("--columns takes either tmax and tmin, or temperature for readings within the day");
  }
  return choice;
}

}  // namespace

void add_reading(CLI::App& command, weather::ReadOptions& read) {
  command
      .add_option_function<std::string>(
          "--units",
          [&](const std::string& text) { std::tie(read.units, read.tenths) = choose("--units", text, k_file_units); },
          "Unit of temperatures where the file does not say: F or C, or tenths-C for tenths of a degree")
      ->type_name("F|C|tenths-F|tenths-C");
  command
      .add_option_function<std::string>(
          "--date-order",
          [&](const std::string& text) { read.date_order = choose("--date-order", text, k_date_orders); },
          "Order of dates that can be read two ways: mdy, dmy or ymd")
      ->type_name(values_of(k_date_orders));
  command
      .add_option_function<std::string>(
          "--columns", [&](const std::string& text) { read.columns = parse_columns(text); },
          "Which column is which, by name or place, as date=1,tmax=2,tmin=3; temperature=NAME for readings within the "
          "day, station=NAME")
      ->type_name("ROLES");
  command.add_option("--station", read.station, "The station to use from a file that holds several")->type_name("ID");
}

}  // namespace budclock::cli

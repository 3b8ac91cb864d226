#include "parse_common.hpp"

#include <algorithm>
#include <array>
#include <cctype>
#include <charconv>
#include <cmath>
#include <thread>

namespace budclock::cli {
namespace {

const std::map<std::string, TemperatureUnit> k_units{
    {"C", TemperatureUnit::celsius},    {"F", TemperatureUnit::fahrenheit},
    {"c", TemperatureUnit::celsius},    {"celsius", TemperatureUnit::celsius},
    {"f", TemperatureUnit::fahrenheit}, {"fahrenheit", TemperatureUnit::fahrenheit}};

void add_sites_file(CLI::App& command, PracticeOptions& options) {
  command
      .add_option("--sites", options.sites_file,
                  "The sites file, JSON or CSV (default: BUDCLOCK_SITES, else budclock-sites.json or "
                  "budclock-sites.csv here)")
      ->type_name("FILE");
}

}  // namespace

void refuse(const std::string& message) { throw CLI::ValidationError{message, CLI::ExitCodes::ValidationError}; }

Temperature parse_threshold(const std::string& option, std::string text) {
  std::erase(text, ' ');
  const auto degree_sign = text.find("\xC2\xB0");
  if (degree_sign != std::string::npos) text.erase(degree_sign, 2);
  const char unit = text.empty() ? '\0' : text.back();
  double degrees = 0;
  const char* end = text.data() + text.size() - (text.empty() ? 0 : 1);
  const auto [stopped, error] = std::from_chars(text.data(), end, degrees);
  const bool number = error == std::errc{} && stopped == end && std::isfinite(degrees) && std::abs(degrees) < 1000;
  const bool fahrenheit = unit == 'F' || unit == 'f';
  if (!number || (!fahrenheit && unit != 'C' && unit != 'c')) {
    refuse(fmt::format("{} '{}' is not a temperature: write it with its unit, as 50F or 10C", option, text));
  }
  return fahrenheit ? Temperature::fahrenheit(degrees) : Temperature::celsius(degrees);
}

Day parse_day(const std::string& option, const std::string& text) {
  const auto day = parse_iso_day(text);
  if (!day) refuse(fmt::format("{} '{}' is not a day: write it as 2014-04-10", option, text));
  return *day;
}

MonthDay parse_month_day(const std::string& option, const std::string& text) {
  const auto month_day = budclock::parse_month_day(text);
  if (!month_day) refuse(fmt::format("{} '{}' is not a month and day: write it as 03-01", option, text));
  return *month_day;
}

date::month parse_month(const std::string& option, const std::string& text) {
  static constexpr std::array k_names{"january", "february", "march",     "april",   "may",      "june",
                                      "july",    "august",   "september", "october", "november", "december"};
  std::string lower;
  for (const char c : text) lower += static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
  unsigned number = 0;
  const auto [stopped, error] = std::from_chars(lower.data(), lower.data() + lower.size(), number);
  if (error == std::errc{} && stopped == lower.data() + lower.size() && number >= 1 && number <= 12) {
    return date::month{number};
  }
  for (unsigned month = 1; month <= 12 && lower.size() >= 3; ++month) {
    if (std::string_view{k_names[month - 1]}.starts_with(lower)) return date::month{month};
  }
  refuse(fmt::format("{} '{}' is not a month: write it as 4, apr or april", option, text));
}

forecast::Coordinates parse_place(const std::string& option, const std::string& text) {
  forecast::Coordinates place;
  const char* const end = text.data() + text.size();
  const auto north = std::from_chars(text.data(), end, place.latitude);
  const bool comma = north.ec == std::errc{} && north.ptr != end && *north.ptr == ',';
  const auto east = std::from_chars(comma ? north.ptr + 1 : end, end, place.longitude);
  const bool whole = comma && east.ec == std::errc{} && east.ptr == end;
  if (!whole || !(std::abs(place.latitude) <= 90) || !(std::abs(place.longitude) <= 180)) {
    refuse(fmt::format("{} '{}' is not a place: write degrees north and east, as 40.78,-81.92", option, text));
  }
  return place;
}

std::map<std::string, degree_day::Method> method_words() {
  using degree_day::Method;
  std::map<std::string, Method> choices;
  for (const Method method : {Method::average, Method::average_clipped, Method::single_sine, Method::double_sine,
                              Method::single_triangle, Method::double_triangle}) {
    choices.emplace(name(method), method);
  }
  return choices;
}

std::map<std::string, degree_day::Cutoff> cutoff_words() {
  using degree_day::Cutoff;
  std::map<std::string, Cutoff> choices;
  for (const Cutoff cutoff : {Cutoff::none, Cutoff::horizontal, Cutoff::vertical, Cutoff::intermediate}) {
    choices.emplace(name(cutoff), cutoff);
  }
  return choices;
}

degree_day::Method choose_method(const std::string& text) { return choose("--method", text, method_words()); }

degree_day::Cutoff choose_cutoff(const std::string& text) { return choose("--cutoff", text, cutoff_words()); }

TemperatureUnit choose_unit(const std::string& option, const std::string& text) {
  return choose(option, text, k_units);
}

void add_pest_names(CLI::App& command, std::vector<std::string>& pests) {
  command.add_option("pests", pests, "Pests by common or scientific name, or part of one; all when none is given")
      ->type_name("PEST");
}

void add_hosts(CLI::App& command, std::vector<std::string>& hosts) {
  command.add_option("--host", hosts, "Pests of these plants: boxwood,hemlock")->type_name("PLANT");
}

void add_pest_folder(CLI::App& command, std::string& folder) {
  command
      .add_option("--pests", folder,
                  "A folder of pest files (.json) of your own, added to the shipped ones or in their place")
      ->type_name("DIR");
}

void add_practice(CLI::App& command, PracticeOptions& options) {
  add_sites_file(command, options);
  command
      .add_option("--log", options.log_file,
                  "The scouting log, CSV (default: BUDCLOCK_LOG, else scouting-log.csv beside the sites file)")
      ->type_name("FILE");
  add_pest_folder(command, options.pest_folder);
}

void add_actions_file(CLI::App& command, PracticeOptions& options) {
  command
      .add_option("--actions", options.actions_file,
                  "The action log, CSV (default: BUDCLOCK_ACTIONS, else action-log.csv beside the sites file)")
      ->type_name("FILE");
}

void add_action_practice(CLI::App& command, PracticeOptions& options) {
  add_sites_file(command, options);
  add_actions_file(command, options);
  add_pest_folder(command, options.pest_folder);
}

void add_day(CLI::App& command, const std::string& option, std::optional<Day>& day, const std::string& help) {
  command
      .add_option_function<std::string>(
          option, [&day, option](const std::string& text) { day = parse_day(option, text); }, help)
      ->type_name("DATE");
}

int usual_jobs() { return static_cast<int>(std::max(1U, std::thread::hardware_concurrency())); }

void add_report_units(CLI::App& command, TemperatureUnit& unit) {
  command
      .add_option_function<std::string>(
          "--report-units", [&](const std::string& text) { unit = choose_unit("--report-units", text); },
          "Unit of degree-day columns: F (default) or C")
      ->type_name("F|C");
}

void add_csv_dialect(CLI::App& command, report::CsvDialect& dialect) {
  command
      .add_option_function<std::string>(
          "--delimiter",
          [&dialect](const std::string& text) {
            const std::map<std::string, char> choices{{",", ','}, {";", ';'}, {"\t", '\t'}, {"tab", '\t'}};
            dialect.delimiter = choose("--delimiter", text, choices);
          },
          "What parts the cells of CSV: , (default), ; or tab")
      ->type_name(",|;|tab");
  command
      .add_option_function<std::string>(
          "--decimal",
          [&dialect](const std::string& text) {
            const std::map<std::string, char> choices{{".", '.'}, {",", ','}};
            dialect.decimal = choose("--decimal", text, choices);
          },
          "The decimal mark of CSV: . (default) or , (with --delimiter ;)")
      ->type_name(".|,");
}

void check_csv_dialect(const report::CsvDialect& dialect) {
  if (dialect.delimiter == dialect.decimal) refuse("--decimal , needs another --delimiter: write --delimiter ';' too");
}

const std::map<std::string, Format>& format_words() {
  static const std::map<std::string, Format> k_words{{"csv", Format::csv},      {"html", Format::page},
                                                     {"ics", Format::calendar}, {"json", Format::json},
                                                     {"md", Format::markdown},  {"text", Format::text}};
  return k_words;
}

void add_format(CLI::App& command, Format& format, const std::vector<Format>& formats) {
  std::map<std::string, Format> choices;
  std::string words;
  for (const auto& [word, value] : format_words()) {
    if (std::find(formats.begin(), formats.end(), value) == formats.end()) continue;
    choices.emplace(word, value);
    words += words.empty() ? word : "|" + word;
  }
  command
      .add_option_function<std::string>(
          "--format", [&format, choices](const std::string& text) { format = choose("--format", text, choices); },
          "How the answer is written (default text)")
      ->type_name(words);
}

}  // namespace budclock::cli

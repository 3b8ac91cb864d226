// What the command lines of several commands share: values, words from a fixed set, groups of options.
// Private to the parse_*.cpp files, the only ones that see the command-line library.
#pragma once

#include <budclock/core/nearest.hpp>

#include "completion.hpp"
#include "options.hpp"

#include <CLI/CLI.hpp>
#include <fmt/format.h>
#include <functional>
#include <map>
#include <string>
#include <string_view>
#include <vector>

namespace budclock::cli {

/// A command as the dispatcher knows it: its parser, and what it was asked once parsed.
struct CommandLine {
  CLI::App* app = nullptr;
  std::function<Command()> result;
};

// One for each command, in its own file.
CommandLine add_when(CLI::App& app);
CommandLine add_yearline(CLI::App& app);
CommandLine add_hindcast(CLI::App& app);
CommandLine add_tally(CLI::App& app);
CommandLine add_digest(CLI::App& app);
CommandLine add_nightly(CLI::App& app);
CommandLine add_stops(CLI::App& app);
CommandLine add_note(CLI::App& app);
CommandLine add_pests(CLI::App& app);
CommandLine add_check(CLI::App& app);
CommandLine add_seen(CLI::App& app);
CommandLine add_log(CLI::App& app);
CommandLine add_did(CLI::App& app);
CommandLine add_records(CLI::App& app);
CommandLine add_day_screen(CLI::App& app);

/// Refuses a value; the user reads `message` as a usage error.
[[noreturn]] void refuse(const std::string& message);

/// "50F", "10 C", "50°F": the unit is part of the value, for a threshold without one means nothing.
Temperature parse_threshold(const std::string& option, std::string text);
Day parse_day(const std::string& option, const std::string& text);
MonthDay parse_month_day(const std::string& option, const std::string& text);
/// "4", "04", "apr" or "April".
date::month parse_month(const std::string& option, const std::string& text);
/// "40.78,-81.92": degrees north and east.
forecast::Coordinates parse_place(const std::string& option, const std::string& text);
degree_day::Method choose_method(const std::string& text);
degree_day::Cutoff choose_cutoff(const std::string& text);
TemperatureUnit choose_unit(const std::string& option, const std::string& text);

/// A word from a fixed set, or a refusal that lists the set.
template <class T>
T choose(const std::string& option, const std::string& text, const std::map<std::string, T>& choices) {
  const auto found = choices.find(text);
  if (found != choices.end()) return found->second;
  std::vector<std::string_view> words;
  for (const auto& [word, value] : choices) words.push_back(word);
  const auto nearest = nearest_name(text, words);
  refuse(fmt::format("{} '{}' is none of {}{}", option, text, fmt::join(words, ", "),
                     nearest ? fmt::format(": did you mean {}?", *nearest) : ""));
}

/// "fill|keep|refuse": a type that names its values, for --help, the manual and completion alike.
template <class Words>
std::string values_of(const Words& words) {
  std::string type;
  for (const auto& [word, value] : words) type += fmt::format("{}{}", type.empty() ? "" : "|", word);
  return type;
}
/// The methods and cutoffs of degree-day sums, in words.
std::map<std::string, degree_day::Method> method_words();
std::map<std::string, degree_day::Cutoff> cutoff_words();

/// --weather and what states how its files are to be read, and with `forecasts` also --forecast.
void add_weather(CLI::App& command, WeatherOptions& options, bool forecasts = true);
/// The options that say how files are read: --units, --date-order, --station.
void add_reading(CLI::App& command, weather::ReadOptions& read);
/// Refuses a command line without a weather file. Asked after parsing, so that a misspelt --weather is named first.
void check_weather(const WeatherOptions& options);
/// --sites, --log and --pests.
void add_practice(CLI::App& command, PracticeOptions& options);
/// --actions.
void add_actions_file(CLI::App& command, PracticeOptions& options);
/// --sites, --actions and --pests.
void add_action_practice(CLI::App& command, PracticeOptions& options);
/// A day, such as --today.
void add_day(CLI::App& command, const std::string& option, std::optional<Day>& day, const std::string& help);
/// --pests: a folder of pest files of the user's own.
/// PEST...: the pests asked about.
void add_pest_names(CLI::App& command, std::vector<std::string>& pests);
/// --host: or those of some plants.
void add_hosts(CLI::App& command, std::vector<std::string>& hosts);
void add_pest_folder(CLI::App& command, std::string& folder);
/// How many threads are usual: one for each processor.
int usual_jobs();
inline constexpr int k_most_jobs = 256;

void add_report_units(CLI::App& command, TemperatureUnit& unit);
/// --delimiter and --decimal, of CSV output.
void add_csv_dialect(CLI::App& command, report::CsvDialect& dialect);
/// Refuses a decimal mark that would part cells. Asked after parsing.
void check_csv_dialect(const report::CsvDialect& dialect);
/// --format, limited to the formats that the command can write.
/// The word for each format.
const std::map<std::string, Format>& format_words();

void add_format(CLI::App& command, Format& format, const std::vector<Format>& formats);

/// What may follow `words` (the last is being typed), told from names, types and descriptions of all options.
Completion complete(const CLI::App& app, const std::vector<std::string>& words);
/// The manual page, in the man macros, from the same text as --help.
std::string manual_page(const CLI::App& app);

}  // namespace budclock::cli

#include <budclock/report/check_report.hpp>
#include <budclock/rules/load.hpp>

#include "check_practice.hpp"
#include "commands.hpp"
#include "practice_files.hpp"
#include "weather_input.hpp"

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <ostream>
#include <system_error>

namespace budclock::cli {
namespace {

report::FileCheck check_weather_file(const std::string& path, const weather::ReadOptions& options,
                                     Environment& environment) {
  report::FileCheck check;
  check.file = path == "-" ? "standard input" : path;
  const weather::FileSummary summary = read_weather_file(
      path, options, environment,
      [&](weather::StationRecord&& station) { check.stations.push_back(weather::check_station(station, check.file)); });
  check.what = summary.layout;
  check.facts = report::weather_facts(summary);
  check.problems = summary.diagnostics;
  // Days of a file that cannot be used are not worth a doubt each.
  const bool refused = any_at_least(summary.diagnostics, Severity::error);
  for (weather::StationCheck& station : check.stations) {
    if (!refused) check.problems.insert(check.problems.end(), station.problems.begin(), station.problems.end());
    station.problems = {};
  }
  return check;
}

/// The first bytes of a file: enough to tell what it is. Empty for standard input and what cannot be opened.
std::string beginning_of(const std::string& path) {
  std::string text(k_enough_to_tell, '\0');
  std::ifstream file;
  std::error_code ignored;
  if (path != "-" && std::filesystem::is_regular_file(path, ignored)) file.open(path, std::ios::binary);
  file.read(text.data(), static_cast<std::streamsize>(text.size()));
  text.resize(static_cast<std::size_t>(file.gcount()));
  return text;
}

/// A sites file or a log; the names of a log are held against the usual sites file, where there is one.
report::FileCheck check_practice_file(const std::string& path, PracticeFile kind, Environment& environment) {
  report::FileCheck check;
  check.file = path;
  const auto text = read_whole_file(path, check.problems);
  if (!text) return check;
  const rules::PestTable table = rules::shipped_table();
  if (kind == PracticeFile::sites) {
    check.what = "sites file";
    check.problems = check_sites_text(*text, path, table, environment.today);
    return check;
  }
  const bool actions = kind == PracticeFile::actions;
  check.what = actions ? "action log" : "scouting log";
  Diagnostics of_sites;
  std::vector<std::string> names;
  if (!find_sites_file({}, environment).empty()) {
    if (const auto sites = read_sites_file({}, environment, table, of_sites)) names = sites->names();
  }
  const journal::LogContext context{table, names, environment.today};
  check.problems = actions ? check_actions_text(*text, path, context) : check_log_text(*text, path, context);
  return check;
}

report::FileCheck check_file(const std::string& path, const weather::ReadOptions& options, Environment& environment) {
  const PracticeFile kind = practice_file(beginning_of(path));
  return kind == PracticeFile::neither ? check_weather_file(path, options, environment)
                                       : check_practice_file(path, kind, environment);
}

std::string written(const std::vector<report::FileCheck>& files, Format format, const Environment& environment) {
  switch (format) {
    case Format::csv:
      return report::check_csv(files);
    case Format::json:
      return report::check_json(files);
    default:
      break;
  }
  return report::check_text(files, {environment.width, environment.colour});
}

}  // namespace

ExitStatus run_check(const CheckOptions& options, Environment& environment) {
  std::vector<report::FileCheck> files;
  for (const std::string& path : options.files) files.push_back(check_file(path, options.read, environment));
  environment.out << written(files, options.format, environment);
  const auto has = [](Severity severity) {
    return [severity](const report::FileCheck& file) { return any_at_least(file.problems, severity); };
  };
  if (std::all_of(files.begin(), files.end(), has(Severity::error))) return ExitStatus::no_answer;
  return std::any_of(files.begin(), files.end(), has(Severity::fault)) ? ExitStatus::set_aside : ExitStatus::answered;
}

}  // namespace budclock::cli

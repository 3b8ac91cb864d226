#include <budclock/report/check_report.hpp>

#include "commands.hpp"
#include "weather_input.hpp"

#include <algorithm>
#include <ostream>

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
  for (weather::StationCheck& station : check.stations) {
    check.problems.insert(check.problems.end(), station.problems.begin(), station.problems.end());
    station.problems = {};
  }
  return check;
}

std::string written(const std::vector<report::FileCheck>& files, Format format, const Environment& environment) {
  switch (format) {
    case Format::csv:
      return report::check_csv(files);
    case Format::json:
      return report::check_json(files);
    case Format::text:
      break;
  }
  return report::check_text(files, {environment.width, environment.colour});
}

}  // namespace

ExitStatus run_check(const CheckOptions& options, Environment& environment) {
  std::vector<report::FileCheck> files;
  for (const std::string& path : options.files) files.push_back(check_weather_file(path, options.read, environment));
  environment.out << written(files, options.format, environment);
  const auto has = [](Severity severity) {
    return [severity](const report::FileCheck& file) { return any_at_least(file.problems, severity); };
  };
  if (std::all_of(files.begin(), files.end(), has(Severity::error))) return ExitStatus::no_answer;
  return std::any_of(files.begin(), files.end(), has(Severity::fault)) ? ExitStatus::set_aside : ExitStatus::answered;
}

}  // namespace budclock::cli

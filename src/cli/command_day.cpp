#include <budclock/files/open_file.hpp>
#include <budclock/forecast/day_screen.hpp>
#include <budclock/report/day_report.hpp>
#include <budclock/rules/day_limits.hpp>
#include <budclock/rules/load.hpp>
#include <budclock/weather/hourly_forecast.hpp>

#include "commands.hpp"
#include "messages.hpp"
#include "pest_files.hpp"
#include "practice_files.hpp"
#include "site_weather.hpp"

#include <fcntl.h>
#include <filesystem>
#include <fmt/format.h>
#include <ostream>
#include <system_error>

namespace budclock::cli {
namespace {

/// The hours of one file; none, after an error, when it cannot be read as an hourly forecast.
std::vector<weather::ForecastHour> read_hours(const std::string& path, Environment& environment,
                                              Diagnostics& diagnostics) {
  weather::ProblemList problems{path};
  std::vector<weather::ForecastHour> hours;
  try {
    if (path == "-") {
      weather::StreamSource source{environment.in};
      hours = weather::read_hourly_forecast(source, problems);
    } else if (const files::OpenFile file{path, O_RDONLY}; file.is_open()) {
      weather::DescriptorSource source{file.get()};
      hours = weather::read_hourly_forecast(source, problems);
    } else {
      problems.add(Severity::error, 0, 0, fmt::format("cannot be opened ({})", files::reason(file.error())),
                   "check the name and the permissions");
    }
  } catch (const std::system_error& failure) {
    problems.add(Severity::error, 0, 0, fmt::format("cannot be read ({})", failure.code().message()),
                 "check the file and the disk");
  }
  for (Diagnostic& entry : problems.take()) diagnostics.push_back(std::move(entry));
  return hours;
}

/// Of the site's own forecasts the first that has hours. Those of days and nights are no fault: they serve others.
std::vector<weather::ForecastHour> hours_of_site(const sites::Site& site, const SitesFile& file,
                                                 Environment& environment, Diagnostics& diagnostics) {
  Diagnostics why_none;
  const WeatherRequest request = request_of(site, std::filesystem::path{file.path}.parent_path().string(), why_none);
  for (const WeatherFile& each : request.forecasts) {
    Diagnostics of_file;
    auto hours = read_hours(each.path, environment, of_file);
    if (hours.empty()) {
      why_none.insert(why_none.end(), of_file.begin(), of_file.end());
      continue;
    }
    diagnostics.insert(diagnostics.end(), of_file.begin(), of_file.end());
    return hours;
  }
  diagnostics.insert(diagnostics.end(), why_none.begin(), why_none.end());
  diagnostics.push_back({Severity::error, site.place, fmt::format("\"{}\" has no hourly forecast", site.name),
                         "name the Weather Service's hourly forecast with --forecast, or among the site's forecasts"});
  return {};
}

std::string written(const forecast::DayScreen& screen, const rules::PestTable& table, Format format,
                    const Environment& environment) {
  if (format == Format::csv) return report::day_csv(screen);
  if (format == Format::json) return report::day_json(screen);
  return report::day_text(screen, table, {environment.width, environment.colour});
}

}  // namespace

ExitStatus run_day(const DayOptions& options, Environment& environment) {
  Diagnostics diagnostics;
  const auto table = load_pests(options.practice.pest_folder, environment, diagnostics);
  if (!table) return ExitStatus::no_answer;
  Diagnostics found;
  const auto limits = rules::load_day_limits(rules::shipped_files(), *table, found);
  const auto file = read_sites_file(options.practice, environment, *table, found);
  std::string problem;
  const sites::Site* site = file ? find_site(*file, options.site, problem) : nullptr;
  if (site == nullptr) {
    print(found, environment);
    if (file) complain(problem, environment);
    return file && !any_at_least(found, Severity::error) ? ExitStatus::usage : ExitStatus::no_answer;
  }
  const auto hours = options.forecast.empty() ? hours_of_site(*site, *file, environment, found)
                                              : read_hours(options.forecast, environment, found);
  print(found, environment);
  if (hours.empty()) return ExitStatus::no_answer;

  const Day today = options.today.value_or(environment.today);
  const forecast::DayScreen screen =
      forecast::screen_days(site->name, {site->latitude, site->longitude}, options.kind, limits, hours, today);
  if (screen.hours.empty()) {
    complain(fmt::format("the forecast ended on {}, before {}: get a new one", iso(hours.back().day), iso(today)),
             environment);
    return ExitStatus::no_answer;
  }
  environment.out << written(screen, *table, options.format, environment);
  diagnostics.insert(diagnostics.end(), found.begin(), found.end());
  return answered_with(diagnostics);
}

}  // namespace budclock::cli

#include <budclock/forecast/day_screen.hpp>
#include <budclock/report/day_report.hpp>

#include "commands.hpp"
#include "file_patterns.hpp"
#include "messages.hpp"
#include "pest_files.hpp"
#include "practice_files.hpp"
#include "site_hours.hpp"
#include "site_weather.hpp"

#include <fmt/format.h>
#include <ostream>

namespace budclock::cli {
namespace {

/// Of the site's own forecasts the first that has hours.
SiteHours hours_of_site(const sites::Site& site, const SitesFile& file, Environment& environment,
                        Diagnostics& diagnostics) {
  Diagnostics why_none;
  const WeatherRequest request = request_of(site, folder_of(file.path), why_none);
  SiteHours found = first_hours(request, environment, diagnostics, why_none);
  if (!found.hours.empty()) return found;
  diagnostics.insert(diagnostics.end(), why_none.begin(), why_none.end());
  diagnostics.push_back({Severity::error, site.place, fmt::format("\"{}\" has no hourly forecast", site.name),
                         "name the Weather Service's hourly forecast with --forecast, or among the site's forecasts"});
  return {};
}

std::string written(const forecast::DayScreen& screen, const sites::DayFacts& facts, const rules::PestTable& table,
                    Format format, const Environment& environment) {
  if (format == Format::csv) return report::day_csv(screen, facts);
  if (format == Format::json) return report::day_json(screen, facts);
  return report::day_text(screen, facts, table, {environment.width, environment.colour});
}

}  // namespace

ExitStatus run_day(const DayOptions& options, Environment& environment) {
  Diagnostics diagnostics;
  const auto table = load_pests(options.practice.pest_folder, environment, diagnostics);
  if (!table) return ExitStatus::no_answer;
  Diagnostics found;
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
  if (hours.hours.empty()) return ExitStatus::no_answer;

  const Day today = options.today.value_or(environment.today);
  const ScreenedSite place = screened(*site, *table);
  forecast::DayScreen screen = forecast::screen_days(site->name, place.place, options.kind, place.limits, hours.hours,
                                                     today, ground_of(*site, today));
  screen.elsewhere = forecast::elsewhere_text(hours.outline, place.place);
  if (screen.hours.empty()) {
    complain(fmt::format("the forecast ended on {}, before {}: get a new one", iso(hours.hours.back().day), iso(today)),
             environment);
    return ExitStatus::no_answer;
  }
  const sites::DayFacts facts = sites::day_facts(*site, *table, options.kind, today);
  environment.out << written(screen, facts, *table, options.format, environment);
  diagnostics.insert(diagnostics.end(), found.begin(), found.end());
  return answered_with(diagnostics);
}

}  // namespace budclock::cli

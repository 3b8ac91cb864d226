#include <budclock/forecast/evaluate.hpp>
#include <budclock/report/when_report.hpp>
#include <budclock/rules/load.hpp>

#include "commands.hpp"
#include "pest_choice.hpp"
#include "weather_input.hpp"

#include <fmt/format.h>
#include <ostream>
#include <utility>

namespace budclock::cli {
namespace {

std::string written(const forecast::SiteForecast& forecast, const rules::PestTable& table, const WhenOptions& options,
                    const Environment& environment) {
  switch (options.format) {
    case Format::csv:
      return report::when_csv(forecast, options.report_units);
    case Format::json:
      return report::when_json(forecast, table);
    case Format::text:
      break;
  }
  return report::when_text(forecast, table, {environment.width, environment.colour}, options.detail);
}

}  // namespace

ExitStatus run_when(const WhenOptions& options, Environment& environment) {
  Diagnostics diagnostics;
  const rules::PestTable table = rules::load(rules::shipped_files(), diagnostics);
  const PestChoice choice = choose_pests(table, options.pests, options.hosts);
  for (const std::string& problem : choice.problems) environment.err << "budclock: " << problem << '\n';
  if (!choice.problems.empty()) return ExitStatus::usage;

  const Day today = options.today.value_or(environment.today);
  auto record = read_site_record(request_of(options.weather), today, environment, diagnostics);
  print(diagnostics, environment);
  if (!record) return ExitStatus::no_answer;

  const forecast::SiteWeather weather{std::move(record->days), today, std::move(record->notes)};
  const forecast::Question question{
      .site = options.name.empty() ? record->name : options.name, .pests = choice.pests, .method = options.method};
  const forecast::SiteForecast forecast = forecast::evaluate(question, weather);
  environment.out << written(forecast, table, options, environment);
  if (forecast.weather.too_old) {
    environment.err << "budclock: the weather ends too long before " << iso(today) << ": nothing new can be answered\n";
    return ExitStatus::no_answer;
  }
  return answered_with(diagnostics);
}

}  // namespace budclock::cli

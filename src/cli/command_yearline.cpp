#include <budclock/forecast/evaluate.hpp>
#include <budclock/forecast/yearline.hpp>
#include <budclock/report/yearline_report.hpp>

#include "commands.hpp"
#include "messages.hpp"
#include "pest_files.hpp"
#include "weather_input.hpp"

#include <ostream>
#include <utility>

namespace budclock::cli {
namespace {

std::string written(const forecast::YearLine& line, const rules::PestTable& table, Format format,
                    const Environment& environment) {
  switch (format) {
    case Format::csv:
      return report::yearline_csv(line);
    case Format::json:
      return report::yearline_json(line, table);
    default:
      break;
  }
  return report::yearline_text(line, table, {environment.width, environment.colour});
}

}  // namespace

ExitStatus run_yearline(const YearlineOptions& options, Environment& environment) {
  Diagnostics of_pests;
  const auto loaded = load_pests(options.pest_folder, environment, of_pests);
  if (!loaded) return ExitStatus::no_answer;
  const rules::PestTable& table = *loaded;
  const auto asked = pests_asked(table, options.pests, {}, environment);
  if (!asked) return ExitStatus::usage;

  Diagnostics diagnostics;
  const Day today = options.today.value_or(environment.today);
  auto record = read_site_record(request_of(options.weather), today, environment, diagnostics);
  print(diagnostics, environment);
  if (!record) return ExitStatus::no_answer;

  const forecast::SiteWeather weather{std::move(record->days), today, std::move(record->notes)};
  const forecast::Question question{
      .site = printable(options.name.empty() ? record->name : options.name), .pests = *asked, .method = {}};
  const forecast::SiteForecast site = forecast::evaluate(question, weather);
  environment.out << written(year_line(site, table.companions, weather), table, options.format, environment);
  diagnostics.insert(diagnostics.end(), of_pests.begin(), of_pests.end());
  return answered_with(diagnostics);
}

}  // namespace budclock::cli

#include <budclock/forecast/hindcast.hpp>
#include <budclock/report/hindcast_report.hpp>
#include <budclock/rules/load.hpp>

#include "commands.hpp"
#include "hindcast_against.hpp"
#include "pest_choice.hpp"
#include "weather_input.hpp"

#include <fmt/format.h>
#include <ostream>

namespace budclock::cli {
namespace {

std::string written(const forecast::Hindcast& hindcast, Format format, const Environment& environment) {
  switch (format) {
    case Format::csv:
      return report::hindcast_csv(hindcast);
    case Format::json:
      return report::hindcast_json(hindcast);
    case Format::text:
      break;
  }
  return report::hindcast_text(hindcast, {environment.width, environment.colour});
}

}  // namespace

ExitStatus run_hindcast(const HindcastOptions& options, Environment& environment) {
  Diagnostics diagnostics;
  const rules::PestTable table = rules::load(rules::shipped_files(), diagnostics);
  const PestChoice choice = choose_pests(table, options.pests);
  for (const std::string& problem : choice.problems) environment.err << "budclock: " << problem << '\n';
  if (!choice.problems.empty()) return ExitStatus::usage;

  auto record = read_site_record(request_of(options.weather), environment.today, environment, diagnostics);
  print(diagnostics, environment);
  if (!record) return ExitStatus::no_answer;

  const forecast::HindcastQuestion question{.site = options.name.empty() ? record->name : options.name,
                                            .pests = choice.pests,
                                            .leads = options.leads,
                                            .known_days = options.known_days};
  if (!options.against.empty()) {
    return run_against(options, table, question, record->days, diagnostics, environment);
  }
  const forecast::Hindcast hindcast = forecast::hindcast(question, record->days);
  if (hindcast.figures.empty()) {
    environment.err << "budclock: no degree-day figure dates these pests: there is nothing to replay\n";
    return ExitStatus::no_answer;
  }
  if (!hindcast.enough()) {
    environment.err << fmt::format(
        "budclock: the record has {} whole {} and a hindcast needs {}: one to forecast and {} others to forecast "
        "it from. Add older years with a second --weather file\n",
        hindcast.seasons, hindcast.seasons == 1 ? "season" : "seasons", forecast::k_seasons_for_hindcast,
        forecast::k_members_for_odds);
    return ExitStatus::no_answer;
  }
  environment.out << written(hindcast, options.format, environment);
  return answered_with(diagnostics);
}

}  // namespace budclock::cli

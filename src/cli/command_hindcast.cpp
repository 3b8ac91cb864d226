#include <budclock/forecast/hindcast.hpp>
#include <budclock/report/hindcast_report.hpp>

#include "commands.hpp"
#include "hindcast_against.hpp"
#include "messages.hpp"
#include "pest_files.hpp"
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
    default:
      break;
  }
  return report::hindcast_text(hindcast, {environment.width, environment.colour});
}

}  // namespace

ExitStatus run_hindcast(const HindcastOptions& options, Environment& environment) {
  Diagnostics diagnostics;
  const auto table = load_pests(options.pest_folder, environment, diagnostics);
  if (!table) return ExitStatus::no_answer;
  const auto asked = pests_asked(*table, options.pests, {}, environment);
  if (!asked) return ExitStatus::usage;

  auto record = read_site_record(request_of(options.weather), environment.today, environment, diagnostics);
  print(diagnostics, environment);
  if (!record) return ExitStatus::no_answer;

  const forecast::HindcastQuestion question{.site = options.name.empty() ? record->name : options.name,
                                            .pests = *asked,
                                            .leads = options.leads,
                                            .known_days = options.known_days};
  if (!options.against.empty()) {
    return run_against(options, *table, question, record->days, diagnostics, environment);
  }
  const forecast::Hindcast hindcast = forecast::hindcast(question, record->days);
  if (hindcast.figures.empty()) {
    complain("no degree-day figure dates these pests: there is nothing to replay", environment);
    return ExitStatus::no_answer;
  }
  if (!hindcast.enough()) {
    complain(
        fmt::format("the record has {} whole {} and a hindcast needs {}: one to forecast and {} others to forecast "
                    "it from. Add older years with a second --weather file",
                    hindcast.seasons, hindcast.seasons == 1 ? "season" : "seasons", forecast::k_seasons_for_hindcast,
                    forecast::k_members_for_odds),
        environment);
    return ExitStatus::no_answer;
  }
  environment.out << written(hindcast, options.format, environment);
  return answered_with(diagnostics);
}

}  // namespace budclock::cli

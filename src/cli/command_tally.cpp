#include <budclock/report/tally.hpp>
#include <budclock/weather/reader.hpp>

#include "commands.hpp"
#include "messages.hpp"
#include "weather_input.hpp"

#include <ostream>

namespace budclock::cli {

ExitStatus run_tally(const TallyOptions& options, Environment& environment) {
  Diagnostics diagnostics;
  const auto record = read_site_record(request_of(options.weather), environment.today, environment, diagnostics);
  print(diagnostics, environment);
  if (!record) return ExitStatus::no_answer;

  for (const std::string& note : record->notes) environment.err << note << '\n';
  print(weather::gap_notes(record->days, record->name), environment);
  const Day first = record->days.first;
  const Day start = in_year(options.start, year_of(first));
  if (first != start) {
    environment.err << "The record begins on " << iso(first) << ", the sum on " << iso(options.start)
                    << ": the sum up to the next start leaves out what came before the record.\n";
  }
  environment.out << report::tally_csv(record->days, options.formula, options.start, options.report_units,
                                       options.decimals);
  return answered_with(diagnostics);
}

}  // namespace budclock::cli

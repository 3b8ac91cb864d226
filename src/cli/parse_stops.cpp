#include "parse_common.hpp"

#include <memory>

namespace budclock::cli {

CommandLine add_stops(CLI::App& app) {
  const auto shared = std::make_shared<StopsOptions>();
  StopsOptions& options = *shared;
  report::Crews& crews = options.crews;
  CLI::App* command = app.add_subcommand("stops", "Which sites to visit on which day, and which do not fit");
  command->footer(R"(Examples:
  budclock stops --sites sites.csv --crew 2 --hours 8
  budclock stops --crew 1 --hours 6 --days 3 --stop-hours 0.5 --format csv > stops.csv)");
  add_pest_names(*command, options.pests);
  add_hosts(*command, options.hosts);
  add_practice(*command, options.practice);
  add_actions_file(*command, options.practice);
  add_day(*command, "--today", options.today, "Plan from this day on (default: the local date)");
  command->add_option("--crew", crews.count, "How many crews there are (default 1)")
      ->check(CLI::Range(1, 100))
      ->type_name("N");
  command->add_option("--hours", crews.hours, "Hours of a crew's day, with the ways between stops (default 8)")
      ->check(CLI::Range(0.25, 24.0))
      ->type_name("H");
  command->add_option("--days", crews.days, "How many days to plan (default 5)")
      ->check(CLI::Range(1, 14))
      ->type_name("N");
  command->add_option("--stop-hours", crews.stop_hours, "How long a stop takes (1 h is assumed)")
      ->check(CLI::Range(0.05, 24.0))
      ->type_name("H");
  command->add_option("--speed", crews.km_per_hour, "Between stops, in a straight line (40 km/h is assumed)")
      ->check(CLI::Range(1.0, 150.0))
      ->type_name("KM/H");
  command->add_option("--area", crews.area_km, "Stops so near to a day's first are one area (10 km is assumed)")
      ->check(CLI::Range(0.0, 1000.0))
      ->type_name("KM");
  add_format(*command, options.format, {Format::text, Format::markdown, Format::csv, Format::calendar});
  add_csv_dialect(*command, options.csv);
  return {command, [shared] {
            check_csv_dialect(shared->csv);
            return Command{*shared};
          }};
}

}  // namespace budclock::cli

#include "parse_common.hpp"

#include <memory>

namespace budclock::cli {

CommandLine add_log(CLI::App& app) {
  const auto shared = std::make_shared<LogOptions>();
  LogOptions& options = *shared;
  CLI::App* command = app.add_subcommand("log", "Show the scouting log");
  command->footer(R"(Examples:
  budclock log --site "Mill Lane" --from 2014-04-01
  budclock log --pest hemlock --format csv > hemlock.csv)");
  command->add_option("--site", options.sites, "Only rows of this site; may be repeated")
      ->type_name("NAME")
      ->allow_extra_args(false);
  command->add_option("--pest", options.pests, "Only rows of these pests")->type_name("PEST")->allow_extra_args(false);
  add_day(*command, "--from", options.from, "Only rows of this day and later");
  add_day(*command, "--to", options.to, "Only rows up to this day");
  add_day(*command, "--today", options.today,
          "Take this day as today: later rows are faults (default: the local date)");
  add_format(*command, options.format, {Format::text, Format::csv, Format::json});
  add_practice(*command, options.practice);
  return {command, [shared] {
            if (shared->from && shared->to && *shared->to < *shared->from) refuse("--to lies before --from");
            return Command{*shared};
          }};
}

}  // namespace budclock::cli

#include "parse_common.hpp"

#include <memory>

namespace budclock::cli {

CommandLine add_records(CLI::App& app) {
  const auto shared = std::make_shared<RecordsOptions>();
  RecordsOptions& options = *shared;
  CLI::App* command = app.add_subcommand("records", "Show the action log, or export a season for an inspector");
  command->footer(R"(Examples:
  budclock records --site "Mill Lane" --from 2014-04-01
  budclock records --for-inspector --season 2014 --format csv > records-2014.csv)");
  command->add_option("--site", options.sites, "Only rows of this site; may be repeated")
      ->type_name("NAME")
      ->allow_extra_args(false);
  command->add_option("--pest", options.pests, "Only rows of these pests")->type_name("PEST")->allow_extra_args(false);
  command->add_option("--season", options.season, "Only rows of this calendar year")->type_name("YEAR");
  add_day(*command, "--from", options.from, "Only rows of this day and later");
  add_day(*command, "--to", options.to, "Only rows up to this day");
  add_day(*command, "--today", options.today,
          "Take this day as today: later rows are faults (default: the local date)");
  command->add_flag("--for-inspector", options.for_inspector,
                    "Every field as typed, those from labels too, and which required ones are missing; one season");
  add_format(*command, options.format, {Format::text, Format::csv, Format::json});
  add_action_practice(*command, options.practice);
  return {command, [shared] {
            if (shared->from && shared->to && *shared->to < *shared->from) refuse("--to lies before --from");
            if (shared->season && (*shared->season < k_first_year || *shared->season > k_last_year)) {
              refuse(fmt::format("--season {} is not a year: write it as 2014", *shared->season));
            }
            if (shared->for_inspector && !shared->season) {
              refuse("--for-inspector exports one season: name it with --season");
            }
            return Command{*shared};
          }};
}

}  // namespace budclock::cli

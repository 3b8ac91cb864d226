#include "parse_common.hpp"

#include <memory>

namespace budclock::cli {

CommandLine add_seen(CLI::App& app) {
  const auto shared = std::make_shared<SeenOptions>();
  SeenOptions& options = *shared;
  CLI::App* command = app.add_subcommand("seen", "Record what you saw at a site, in the scouting log");
  command->footer(R"(Examples:
  budclock seen --pest boxwood --list        what can be recorded
  budclock seen --site "Mill Lane" --pest boxwood --saw open-buds,nymphs --not-saw cupping,bloom
  budclock seen --site "Mill Lane" --pest boxwood --stage egg-hatch --date 2014-04-21
  budclock seen --site "Gorge View" --pest "hemlock woolly" --not-found --count 0/20)");
  command->add_option("--site", options.site, "The site, as in the sites file")->type_name("NAME");
  command->add_option("--pest", options.pest, "The pest looked for, by name or part of one")->type_name("PEST");
  command->add_option("--stage", options.stage, "The stage that was found (or looked for: --not-found)")
      ->type_name("STAGE");
  command->add_option("--saw", options.saw, "Observations, parted by commas")->type_name("IDS");
  command->add_option("--not-saw", options.not_saw, "Observations looked for and not there")->type_name("IDS");
  command->add_flag("--not-found", options.not_found, "The stage, or without one the pest, was not there");
  command->add_option("--count", options.count, "How many of how many samples had it, as 7/20")->type_name("N/M");
  command->add_option("--plant", options.plant, "The plant looked at")->type_name("TEXT");
  add_day(*command, "--date", options.date, "The day it was seen (default: today)");
  command->add_option("--by", options.by, "Who saw it")->type_name("TEXT");
  command->add_option("--note", options.note, "Anything else")->type_name("TEXT");
  add_day(*command, "--today", options.today, "Take this day as today (default: the local date)");
  command->add_flag("--list", options.list, "Show what can be recorded of the pest, and record nothing");
  add_practice(*command, options.practice);
  return {command, [shared] {
            if (shared->pest.empty()) refuse("no pest: name the one looked for with --pest");
            if (shared->site.empty() && !shared->list) refuse("no site: name it with --site");
            return Command{*shared};
          }};
}

}  // namespace budclock::cli

#include "parse_common.hpp"

#include <memory>

namespace budclock::cli {

CommandLine add_did(CLI::App& app) {
  const auto shared = std::make_shared<DidOptions>();
  DidOptions& options = *shared;
  CLI::App* command = app.add_subcommand("did", "Record what you did against a pest, in the action log");
  command->footer(R"(What is typed from a label stays in the action log and in what
budclock records --for-inspector writes. The weather of the day is added from
the site's record. Local rules decide what must be recorded, and for how long.

Examples:
  budclock did --site "Gorge View" --pest "hemlock woolly" --action oil --date 2014-04-10
  budclock did --site "Mill Lane" --pest boxwood --action prune --plants "front hedge")");
  command->add_option("--site", options.site, "The site, as in the sites file")->type_name("NAME");
  command->add_option("--pest", options.pest, "The pest it was done against, by name or part of one")
      ->type_name("PEST");
  command->add_option("--action", options.action, "Its kind")
      ->type_name("prune|pick|contact|soap|oil|soil-systemic|trunk-systemic|foliar-systemic|quarantine");
  add_day(*command, "--date", options.date, "The day it was done (default: today)");
  const std::map<std::string_view, const char*> help{
      {"product", "Brand name, from the label"},
      {"registration", "Registration number, from the label"},
      {"amount", "Amount applied in all, as you measured it"},
      {"area", "Size of the area treated"},
      {"plants", "The plants treated"},
      {"applicator", "Who applied it"},
      {"licence", "The applicator's licence or certification number"},
      {"reentry", "Re-entry interval, from the label"},
      {"preharvest", "Pre-harvest interval, from the label"},
      {"notice", "The notice that was given"},
      {"note", "Anything else"},
  };
  for (const journal::ActionText& each : journal::k_action_texts) {
    command->add_option("--" + std::string{each.column}, options.texts.*each.text, help.at(each.column))
        ->type_name("TEXT");
  }
  add_day(*command, "--today", options.today, "Take this day as today (default: the local date)");
  add_action_practice(*command, options.practice);
  return {command, [shared] {
            if (shared->pest.empty()) refuse("no pest: name the one it was done against with --pest");
            if (shared->site.empty()) refuse("no site: name it with --site");
            if (shared->action.empty()) refuse("no action: name its kind with --action, such as oil or prune");
            return Command{*shared};
          }};
}

}  // namespace budclock::cli

#include "parse_common.hpp"

#include <memory>

namespace budclock::cli {

CommandLine add_day_screen(CLI::App& app) {
  const auto shared = std::make_shared<DayOptions>();
  DayOptions& options = *shared;
  CLI::App* command = app.add_subcommand("day", "The coming hours at a site against the limits of a kind of action");
  command->footer(R"(Examples:
  budclock day --site "Mill Lane" --action oil --forecast hourly.json
  budclock day --site "Mill Lane" --action contact --format csv > hours.csv
An hour without a stated limit is no permission: the label and the law decide.)");
  command->add_option("--site", options.site, "The site, as the sites file names it")->type_name("NAME");
  command->add_option("--action", options.action, "Its kind; systemic: into the soil")
      ->type_name(values_of(rules::k_day_action_names));
  command
      ->add_option("--forecast", options.forecast,
                   "The Weather Service's hourly forecast, JSON (default: the site's own forecasts)")
      ->type_name("FILE");
  add_day(*command, "--today", options.today, "Take this day as today (default: the local date)");
  add_format(*command, options.format, {Format::text, Format::csv, Format::json});
  add_practice(*command, options.practice);
  return {command, [shared] {
            if (shared->site.empty()) refuse("no site: name it with --site");
            if (shared->action.empty()) refuse("no action: write --action contact, oil or systemic");
            shared->kind = choose("--action", shared->action,
                                  std::map<std::string, rules::DayAction>{rules::k_day_action_names.begin(),
                                                                          rules::k_day_action_names.end()});
            return Command{*shared};
          }};
}

}  // namespace budclock::cli

#include "parse_common.hpp"

#include <memory>

namespace budclock::cli {

CommandLine add_when(CLI::App& app) {
  const auto shared = std::make_shared<WhenOptions>();
  WhenOptions& options = *shared;
  CLI::App* command = app.add_subcommand("when", "When to look, when to act, what to leave alone");
  command->footer(R"(Examples:
  budclock when --weather home.csv                 every pest, today
  budclock when boxwood --weather home.csv         one pest
  budclock when hemlock --weather home.csv --why   with every source's figure
  budclock when --weather home.csv --format csv > due.csv
  budclock when --weather logger.csv station.csv   the second fills the first)");
  command
      ->add_option("pests", options.pests, "Pests by common or scientific name, or part of one; all when none is given")
      ->type_name("PEST");
  command->add_option("--host", options.hosts, "Pests of these plants: boxwood,hemlock")->type_name("PLANT");
  add_weather(*command, options.weather);
  command
      ->add_option_function<std::string>(
          "--today", [shared](const std::string& text) { shared->today = parse_day("--today", text); },
          "Answer as of this day; weather after it is not looked at (default: the local date)")
      ->type_name("DATE");
  add_format(*command, options.format, {Format::text, Format::csv, Format::json});
  command->add_option("--name", options.name, "Name of the site in the report")->type_name("NAME");
  command
      ->add_option_function<std::string>(
          "--method", [shared](const std::string& text) { shared->method = choose_method(text); },
          "Sum degree-days by this method in place of the one each figure was made with")
      ->type_name("METHOD");
  add_report_units(*command, options.report_units);
  command->add_flag_callback(
      "--why", [shared] { shared->detail = report::Detail::why; }, "Show every source's figure and what it gives here");
  command->add_flag_callback(
      "--brief", [shared] { shared->detail = report::Detail::brief; }, "Only what concerns now and the next 14 days");
  return {command, [shared] {
            check_weather(shared->weather);
            return Command{*shared};
          }};
}

}  // namespace budclock::cli

#include "parse_common.hpp"

#include <memory>

namespace budclock::cli {

CommandLine add_yearline(CLI::App& app) {
  const auto shared = std::make_shared<YearlineOptions>();
  YearlineOptions& options = *shared;
  CLI::App* command = app.add_subcommand("yearline", "The whole year in order, with blooms to check the sums against");
  command->footer(R"(Examples:
  budclock yearline --weather home.csv             every pest, other pests and blooms
  budclock yearline hemlock --weather home.csv     one pest among them
  budclock yearline --weather home.csv --format csv > year.csv)");
  add_pest_names(*command, options.pests);
  add_weather(*command, options.weather);
  command
      ->add_option_function<std::string>(
          "--today", [shared](const std::string& text) { shared->today = parse_day("--today", text); },
          "Answer as of this day; weather after it is not looked at (default: the local date)")
      ->type_name("DATE");
  add_pest_folder(*command, options.pest_folder);
  add_format(*command, options.format, {Format::text, Format::csv, Format::json});
  command->add_option("--name", options.name, "Name of the site in the report")->type_name("NAME");
  return {command, [shared] {
            check_weather(shared->weather);
            return Command{*shared};
          }};
}

}  // namespace budclock::cli

#include "parse_common.hpp"

#include <memory>

namespace budclock::cli {

CommandLine add_pests(CLI::App& app) {
  const auto shared = std::make_shared<PestsOptions>();
  PestsOptions& options = *shared;
  CLI::App* command = app.add_subcommand("pests", "What is known of each pest, with sources");
  command->footer(R"(Examples:
  budclock pests                 a list of all
  budclock pests hemlock         all that is known of one
  budclock pests --format json   for programs)");
  command->add_option("pests", options.pests, "Pests to show in full; a list of all when none is given")
      ->type_name("PEST");
  add_hosts(*command, options.hosts);
  command
      ->add_option_function<std::string>(
          "--due", [shared](const std::string& text) { shared->due = parse_month("--due", text); },
          "Pests with something to do or to leave alone in this month, by the calendar of their sources: 4, april")
      ->type_name("MONTH");
  add_pest_folder(*command, options.pest_folder);
  add_format(*command, options.format, {Format::text, Format::json});
  return {command, [shared] { return Command{*shared}; }};
}

}  // namespace budclock::cli

#include "parse_common.hpp"

#include <memory>

namespace budclock::cli {

CommandLine add_check(CLI::App& app) {
  const auto shared = std::make_shared<CheckOptions>();
  CheckOptions& options = *shared;
  CLI::App* command =
      app.add_subcommand("check", "What a weather file, sites file or log holds, and what is wrong with it");
  command->footer(R"(Examples:
  budclock check home.csv
  budclock check logger/*.csv --units F
  budclock check home.csv --format csv > problems.csv
  budclock check budclock-sites.json scouting-log.csv

Exit status: 0 clean; 1 something is wrong; 3 no file could be used.)");
  command->add_option("files", options.files, "Files to look through; - is standard input")->type_name("FILE");
  add_reading(*command, options.read);
  add_format(*command, options.format, {Format::text, Format::csv, Format::json});
  return {command, [shared] {
            if (shared->files.empty()) refuse("no file: name one or more to check");
            return Command{*shared};
          }};
}

}  // namespace budclock::cli

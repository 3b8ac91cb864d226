#include "parse_common.hpp"

#include <memory>

namespace budclock::cli {

CommandLine add_digest(CLI::App& app) {
  const auto shared = std::make_shared<DigestOptions>();
  DigestOptions& options = *shared;
  CLI::App* command = app.add_subcommand("digest", "One page from the folders of several nightly runs");
  command->footer(R"(Examples:
  budclock digest reports/1 reports/2
  budclock digest reports/* --format html > digest.html)");
  command->add_option("folders", options.folders, "Folders that `budclock nightly` wrote, of the same day")
      ->type_name("DIR");
  command
      ->add_option("--pests", options.pest_folder, "The folder of pest files of your own that the parts were made with")
      ->type_name("DIR");
  add_day(*command, "--today", options.today, "The day that the parts should be of (default: the local date)");
  add_format(*command, options.format, {Format::text, Format::markdown, Format::csv, Format::json, Format::page});
  add_csv_dialect(*command, options.csv);
  return {command, [shared] {
            if (shared->folders.empty()) refuse("no folder is named: name those that `budclock nightly` wrote");
            check_csv_dialect(shared->csv);
            return Command{*shared};
          }};
}

}  // namespace budclock::cli

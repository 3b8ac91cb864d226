#include "parse_common.hpp"

#include <memory>

namespace budclock::cli {

CommandLine add_note(CLI::App& app) {
  const auto shared = std::make_shared<NoteOptions>();
  NoteOptions& options = *shared;
  CLI::App* command = app.add_subcommand("note", "A plain letter to the client about one site");
  command->footer(R"(Examples:
  budclock note --site "Mill Lane"
  budclock note --site "Mill Lane" --format html --templates letters > letter.html)");
  command->add_option("--site", options.site, "The site of the sites file that the letter is about")->type_name("NAME");
  add_practice(*command, options.practice);
  add_actions_file(*command, options.practice);
  add_day(*command, "--today", options.today, "Write as of this day (default: the local date)");
  command
      ->add_option("--templates", options.templates,
                   "A folder of letter parts (.txt) of your own, in the place of the shipped ones of the same name")
      ->type_name("DIR");
  add_format(*command, options.format, {Format::text, Format::page});
  return {command, [shared] {
            if (shared->site.empty()) refuse("--site is missing: name the site that the letter is about");
            return Command{*shared};
          }};
}

}  // namespace budclock::cli

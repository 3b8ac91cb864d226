#include "parse_common.hpp"

#include <algorithm>
#include <charconv>
#include <memory>
#include <sstream>

namespace budclock::cli {
namespace {

/// "text,csv" -> the formats of a site's report.
std::vector<Format> report_formats(const std::string& text) {
  std::vector<Format> formats;
  std::istringstream words{text};
  for (std::string word; std::getline(words, word, ',');) {
    const Format format = choose("--format", word, format_words());
    if (std::find(formats.begin(), formats.end(), format) == formats.end()) formats.push_back(format);
  }
  if (formats.empty()) refuse("--format '' names no format: write text, html, ics or another, or several with commas");
  return formats;
}

/// "2/4" -> the second of four parts.
void read_part(const std::string& text, NightlyOptions& options) {
  constexpr std::uint32_t k_most_parts = 10'000;
  const std::size_t slash = std::min(text.find('/'), text.size());
  const char* end = text.data() + text.size();
  const auto first = std::from_chars(text.data(), text.data() + slash, options.part);
  const auto second = std::from_chars(text.data() + std::min(slash + 1, text.size()), end, options.parts);
  const bool sound = first.ec == std::errc{} && first.ptr == text.data() + slash && second.ec == std::errc{} &&
                     second.ptr == end && options.part >= 1 && options.part <= options.parts &&
                     options.parts <= k_most_parts;
  if (!sound) refuse(fmt::format("--part '{}' is no part: write the second of four as 2/4", text));
}

}  // namespace

CommandLine add_nightly(CLI::App& app) {
  const auto shared = std::make_shared<NightlyOptions>();
  NightlyOptions& options = *shared;
  CLI::App* command = app.add_subcommand("nightly", "All sites: a report for each, and one page for the morning");
  command->footer(R"(Examples:
  budclock nightly --sites sites.csv --out reports
  budclock nightly --sites sites.csv --out reports --due           print the page when something is due
  budclock nightly --sites sites.csv --out reports --only-changed  print it when it says something new
  budclock nightly --sites sites.csv --out reports --format text,csv

The folder then holds digest.txt, .md, .html, .csv and .json (all sites on one
page), sites/NAME.txt (a report for each), state/DATE.jsonl (what was planned, to
tell tomorrow what has changed; kept for 14 days) and, written last, manifest.txt
(the checksum, size and name of each file, as cksum prints them).)");
  add_pest_names(*command, options.pests);
  add_hosts(*command, options.hosts);
  add_practice(*command, options.practice);
  add_actions_file(*command, options.practice);
  command->add_option("--out", options.out, "The folder for what is written; made where it is missing")
      ->type_name("DIR");
  add_day(*command, "--today", options.today,
          "Answer as of this day; weather after it is not looked at (default: the local date)");
  command
      ->add_option("--jobs", options.jobs,
                   "How many weather records are worked on at once (default: the number of processors)")
      ->check(CLI::Range(1, k_most_jobs))
      ->type_name("N");
  command
      ->add_option_function<std::string>(
          "--format", [shared](const std::string& text) { shared->formats = report_formats(text); },
          "How the report of each site is written; several with commas (default text)")
      ->type_name("csv|html|ics|json|md|text");
  command
      ->add_option_function<std::string>(
          "--part", [shared](const std::string& text) { read_part(text, *shared); },
          "Only a share of the sites, as 2/4; join the folders of all parts with: budclock digest")
      ->type_name("K/N");
  add_report_units(*command, options.report_units);
  add_csv_dialect(*command, options.csv);
  command->add_flag("--due", options.due,
                    "Print the page when something is due now or in the next 14 days, or there are problems");
  command->add_flag("--only-changed", options.only_changed,
                    "Print the page when it says another thing than on the day before, or the last day there was");
  command->add_flag("--wait", options.wait, "Wait for another run that writes to the same folder, instead of leaving");
  return {command, [shared] {
            if (shared->out.empty()) refuse("--out is missing: name the folder for what is written");
            check_csv_dialect(shared->csv);
            if (shared->jobs == 0) shared->jobs = usual_jobs();
            return Command{*shared};
          }};
}

}  // namespace budclock::cli

#include "parse_common.hpp"

#include <charconv>
#include <memory>

namespace budclock::cli {
namespace {

constexpr int k_longest_lead = 365;
/// Farther ahead no weather forecast is useful, perfect or not.
constexpr int k_most_known_days = 60;

int whole_number(const std::string& option, std::string_view text, int least, int most) {
  int number = 0;
  const auto [stopped, error] = std::from_chars(text.data(), text.data() + text.size(), number);
  if (error != std::errc{} || stopped != text.data() + text.size() || number < least || number > most) {
    refuse(fmt::format("{} '{}' is not a number of days from {} to {}", option, text, least, most));
  }
  return number;
}

std::vector<int> parse_leads(std::string_view text) {
  std::vector<int> leads;
  for (std::size_t from = 0; from <= text.size();) {
    const std::size_t comma = std::min(text.find(',', from), text.size());
    const int lead = whole_number("--lead", text.substr(from, comma - from), 1, k_longest_lead);
    if (std::find(leads.begin(), leads.end(), lead) == leads.end()) leads.push_back(lead);
    from = comma + 1;
  }
  return leads;
}

}  // namespace

CommandLine add_hindcast(CLI::App& app) {
  const auto shared = std::make_shared<HindcastOptions>();
  HindcastOptions& options = *shared;
  CLI::App* command = app.add_subcommand("hindcast", "How good past forecasts from this record would have been");
  command->footer(R"(Examples:
  budclock hindcast --weather home.csv             every figure of every pest
  budclock hindcast boxwood --weather home.csv --lead 14,30
  budclock hindcast --weather home.csv --known-days 7
  budclock hindcast --weather home.csv --against log.csv --lead 7,14
  budclock hindcast --weather home.csv --format csv > scores.csv)");
  command
      ->add_option("pests,--pest", options.pests,
                   "Pests by common or scientific name, or part of one; all when none is given")
      ->type_name("PEST");
  add_weather(*command, options.weather, false);
  command
      ->add_option_function<std::string>(
          "--lead", [shared](const std::string& text) { shared->leads = parse_leads(text); },
          "Days before the usual date on which forecasts are issued (default 7,14,30,60)")
      ->type_name("DAYS");
  command
      ->add_option_function<std::string>(
          "--known-days",
          [shared](const std::string& text) {
            shared->known_days = whole_number("--known-days", text, 1, k_most_known_days);
          },
          "Also forecast with so many days ahead known from the record: what a perfect weather forecast would gain")
      ->type_name("DAYS");
  command
      ->add_option("--against", options.against,
                   "Score against what a scouting log found, and what its site has taught")
      ->type_name("LOG");
  command->add_option("--site", options.site, "The site of the log, when it holds several")->type_name("NAME");
  add_pest_folder(*command, options.pest_folder);
  add_format(*command, options.format, {Format::text, Format::csv, Format::json});
  command->add_option("--name", options.name, "Name of the site in the report")->type_name("NAME");
  return {command, [shared] {
            check_weather(shared->weather);
            if (!shared->site.empty() && shared->against.empty()) refuse("--site names a site of the log of --against");
            return Command{*shared};
          }};
}

}  // namespace budclock::cli

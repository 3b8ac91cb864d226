#include "parse_common.hpp"

#include <memory>

namespace budclock::cli {

namespace {

/// Either a site, which brings its own weather and name, or weather.
void require_site_or_weather(const WhenOptions& options) {
  const WeatherOptions& weather = options.weather;
  if (options.sites.empty()) {
    if (!options.practice.sites_file.empty()) refuse("--sites without a site: name one with --site");
    if (!options.practice.log_file.empty()) refuse("--log without a site: name one with --site");
    if (!options.practice.actions_file.empty()) refuse("--actions without a site: name one with --site");
    return check_weather(weather);
  }
  if (!weather.files.empty()) {
    refuse("--site takes its weather from the sites file: leave out --weather, or ask by --weather without --site");
  }
  const bool states_weather = weather.read.units || weather.read.date_order || !weather.read.station.empty() ||
                              weather.offset != TemperatureDifference{} || weather.site_elevation_m ||
                              weather.station_elevation_m || !weather.forecasts.empty();
  if (states_weather) {
    refuse(
        "what is said of weather files (--units, --station, --offset, --forecast, ...) is for --weather: for a site "
        "it stands in the sites file");
  }
  if (options.place) refuse("--place is for --weather: a site has its place from the sites file");
  if (!options.name.empty()) refuse("--name is for --weather: a site has its name from the sites file");
}

}  // namespace

CommandLine add_when(CLI::App& app) {
  const auto shared = std::make_shared<WhenOptions>();
  WhenOptions& options = *shared;
  CLI::App* command = app.add_subcommand("when", "When to look, when to act, what to leave alone");
  command->footer(R"(Examples:
  budclock when --weather home.csv                 every pest, today
  budclock when boxwood --weather home.csv         one pest
  budclock when hemlock --weather home.csv --why   with every source's figure
  budclock when --weather home.csv --format csv > due.csv
  budclock when --weather logger.csv station.csv   the second fills the first
  budclock when --site "Mill Lane"                 a site of budclock-sites.json)");
  add_pest_names(*command, options.pests);
  add_hosts(*command, options.hosts);
  add_weather(*command, options.weather);
  command
      ->add_option_function<std::string>(
          "--today", [shared](const std::string& text) { shared->today = parse_day("--today", text); },
          "Answer as of this day; weather after it is not looked at (default: the local date)")
      ->type_name("DATE");
  add_format(*command, options.format,
             {Format::text, Format::markdown, Format::csv, Format::json, Format::calendar, Format::page});
  command->add_option("--name", options.name, "Name of the site in the report")->type_name("NAME");
  command
      ->add_option_function<std::string>(
          "--place", [shared](const std::string& text) { shared->place = parse_place("--place", text); },
          "Where the weather is from, in degrees north and east: figures from far away are then pointed out")
      ->type_name("LAT,LON");
  command
      ->add_option_function<std::string>(
          "--method", [shared](const std::string& text) { shared->method = choose_method(text); },
          "Sum degree-days by this method in place of the one each figure was made with")
      ->type_name(values_of(method_words()));
  add_report_units(*command, options.report_units);
  add_csv_dialect(*command, options.csv);
  command->add_flag_callback(
      "--why", [shared] { shared->detail = report::Detail::why; }, "Show every source's figure and what it gives here");
  command->add_flag_callback(
      "--brief", [shared] { shared->detail = report::Detail::brief; }, "Only what concerns now and the next 14 days");
  command
      ->add_option("--site", options.sites,
                   "A site of the sites file: its weather, plants and pests, and what was seen there; may be repeated")
      ->type_name("NAME")
      ->allow_extra_args(false);
  add_practice(*command, options.practice);
  add_actions_file(*command, options.practice);
  return {command, [shared] {
            require_site_or_weather(*shared);
            check_csv_dialect(shared->csv);
            return Command{*shared};
          }};
}

}  // namespace budclock::cli

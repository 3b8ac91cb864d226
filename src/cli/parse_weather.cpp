#include "parse_common.hpp"

#include <charconv>
#include <cmath>

namespace budclock::cli {
namespace {

const std::map<std::string, weather::ReadTime> k_read_times{{"midnight", weather::ReadTime::as_dated},
                                                            {"morning", weather::ReadTime::morning}};
const std::map<std::string, weather::GapPolicy> k_gap_policies{
    {"fill", weather::GapPolicy::fill}, {"keep", weather::GapPolicy::keep}, {"refuse", weather::GapPolicy::refuse}};

/// A number and the unit after it.
struct Measure {
  double number = 0;
  std::string unit;
};

/// Reads "1.5F", "-2 C", "320m", "1050 ft"; nothing when there is no finite number in front.
std::optional<Measure> read_measure(std::string text) {
  std::erase(text, ' ');
  if (text.starts_with('+')) text.erase(0, 1);
  Measure measure;
  const auto [stopped, error] = std::from_chars(text.data(), text.data() + text.size(), measure.number);
  if (error != std::errc{} || !std::isfinite(measure.number)) return std::nullopt;
  measure.unit.assign(stopped, text.data() + text.size() - stopped);
  return measure;
}

TemperatureDifference parse_offset(const std::string& text) {
  constexpr double k_most_degrees = 20;  // a garden that differs more from its station needs another station
  const auto measure = read_measure(text);
  const bool celsius = measure && (measure->unit == "C" || measure->unit == "c");
  const bool fahrenheit = measure && (measure->unit == "F" || measure->unit == "f");
  if (!celsius && !fahrenheit) {
    refuse(fmt::format("--offset '{}' is not a difference of temperature: write it with its unit, as 1.5F or -0.8C",
                       text));
  }
  if (std::abs(measure->number) > k_most_degrees) {
    refuse(fmt::format("--offset '{}' is more than {} degrees: use a nearer station", text, k_most_degrees));
  }
  return fahrenheit ? TemperatureDifference::fahrenheit(measure->number)
                    : TemperatureDifference::celsius(measure->number);
}

/// Metres above the sea, between the shore of the Dead Sea and the top of Mount Everest, rounded outwards.
double parse_elevation(const std::string& option, const std::string& text) {
  constexpr double k_metres_per_foot = 0.3048;
  const auto measure = read_measure(text);
  const bool feet = measure && measure->unit == "ft";
  if (!measure || (!feet && measure->unit != "m")) {
    refuse(fmt::format("{} '{}' is not a height: write it with its unit, as 320m or 1050ft", option, text));
  }
  const double metres = feet ? measure->number * k_metres_per_foot : measure->number;
  if (metres < -440 || metres > 8850) refuse(fmt::format("{} '{}' is no height on land", option, text));
  return metres;
}

void add_adjustment(CLI::App& command, WeatherOptions& options) {
  command
      .add_option_function<std::string>(
          "--read-time",
          [&](const std::string& text) { options.read_time = choose("--read-time", text, k_read_times); },
          "When the thermometer is read: midnight (default) or morning. A maximum read in the morning is that of the "
          "afternoon before, so each is moved to the day before; the hour of reading alone can move a date by two "
          "weeks (DeGaetano & Knapp 1993)")
      ->type_name(values_of(k_read_times));
  command
      .add_option_function<std::string>(
          "--offset", [&](const std::string& text) { options.offset = parse_offset(text); },
          "How much warmer the site is than the station: 1.5F, -0.8C")
      ->type_name("DIFF");
  command
      .add_option_function<std::string>(
          "--site-elevation",
          [&](const std::string& text) { options.site_elevation_m = parse_elevation("--site-elevation", text); },
          "Height of the site; with --station-elevation, temperatures fall by 6.5 C per km of height (standard "
          "atmosphere, ICAO Doc 7488; real valleys and slopes differ)")
      ->type_name("HEIGHT");
  command
      .add_option_function<std::string>(
          "--station-elevation",
          [&](const std::string& text) { options.station_elevation_m = parse_elevation("--station-elevation", text); },
          "Height of the station: 320m, 1050ft")
      ->type_name("HEIGHT");
}

}  // namespace

void add_weather(CLI::App& command, WeatherOptions& options, bool forecasts) {
  command
      .add_option("--weather", options.files,
                  "Daily or finer temperatures; several files in order of preference, the later ones fill what the "
                  "first lacks; - is standard input")
      ->type_name("FILE");
  if (forecasts) {
    command
        .add_option("--forecast", options.forecasts,
                    "Forecast temperatures, used only after the last day of weather: the same kinds of file, or the "
                    "National Weather Service's forecast JSON")
        ->type_name("FILE");
  }
  add_reading(command, options.read);
  command
      .add_option_function<std::string>(
          "--gaps", [&](const std::string& text) { options.gaps = choose("--gaps", text, k_gap_policies); },
          fmt::format("Days without a temperature: fill (short gaps by a line, longer ones from the other years), keep "
                      "or refuse (default {})",
                      options.gaps == weather::GapPolicy::fill ? "fill" : "keep"))
      ->type_name(values_of(k_gap_policies));
  command.add_flag("--strict", options.strict, "Refuse a record with doubtful values instead of setting them aside");
  add_adjustment(command, options);
}

void check_weather(const WeatherOptions& options) {
  if (options.files.empty())
    refuse("no weather: name a file of daily temperatures with --weather, or a site with --site");
  if (options.site_elevation_m.has_value() != options.station_elevation_m.has_value()) {
    refuse("an elevation alone says nothing: give --site-elevation and --station-elevation");
  }
}

}  // namespace budclock::cli

// A property with plants to care for: where it is, whose weather it has, what grows there. Plain values, loaded once
// from a sites file (see sites/load.hpp); nothing here computes.
#pragma once

#include <budclock/core/diagnostic.hpp>
#include <budclock/core/temperature.hpp>
#include <budclock/rules/day_limits.hpp>
#include <budclock/sites/safety.hpp>
#include <budclock/weather/adjust.hpp>
#include <budclock/weather/assemble.hpp>
#include <budclock/weather/date_text.hpp>

#include <cstdint>
#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace budclock::sites {

using weather::GapPolicy;
using weather::ReadTime;

/// A file, or a pattern that names several, as written in the sites file; relative to that file's folder.
struct FilePattern {
  std::string text;
  Place place;  ///< where it is written, for messages about the file
  friend bool operator==(const FilePattern& a, const FilePattern& b) { return a.text == b.text; }
};

/// Which columns of a weather file hold what, by their names; an empty one is found by its usual names.
struct ColumnNames {
  std::string date;
  std::string tmax;
  std::string tmin;
  friend bool operator==(const ColumnNames&, const ColumnNames&) = default;
};

/// Files of one station and how they are to be read.
struct WeatherSource {
  std::vector<FilePattern> files;
  std::optional<TemperatureUnit> units;
  std::optional<weather::DateOrder> date_order;
  std::string station;  ///< the station to take from files that hold several
  ColumnNames columns;
  TemperatureDifference offset;  ///< added to each temperature: how much warmer the site is than the station
  std::optional<double> station_elevation_m;
  std::optional<ReadTime> read_time;  ///< nothing: not known, taken as midnight
  friend bool operator==(const WeatherSource&, const WeatherSource&) = default;
};

/// All that a site's series of temperatures is made from; sites with equal recipes and elevations share a series.
struct WeatherRecipe {
  std::vector<WeatherSource> sources;  ///< in order of preference
  std::optional<GapPolicy> gaps;
  std::vector<FilePattern> forecasts;
  friend bool operator==(const WeatherRecipe&, const WeatherRecipe&) = default;
};

struct Site {
  std::string name;  ///< data, never a path: see `safe_file_name`
  Place place;       ///< where the site is written in its file
  double latitude = 0;
  double longitude = 0;
  std::optional<double> elevation_m;
  WeatherRecipe weather;
  std::vector<std::string> plants;
  std::vector<std::string> watch;  ///< ids of pests to watch whatever the plants
  std::vector<std::string> mute;   ///< ids of pests to leave out
  SiteSafety safety;
  std::vector<rules::OwnLimit> limits;                       ///< the firm's first, then the site's own
  std::vector<std::pair<std::string, std::string>> contact;  ///< free fields, in file order
};

}  // namespace budclock::sites

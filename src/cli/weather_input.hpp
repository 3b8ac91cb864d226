// Opens weather files and makes one site's series of them.
#pragma once

#include <budclock/core/diagnostic.hpp>
#include <budclock/weather/assemble.hpp>
#include <budclock/weather/reader.hpp>

#include "environment.hpp"
#include "exit_status.hpp"
#include "options.hpp"

#include <functional>
#include <optional>
#include <string>
#include <vector>

namespace budclock::cli {

/// A weather file and how it is to be read. "-" is standard input.
struct WeatherFile {
  std::string path;
  weather::ReadOptions read;
  weather::ReadTime read_time = weather::ReadTime::as_dated;
  TemperatureDifference offset;  ///< of the site against the station, elevation included
};

/// All that a site's series is made from.
struct WeatherRequest {
  std::vector<WeatherFile> files;  ///< the most trusted first
  std::vector<WeatherFile> forecasts;
  weather::GapPolicy gaps = weather::GapPolicy::fill;
  bool keep_doubtful = false;  ///< take values as they are, without looking for doubtful ones
  bool strict = false;         ///< refuse a record with doubtful values instead of setting them aside
  bool normals = false;        ///< take climate normals among the files, instead of refusing them
};

/// What the options of a command ask for.
WeatherRequest request_of(const WeatherOptions& options);

struct SiteRecord {
  weather::DailySeries days;       ///< up to the day asked for, forecast days appended
  std::string name;                ///< the station's id, or the first file's name without folder and ending
  std::vector<std::string> notes;  ///< for the report: what was moved, joined, filled and forecast
  weather::DailySeries normals;    ///< a whole mean year, offset as the site; empty: none was given
};

/// Reads all files and assembles them (see weather/assemble.hpp), nothing after `today` but forecasts. A file that
/// cannot be read is an error diagnostic; the others still count. Nothing comes back when no file gave a day, or the
/// request is strict and a value is doubtful, or gaps are refused and the year of `today` has one.
std::optional<SiteRecord> read_site_record(const WeatherRequest& request, Day today, Environment& environment,
                                           Diagnostics& diagnostics);

/// Opens one file and reads it whole, handing on each of its stations. A file that cannot be opened or read is an
/// error among the diagnostics of the summary. `pool` as in read_weather.
weather::FileSummary read_weather_file(const std::string& path, const weather::ReadOptions& options,
                                       Environment& environment,
                                       const std::function<void(weather::StationRecord&&)>& on_station,
                                       ThreadPool* pool = nullptr);

}  // namespace budclock::cli

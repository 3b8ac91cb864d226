#include "site_weather.hpp"

#include "file_patterns.hpp"

#include <filesystem>
#include <fmt/format.h>
#include <sstream>
#include <system_error>

namespace budclock::cli {
namespace {

/// What stands between blanks, every part like the name of a file: with an ending or a folder.
bool looks_like_several(const std::string& text) {
  std::istringstream parts{text};
  std::size_t names = 0;
  for (std::string part; parts >> part; ++names) {
    if (part.find_first_of("./") == std::string::npos) return false;
  }
  return names > 1;
}

/// What to do about a pattern that fits no file.
std::string pattern_remedy(const std::string& text) {
  if (!looks_like_several(text)) return "patterns start from the folder of the sites file";
  return "part several files by ; in a table, and name them one by one in JSON";
}

/// The files that patterns name; one that fits no file is an error.
std::vector<std::string> files_of(const std::vector<sites::FilePattern>& patterns, const std::string& folder,
                                  Diagnostics& diagnostics) {
  std::vector<std::string> files;
  for (const sites::FilePattern& pattern : patterns) {
    std::vector<std::string> paths;
    try {
      paths = expand_pattern(folder, pattern.text);
      const bool one_of_several = paths.size() == 1 && looks_like_several(pattern.text);
      std::error_code ignored;
      if (one_of_several && !std::filesystem::exists(paths.front(), ignored)) paths.clear();
      if (paths.empty()) {
        diagnostics.push_back({Severity::error, pattern.place, fmt::format("no file fits \"{}\"", pattern.text),
                               pattern_remedy(pattern.text)});
      }
    } catch (const std::system_error& failure) {
      diagnostics.push_back(
          {Severity::error, pattern.place,
           fmt::format("the files of \"{}\" cannot be looked for: {}", pattern.text, failure.code().message()),
           "check the folder and its rights"});
    }
    // "-" is standard input on a command line; in a sites file it can only be a file of that name.
    for (const std::string& path : paths) files.push_back(path == "-" ? "./-" : path);
  }
  return files;
}

/// How much warmer the site is than the station: as stated, and by its elevation where both are known.
TemperatureDifference offset_of(const sites::Site& site, const sites::WeatherSource& source) {
  if (!site.elevation_m || !source.station_elevation_m) return source.offset;
  return source.offset + weather::lapse(*site.elevation_m - *source.station_elevation_m);
}

void add_source(const sites::Site& site, const sites::WeatherSource& source, const std::string& folder,
                WeatherRequest& request, Diagnostics& diagnostics) {
  const bool morning = source.read_time == sites::ReadTime::morning;
  weather::ReadOptions read;
  read.units = source.units;
  read.date_order = source.date_order;
  read.station = source.station;
  read.columns.date = source.columns.date;
  read.columns.tmax = source.columns.tmax;
  read.columns.tmin = source.columns.tmin;
  for (const std::string& path : files_of(source.files, folder, diagnostics)) {
    request.files.push_back(
        {path, read, morning ? weather::ReadTime::morning : weather::ReadTime::as_dated, offset_of(site, source)});
  }
}

}  // namespace

WeatherRequest request_of(const sites::Site& site, const std::string& folder, Diagnostics& diagnostics) {
  WeatherRequest request;
  request.normals = true;
  if (site.weather.gaps == sites::GapPolicy::refuse) request.gaps = weather::GapPolicy::refuse;
  for (const sites::WeatherSource& source : site.weather.sources) {
    add_source(site, source, folder, request, diagnostics);
  }
  for (const std::string& path : files_of(site.weather.forecasts, folder, diagnostics)) {
    request.forecasts.push_back({path, {}, weather::ReadTime::as_dated, {}});
  }
  return request;
}

}  // namespace budclock::cli

// Opens weather files and merges them into one site's series.
#pragma once

#include <budclock/core/diagnostic.hpp>
#include <budclock/weather/daily_series.hpp>

#include "environment.hpp"
#include "exit_status.hpp"
#include "options.hpp"

#include <optional>
#include <string>

namespace budclock::cli {

struct SiteRecord {
  weather::DailySeries days;
  std::string name;  ///< the station's id, or the first file's name without folder and ending
};

/// Reads all files in order of preference; a later one fills values that the earlier ones lack. A file that cannot be
/// read is an error diagnostic; the others still count. Nothing comes back when no file gave a day.
std::optional<SiteRecord> read_site_record(const WeatherOptions& options, Environment& environment,
                                           Diagnostics& diagnostics);

/// Prints diagnostics to the message stream, one a line. Notes only when `notes` is true.
void print(const Diagnostics& diagnostics, Environment& environment, bool notes = true);

/// What the diagnostics of an answered question make of the exit status.
ExitStatus answered_with(const Diagnostics& diagnostics);

}  // namespace budclock::cli

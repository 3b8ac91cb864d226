// The hours of a Weather Service forecast (`forecast/hourly`), each with all that the service says of it.
//
// Source of the layout: api.weather.gov, OpenAPI document, GridpointForecastPeriod (from memory; held against a
// published answer of October 2019, except for wind speeds as {"unitCode", "value"}, which no file at hand has).
#pragma once

#include <budclock/core/date.hpp>
#include <budclock/core/temperature.hpp>
#include <budclock/weather/byte_source.hpp>
#include <budclock/weather/problem_list.hpp>

#include <optional>
#include <string>
#include <vector>

namespace budclock::weather {

/// Wind speed as forecast, in miles an hour; a single speed has both ends alike.
struct WindSpeed {
  double low_mph = 0;
  double high_mph = 0;
  friend bool operator==(const WindSpeed&, const WindSpeed&) = default;
};

/// One hour. What the forecast does not say is not there; it is never 0.
struct ForecastHour {
  Day day{};               ///< local
  int minute = 0;          ///< of the local day, at the hour's beginning
  int offset_minutes = 0;  ///< local time minus UTC; never 0
  std::optional<Temperature> temperature;
  std::optional<double> humidity_percent;     ///< relative, 0 to 100
  std::optional<WindSpeed> wind;              ///< 0 to k_most_wind_mph
  std::optional<double> rain_chance_percent;  ///< chance of measurable rain or snow in the hour, 0 to 100
  std::string wind_direction;                 ///< "SW"; empty: not known
  std::string words;                          ///< "Chance Rain Showers"; empty: none
};

/// Faster winds are a fault: no gust on Earth was ever measured at 300 miles an hour (from memory).
inline constexpr double k_most_wind_mph = 300;

/// Minutes from the epoch, UTC: orders hours across a change of clocks.
long utc_minute(const ForecastHour& hour);

/// A corner of the area that a forecast is for, in degrees, north and east above zero.
struct OutlinePoint {
  double latitude = 0;
  double longitude = 0;
};

/// Reads the hours in order of time; into `outline`, where it is asked for, the corners of the forecast's area (its
/// first GeoJSON polygon, RFC 7946), none where it has none. A value that cannot be used is a fault with its JSON pointer and counts as not
/// known; an hour whose times cannot be used, that is longer than an hour or stands twice is set aside with a fault. A
/// forecast without a single hour (one of days and nights) and other JSON are errors, and nothing comes back.
std::vector<ForecastHour> read_hourly_forecast(ByteSource& source, ProblemList& problems,
                                               std::vector<OutlinePoint>* outline = nullptr);

}  // namespace budclock::weather

// Forecasts of the National Weather Service as its interface gives them: `forecast` (day and night periods) and
// `forecast/hourly`, as GeoJSON (periods under "properties") or JSON-LD (periods at the top).
//
// A day period's temperature is the highest of its date. A night period's is the lowest, and belongs to the date of
// the morning it ends on: the minimum of a calendar day falls near sunrise as a rule, hours after midnight, and then
// the pair of a date is a morning's minimum and the following afternoon's maximum, as climate records have it. A night
// period that begins after midnight ends on the date it begins on. (Common practice; not looked up.)
// Source of the layout: api.weather.gov, OpenAPI document, GridpointForecastPeriod (from memory; held against
// published answers of October 2019).
#pragma once

#include <budclock/weather/layout.hpp>

namespace budclock::weather {

/// True for any JSON object or list.
bool is_json(std::string_view start);

/// Reads the periods as one station without a name, with values of Origin::forecast; ReadOptions::station does not
/// matter. Hourly temperatures are reduced to days, whole ones only (see DayReducer). A day period that begins after
/// k_latest_for_maximum gives no maximum, with a note: the warmest hour may lie before it. Missing, unusable and
/// contradicting values are faults with their JSON pointer; other JSON than a forecast is an error.
FileSummary read_forecast_json(ByteSource& source, ProblemList& problems, const ReadOptions& options,
                               const StationHandler& on_station);

/// 15:00 local time, in minutes: air is warmest about then or later (`common practice`).
inline constexpr int k_latest_for_maximum = 15 * 60;

}  // namespace budclock::weather

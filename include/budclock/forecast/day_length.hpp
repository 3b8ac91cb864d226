// How long the day is, and when it passes a length.
#pragma once

#include <budclock/core/date.hpp>

#include <optional>

namespace budclock::forecast {

/// Hours from sunrise to sunset, 0 to 24, at a latitude in degrees (north above zero, -90 to 90).
///
/// `sun_below_horizon` is how many degrees the sun's centre stands below the horizon when the day begins and ends:
/// 0.8333 its upper edge with refraction, 6 civil twilight. Formula: CBM model of Forsythe, Rykiel, Stahl, Wu &
/// Schoolfield 1995, "A model comparison for daylength as a function of latitude and day of year", Ecol. Model.
/// 80:87-95.
double day_length_hours(double latitude, int day_of_year, double sun_below_horizon = 0.8333);

/// The day of that calendar year on which the day length first comes to `hours`, rising or falling; nothing where it
/// does not.
std::optional<Day> day_length_reached(double latitude, int year, double hours, bool rising, double sun_below_horizon);

}  // namespace budclock::forecast

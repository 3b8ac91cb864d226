// How far a site lies from where a figure was made.
#pragma once

namespace budclock::forecast {

/// A place on the earth in degrees, north and east above zero.
struct Coordinates {
  double latitude = 0;
  double longitude = 0;
};

/// Great-circle distance on a sphere of 6,371 km (haversine), within 0.6 % of that on the ellipsoid.
double kilometres_between(Coordinates a, Coordinates b);

/// A figure from farther away than this is pointed out (common practice; roughly a state or two).
inline constexpr double k_far_km = 600;

}  // namespace budclock::forecast

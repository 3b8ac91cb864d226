#include <budclock/forecast/distance.hpp>

#include <algorithm>
#include <cmath>
#include <numbers>

namespace budclock::forecast {

double kilometres_between(Coordinates a, Coordinates b) {
  constexpr double k_radius_km = 6371;
  constexpr double k_radians = std::numbers::pi / 180;
  const auto half_sine_squared = [](double degrees) {
    const double sine = std::sin(degrees * k_radians / 2);
    return sine * sine;
  };
  const double haversine =
      half_sine_squared(b.latitude - a.latitude) + std::cos(a.latitude * k_radians) * std::cos(b.latitude * k_radians) *
                                                       half_sine_squared(b.longitude - a.longitude);
  return 2 * k_radius_km * std::asin(std::sqrt(std::min(haversine, 1.0)));
}

}  // namespace budclock::forecast

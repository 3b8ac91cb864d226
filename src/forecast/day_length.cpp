#include <budclock/forecast/day_length.hpp>

#include <algorithm>
#include <cmath>
#include <numbers>

namespace budclock::forecast {

double day_length_hours(double latitude, int day_of_year, double sun_below_horizon) {
  constexpr double k_radians = std::numbers::pi / 180;
  const double revolution = 0.2163108 + 2 * std::atan(0.9671396 * std::tan(0.00860 * (day_of_year - 186)));
  const double declination = std::asin(0.39795 * std::cos(revolution));
  const double cosine =
      (std::sin(sun_below_horizon * k_radians) + std::sin(latitude * k_radians) * std::sin(declination)) /
      (std::cos(latitude * k_radians) * std::cos(declination));
  return 24 - 24 / std::numbers::pi * std::acos(std::clamp(cosine, -1.0, 1.0));  // polar night and day: 0 and 24
}

std::optional<Day> day_length_reached(double latitude, int year, double hours, bool rising, double sun_below_horizon) {
  const Day first{date::year{year} / 1 / 1};
  const Day last{date::year{year} / 12 / 31};
  double before = day_length_hours(latitude, 365, sun_below_horizon);
  for (Day day = first; day <= last; day += date::days{1}) {
    const int day_of_year = static_cast<int>((day - first).count()) + 1;
    const double now = day_length_hours(latitude, day_of_year, sun_below_horizon);
    if (rising ? before < hours && now >= hours : before > hours && now <= hours) return day;
    before = now;
  }
  return std::nullopt;
}

}  // namespace budclock::forecast

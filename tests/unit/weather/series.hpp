// Small made-up series for tests.
#pragma once

#include <budclock/weather/daily_series.hpp>

#include <cmath>

namespace budclock::weather::test {

inline Day day(const char* text) { return parse_iso_day(text).value(); }

/// `count` days; minima go up and down by 20 °F in six days and maxima lie 20 °F above them.
inline DailySeries waves(const char* first, int count, double offset_f = 0) {
  DailySeries days;
  for (int i = 0; i < count; ++i) {
    const std::size_t at = include_day(days, day(first) + date::days{i});
    const double low = 40 + 10 * std::abs(i % 6 - 3) + offset_f;
    days.tmin[at] = {Temperature::fahrenheit(low), Origin::observed};
    days.tmax[at] = {Temperature::fahrenheit(low + 20), Origin::observed};
  }
  return days;
}

/// `count` days of a series from its day number `first` on.
inline DailySeries part(const DailySeries& days, std::size_t first, std::size_t count) {
  DailySeries taken;
  for (std::size_t i = first; i < first + count; ++i) {
    const std::size_t at = include_day(taken, days.day(i));
    taken.tmin[at] = days.tmin[i];
    taken.tmax[at] = days.tmax[i];
  }
  return taken;
}

}  // namespace budclock::weather::test

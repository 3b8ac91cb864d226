// Doubts about the values of a daily record, each with its reason.
//
// The checks, their order and their limits follow Durre, Menne, Gleason, Houston & Vose 2010, "Comprehensive automated
// quality assurance of daily surface observations", J. Appl. Meteorol. Climatol. 49:1615-1633, as far as one station
// allows; what differs is said at each. They run one after the other, and each sees only what the ones before it let
// stand. Only observed values are looked at. Meant for the United States and Canada.
#pragma once

#include <budclock/core/diagnostic.hpp>
#include <budclock/weather/daily_series.hpp>

#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

namespace budclock::weather {

enum class Extreme : std::uint8_t { minimum, maximum };

/// The checks, in the order in which they run.
enum class Check : std::uint8_t {
  naught,            ///< both extremes 0 °C, or both 0 °F: zero written for "no value"
  duplicate,         ///< a month repeats another of the same name or the same year, or a year another year
  equal_extremes,    ///< maximum and minimum the same on every day of a month
  bounds,            ///< colder or warmer than any air temperature ever measured
  streak,            ///< the same value 20 times in a row; whole °F repeat honestly for up to about 15 days
  wrong_unit,        ///< 4 standard deviations off, and within 1.5 of the usual in the other unit (common practice)
  gap,               ///< 10 °C from every other value of that calendar month
  outlier,           ///< 6 standard deviations from the usual of the 15 days around that date
  swapped,           ///< minimum above maximum, and each usual in the other's place
  inconsistent,      ///< minimum above that day's maximum
  spike,             ///< 25 °C above, or below, both the day before and the day after
  lagged_range,      ///< maximum 40 °C above the minima of three days, or minimum so far below their maxima
  beyond_opposites,  ///< maximum below every minimum, or minimum above every maximum, of that calendar month
};

/// "spike", "wrong-unit", ...
std::string_view name(Check check);

/// One value that is probably wrong.
struct Suspicion {
  Day day{};
  Extreme extreme = Extreme::minimum;
  Temperature value;
  Check check = Check::bounds;
  std::string reason;  ///< for people, without day and value
  friend bool operator==(const Suspicion&, const Suspicion&) = default;
};

/// All suspicions of a record, by day, minimum first. `unit` is the one the record was written in: that of the reasons,
/// and the one whose opposite the wrong-unit check tries. Checks that need a climate (wrong_unit, outlier) or many
/// values of a month (gap, beyond_opposites: 100) do nothing where the record is too short for them.
std::vector<Suspicion> check_quality(const DailySeries& series, TemperatureUnit unit);

/// Marks the suspicious values as set aside.
void set_aside(DailySeries& series, const std::vector<Suspicion>& suspicions);

/// One fault for each value, or for each run of days with the same reason:
/// "2014-04-16: maximum 95 F: 45 F above the days before and after".
Diagnostics quality_faults(const std::vector<Suspicion>& suspicions, std::string_view file_name, TemperatureUnit unit);

}  // namespace budclock::weather

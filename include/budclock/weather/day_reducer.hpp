// Reduces readings within a day to the day's minimum and maximum.
#pragma once

#include <budclock/core/date.hpp>
#include <budclock/core/temperature.hpp>

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <map>
#include <vector>

namespace budclock::weather {

/// What of a day its readings cover.
enum class DayCover : std::uint8_t {
  none,     ///< no reading has a value
  partial,  ///< too little to show the extremes: not to be used
  whole,
};

/// The extremes of one day's readings; only those of a whole day.
struct ReducedDay {
  Day day{};
  Temperature tmin, tmax;
  std::size_t line = 0;  ///< where the day was read first
  DayCover cover = DayCover::none;
};

/// The readings of one station, in any order. A reading that comes twice, and the hour that comes twice when clocks go
/// back, change nothing; the hour that is skipped when they go forward is a short hole.
///
/// A day is whole when no three hours of it pass without a reading (no six half-hours in a row, midnights included).
/// Three hours are the step of the main and intermediate synoptic times, the coarsest at which weather stations report
/// (`common practice`); a larger hole can hide the minimum or the maximum, and where it lies in the day cannot be told
/// to be harmless: a front can put either at any hour. What holes cost on a real year of ten-minute readings is
/// measured by tests/unit/weather/day_reducer_test.cpp.
class DayReducer {
 public:
  static constexpr int k_minutes_a_day = 24 * 60;
  static constexpr int k_longest_hole_minutes = 180;

  /// Adds a reading, or the lowest and highest of a short interval. `minute` is that of the local day, 0 to 1440;
  /// 1440 ("24:00") is the day's last instant.
  void add(Day day, int minute, Temperature lowest, Temperature highest, std::size_t line) {
    Readings& readings = of_day(day, line);
    readings.lowest = std::min(readings.lowest, lowest.ticks());
    readings.highest = std::max(readings.highest, highest.ticks());
    readings.half_hours |= std::uint64_t{1} << half_hour(minute);
  }
  void add(Day day, int minute, Temperature value, std::size_t line) { add(day, minute, value, value, line); }

  /// A row without a value: the day is in the record, the hole stays.
  void add_without_value(Day day, std::size_t line) { of_day(day, line); }

  std::size_t days() const { return days_.size(); }

  /// The days that had a row, in order. Afterwards the reducer is empty.
  std::vector<ReducedDay> take();

 private:
  static constexpr int k_half_hours = 48;
  struct Readings {
    std::int32_t lowest = INT32_MAX;
    std::int32_t highest = INT32_MIN;
    std::uint64_t half_hours = 0;  ///< a bit for each half-hour that has a reading
    std::size_t line = 0;
  };

  static int half_hour(int minute) { return std::min(minute / 30, k_half_hours - 1); }
  static DayCover cover_of(const Readings& readings);
  Readings& of_day(Day day, std::size_t line);

  std::map<Day, Readings> days_;
  std::map<Day, Readings>::iterator last_ = days_.end();  ///< the day of the last reading
};

}  // namespace budclock::weather

// Two records of one place as one.
#pragma once

#include <budclock/weather/daily_series.hpp>
#include <budclock/weather/fill.hpp>

#include <cstdint>

namespace budclock::weather {

/// How a second record stands to the first.
enum class Kinship : std::uint8_t {
  same_station,  ///< on common days their values are equal: two exports of one station
  neighbour,     ///< its bias can be told and is removed
  unknown,       ///< too few common days, or not alike: its values are taken as they are
};

struct Joined {
  Kinship kinship = Kinship::unknown;
  FillCounts taken;  ///< values that the first record lacked
};

/// Gives `preferred` the values that it lacks and `other` has, value by value, past its first and last day too.
///
/// Equal within 0.1 °F on 19 of 20 common values (common practice), `other` is the same station and its values count as
/// observed. Else, with 30 common days that correlate by 0.8 or more, it is a neighbour: see `fill_from_neighbour`;
/// where that finds too few common days near the date or the time of year, the mean difference of all common days is
/// removed. Else its values are taken over as they are; one that would turn a day's minimum above its maximum is set
/// aside.
Joined join(DailySeries& preferred, const DailySeries& other);

}  // namespace budclock::weather

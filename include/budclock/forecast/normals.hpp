// How a season may go on where no other years are known, but the place's climate normals are.
//
// Normal temperatures put through a threshold date spring events late, for their days have no cold and warm spells (J.
// Agric. Meteorol. 2023, 79(2):69-76). So each coming day is taken as scattered about its normal, and each member as
// warmer or colder all along by what runs of so many days are off in real years.
#pragma once

#include <budclock/core/date.hpp>
#include <budclock/core/temperature.hpp>
#include <budclock/degree_day/formula.hpp>
#include <budclock/weather/daily_series.hpp>

#include <cstddef>
#include <vector>

namespace budclock::forecast {

/// As many members as odds need.
inline constexpr std::size_t k_normals_members = 9;

/// Standard deviation, over years, of the mean temperature of so many days that begin in `month`, C; `days` at least 1.
/// Measured by tests/tools/measure_normals.cpp on records of the eastern and midwestern United States, so for the
/// northern hemisphere's temperate continents.
double run_deviation(date::month month, int days);

/// Degree-days of each day from `first` through `last`: one row for each of k_normals_members members, coldest first.
/// `normals` is a whole mean year in weather::k_normals_year; an incomplete day of it gives no degree-days.
std::vector<std::vector<DegreeDays>> degree_days_on_normals(const degree_day::Formula& formula,
                                                            const weather::DailySeries& normals, Day first, Day last);

}  // namespace budclock::forecast

// Fills missing temperatures: from a neighbour station, and over short gaps by a straight line.
#pragma once

#include <budclock/weather/daily_series.hpp>

#include <cstddef>

namespace budclock::weather {

/// How many values a step filled.
struct FillCounts {
  std::size_t minima = 0;
  std::size_t maxima = 0;
};

/// Fills what is missing with the values of `neighbour`, its bias removed: the mean difference of the days within 45
/// days of the gap on which both stations observed that extreme; where they are fewer than 30, the same days of the
/// year in all years. A value stays missing where those are too few too, or correlate by less than 0.8 (30 days and
/// r >= 0.8: DeGaetano, Eggleston & Knapp 1995, J. Appl. Meteorol. 34, and Durre et al. 2010, J. Appl. Meteorol.
/// Climatol. 49:1615-1633, use the like). Minima and maxima apart; also past the last day of `series`, as far as the
/// neighbour goes. A filled extreme is held to the right side of the other one.
FillCounts fill_from_neighbour(DailySeries& series, const DailySeries& neighbour);

/// The longest gap, in days, that a straight line may bridge.
inline constexpr std::size_t k_longest_line = 5;

/// Fills gaps of at most `longest` days between two values by the straight line between them. Minima and maxima
/// apart. A filled extreme is held to the right side of the other one.
FillCounts fill_by_line(DailySeries& series, std::size_t longest = k_longest_line);

/// Of a minimum above its maximum, moves the one that is filled; of two, the minimum.
void keep_order(DailySeries& series);

}  // namespace budclock::weather

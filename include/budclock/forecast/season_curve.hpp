// A season's degree-days from day to day, as a chart shows them.
#pragma once

#include <budclock/core/date.hpp>
#include <budclock/core/temperature.hpp>
#include <budclock/degree_day/formula.hpp>
#include <budclock/rules/pest.hpp>

#include <vector>

namespace budclock::forecast {

/// What one, five and nine in ten years have at most on a day; of fewer than nine, the lowest and highest.
struct Band {
  DegreeDays low;
  DegreeDays middle;
  DegreeDays high;
};

/// A sum at which a stage begins.
struct CurveMark {
  const rules::Pest* pest = nullptr;
  const rules::Stage* stage = nullptr;
  DegreeDays sum;
};

/// One count through the season. Entries are the sums at the end of each day from `first` on.
struct SeasonCurve {
  degree_day::Formula formula{};
  TemperatureUnit unit = TemperatureUnit::fahrenheit;  ///< in which its figures are printed
  Day first{};
  std::vector<DegreeDays> known{};  ///< through the last observed day; the median where days are missing
  std::vector<Band> ahead{};        ///< of the days after those: those of a forecast, then the other years
  std::vector<Band> past{};         ///< of the other years alone, the whole season; empty when there are none
  std::size_t years = 0;            ///< other years behind the bands
  std::vector<CurveMark> marks{};
};

}  // namespace budclock::forecast

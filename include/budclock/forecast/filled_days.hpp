// How far the degree-days of filled temperatures can be trusted: each member sees them a little warmer or colder.
#pragma once

#include <budclock/core/date.hpp>
#include <budclock/core/temperature.hpp>
#include <budclock/degree_day/formula.hpp>
#include <budclock/weather/daily_series.hpp>

#include <cstddef>
#include <optional>
#include <vector>

namespace budclock::forecast {

/// Standard error of the mean temperature over a run of `days` days filled in that way (`neighbour` or `line`), as
/// measured by tests/tools/measure_gaps.cpp; zero for other origins.
TemperatureDifference fill_error(weather::Origin origin, std::size_t days);

/// How a day was filled: `line` if either extreme was, else `neighbour` if either was; nothing if neither.
std::optional<weather::Origin> fill_of(const weather::DailySeries& series, std::size_t index);

/// The filled days of a series as the members of a forecast see them. Each run of filled days is off by one normal
/// deviate times its fill_error in each member, stratified over the members and mixed anew for each run; the deviates
/// depend on nothing but dates, so that every sum of a season, and every day's run, sees the same ones.
class FilledDays {
 public:
  /// Looks at the days from first through last only.
  FilledDays(const degree_day::Formula& formula, const weather::DailySeries& series, const std::vector<int>& shifts,
             Day first, Day last);

  bool any() const { return !runs_.empty(); }

  /// Degree-days of day `index` in that member; nothing when the day is not filled.
  std::optional<DegreeDays> amount(std::size_t index, std::size_t member) const;

 private:
  struct Run {
    std::size_t first = 0;
    std::size_t days = 0;
    std::vector<TemperatureDifference> errors;  ///< one for each member
  };
  void add_run(weather::Origin fill, std::size_t first, std::size_t days, const std::vector<int>& shifts);
  const Run* run_of(std::size_t index) const;

  const degree_day::Formula& formula_;
  const weather::DailySeries& series_;
  std::vector<Run> runs_;  ///< by first day
};

}  // namespace budclock::forecast

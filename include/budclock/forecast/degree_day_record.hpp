// A whole record in degree-days, made once and then looked up by every season and forecast that is drawn from it.
#pragma once

#include <budclock/core/date.hpp>
#include <budclock/core/temperature.hpp>
#include <budclock/degree_day/formula.hpp>
#include <budclock/weather/daily_series.hpp>

#include <array>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <vector>

namespace budclock::forecast {

/// The same date so many years later (before it: below zero).
Day shifted(Day day, int years);

/// Degree-days of every day of a series; nothing on days that lack an extreme. The last day of a series, and a day
/// whose next minimum is missing, use their own minimum in the double methods (then equal to the single ones).
std::vector<std::optional<DegreeDays>> daily_degree_days(const degree_day::Formula& formula,
                                                         const weather::DailySeries& series);

/// The degree-days of a series by one formula. Refers to the series, which must outlive it.
class DegreeDayRecord {
 public:
  DegreeDayRecord(const degree_day::Formula& formula, const weather::DailySeries& series);

  const degree_day::Formula& formula() const { return formula_; }
  const weather::DailySeries& series() const { return *series_; }

  /// Of that day; nothing when it lacks an extreme or lies outside the record.
  std::optional<DegreeDays> amount(Day day) const;
  /// By the place in the series, which may lie outside.
  std::optional<DegreeDays> amount_at(std::ptrdiff_t place) const {
    const bool inside = place >= 0 && place < static_cast<std::ptrdiff_t>(amounts_.size());
    return inside ? amounts_[static_cast<std::size_t>(place)] : std::nullopt;
  }
  /// As if the next day were not there yet.
  std::optional<DegreeDays> amount_as_last(Day day) const;
  /// The mean of the same date in the other years that have it; nothing when none has.
  std::optional<DegreeDays> mean_of_other_years(Day day) const;

 private:
  degree_day::Formula formula_;
  const weather::DailySeries* series_;
  std::vector<std::optional<DegreeDays>> amounts_;
  std::array<DegreeDays, 366> sums_{};  ///< by day of a leap year
  std::array<std::int64_t, 366> counts_{};
};

/// Which days of a series have both extremes, by look-up. Refers to the series, which must outlive it.
class CompleteDays {
 public:
  explicit CompleteDays(const weather::DailySeries& series);

  const weather::DailySeries& series() const { return *series_; }
  /// How many days from first through last; days outside the series are not complete.
  std::size_t between(Day first, Day last) const;
  /// The last one not after `day`.
  std::optional<Day> last_until(Day day) const;

 private:
  const weather::DailySeries* series_;
  std::vector<std::size_t> before_;  ///< of the days before each index
};

}  // namespace budclock::forecast

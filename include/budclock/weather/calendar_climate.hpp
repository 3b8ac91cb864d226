// What is usual for each day of the year in one record.
#pragma once

#include <budclock/core/date.hpp>
#include <budclock/weather/daily_series.hpp>

#include <array>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <vector>

namespace budclock::weather {

/// 0 for 1 January to 365 for 31 December; 29 February is always 59.
std::size_t calendar_slot(Day day);
inline constexpr std::size_t k_calendar_slots = 366;

/// The slots of so many days from `first` on.
std::vector<std::uint16_t> calendar_slots(Day first, std::size_t days);

/// Robust centre and spread of one extreme for each day of the year, from the 15 days around it in every year:
/// biweight mean and standard deviation (Lanzante 1996, Int. J. Climatol. 16:1197-1226, c = 7.5), at least 100 values
/// (Durre et al. 2010, J. Appl. Meteorol. Climatol. 49:1615-1633). Seven years of record, or so, have that many.
class CalendarClimate {
 public:
  /// Observed values only.
  CalendarClimate(const DailySeries& series, const std::vector<DayValue>& values);

  /// Standard deviations between `value` and what is usual on `day`, with sign; nothing where too little is known.
  std::optional<double> deviation(std::size_t slot, Temperature value) const;
  std::optional<double> deviation(Day day, Temperature value) const { return deviation(calendar_slot(day), value); }

 private:
  struct Usual {
    double centre = 0;
    double spread = 0;  ///< 0: not known
  };
  static Usual biweight(const std::vector<std::int32_t>& sorted);
  std::array<Usual, k_calendar_slots> usual_{};
};

}  // namespace budclock::weather

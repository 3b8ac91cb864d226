// The steps of check_quality, each adding to one list. Callers want quality.hpp.
#pragma once

#include <budclock/weather/calendar_climate.hpp>
#include <budclock/weather/quality.hpp>

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace budclock::weather {

/// A record under check: what still stands of it, and what does not.
class QualityDesk {
 public:
  QualityDesk(const DailySeries& series, TemperatureUnit unit)
      : days_{series}, slots_{calendar_slots(series.first, series.size())}, unit_{unit} {}

  const DailySeries& days() const { return days_; }
  /// The calendar slot of a day.
  std::size_t slot(std::size_t index) const { return slots_[index]; }
  TemperatureUnit unit() const { return unit_; }
  const std::vector<DayValue>& values(Extreme extreme) const {
    return extreme == Extreme::minimum ? days_.tmin : days_.tmax;
  }
  /// The value of day `index` (which may lie outside) while it stands.
  std::optional<Temperature> standing(Extreme extreme, std::ptrdiff_t index) const {
    const auto& all = values(extreme);
    if (index < 0 || index >= static_cast<std::ptrdiff_t>(all.size())) return std::nullopt;
    const DayValue& value = all[static_cast<std::size_t>(index)];
    return value.origin == Origin::observed ? std::optional{value.value} : std::nullopt;
  }
  /// Notes a suspicion; the value stands until the step is over.
  void doubt(Extreme extreme, std::size_t index, Check check, std::string reason);
  /// Ends a step: what it doubted stands no longer.
  void settle();
  std::vector<Suspicion> take();

 private:
  DailySeries days_;
  std::vector<std::uint16_t> slots_;
  TemperatureUnit unit_;
  std::vector<Suspicion> found_;
  std::size_t settled_ = 0;
};

/// "45.0 F".
std::string with_unit(TemperatureDifference difference, TemperatureUnit unit);

void check_naught(QualityDesk& desk);
void check_duplicates(QualityDesk& desk);
void check_equal_extremes(QualityDesk& desk);
void check_bounds(QualityDesk& desk);
void check_streaks(QualityDesk& desk);
void check_against_climate(QualityDesk& desk);  ///< wrong_unit, gap, outlier
void check_consistency(QualityDesk& desk);      ///< swapped, inconsistent
void check_spikes(QualityDesk& desk);
void check_lagged_range(QualityDesk& desk);
void check_beyond_opposites(QualityDesk& desk);

}  // namespace budclock::weather

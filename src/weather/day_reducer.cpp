#include <budclock/weather/day_reducer.hpp>

#include <algorithm>

namespace budclock::weather {

DayReducer::Readings& DayReducer::of_day(Day day, std::size_t line) {
  if (last_ == days_.end() || last_->first != day) last_ = days_.try_emplace(day, Readings{.line = line}).first;
  return last_->second;
}

DayCover DayReducer::cover_of(const Readings& readings) {
  if (readings.half_hours == 0) return DayCover::none;
  constexpr int k_longest_run = k_longest_hole_minutes / 30 - 1;
  int run = 0;
  for (int i = 0; i < k_half_hours; ++i) {
    run = (readings.half_hours >> i & 1) != 0 ? 0 : run + 1;
    if (run > k_longest_run) return DayCover::partial;
  }
  return DayCover::whole;
}

std::vector<ReducedDay> DayReducer::take() {
  std::vector<ReducedDay> reduced;
  reduced.reserve(days_.size());
  for (const auto& [day, readings] : days_) {
    ReducedDay result{.day = day, .tmin = {}, .tmax = {}, .line = readings.line, .cover = cover_of(readings)};
    if (result.cover == DayCover::whole) {
      result.tmin = Temperature::from_ticks(readings.lowest);
      result.tmax = Temperature::from_ticks(readings.highest);
    }
    reduced.push_back(result);
  }
  days_.clear();
  last_ = days_.end();
  return reduced;
}

}  // namespace budclock::weather

#include <budclock/weather/merge.hpp>

namespace budclock::weather {

void fill_from(DailySeries& preferred, const DailySeries& other) {
  if (other.empty()) return;
  include_day(preferred, other.first);
  include_day(preferred, other.last());
  const auto offset = static_cast<std::size_t>((other.first - preferred.first).count());
  const auto take = [](DayValue& mine, const DayValue& theirs) {
    if (!has_value(mine.origin) && theirs.origin > mine.origin) mine = theirs;
  };
  for (std::size_t i = 0; i < other.size(); ++i) {
    take(preferred.tmin[offset + i], other.tmin[i]);
    take(preferred.tmax[offset + i], other.tmax[i]);
  }
}

}  // namespace budclock::weather

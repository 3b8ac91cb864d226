#include <budclock/weather/daily_series.hpp>

namespace budclock::weather {

std::optional<std::size_t> DailySeries::index_of(Day day) const {
  if (empty() || day < first || day > last()) return std::nullopt;
  return static_cast<std::size_t>((day - first).count());
}

std::optional<Day> DailySeries::last_observed() const {
  for (std::size_t i = size(); i-- > 0;) {
    if (tmin[i].origin == Origin::observed && tmax[i].origin == Origin::observed) return day(i);
  }
  return std::nullopt;
}

std::size_t include_day(DailySeries& series, Day day) {
  if (series.empty()) series.first = day;
  if (day < series.first) {
    const auto before = static_cast<std::size_t>((series.first - day).count());
    series.tmin.insert(series.tmin.begin(), before, DayValue{});
    series.tmax.insert(series.tmax.begin(), before, DayValue{});
    series.first = day;
  }
  const auto index = static_cast<std::size_t>((day - series.first).count());
  if (index >= series.size()) {
    series.tmin.resize(index + 1);
    series.tmax.resize(index + 1);
  }
  return index;
}

DailySeries until(const DailySeries& series, Day today) {
  DailySeries cut = series;
  if (series.empty() || today >= series.last()) return cut;
  const std::size_t keep = today < series.first ? 0 : static_cast<std::size_t>((today - series.first).count()) + 1;
  cut.tmin.resize(keep);
  cut.tmax.resize(keep);
  return cut;
}

}  // namespace budclock::weather

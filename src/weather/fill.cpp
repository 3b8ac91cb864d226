#include <budclock/weather/fill.hpp>

#include "common_days.hpp"

#include <algorithm>
#include <cmath>
#include <optional>
#include <vector>

namespace budclock::weather {
namespace {

std::size_t fill_extreme(Day first, std::vector<DayValue>& own, const std::vector<DayValue>& other) {
  const CommonDays common{first, own, other};
  std::size_t filled = 0;
  for (std::size_t i = 0; i < own.size(); ++i) {
    if (has_value(own[i].origin) || other[i].origin != Origin::observed) continue;
    const auto bias = common.bias(i);
    if (!bias) continue;
    own[i] = {other[i].value + TemperatureDifference::from_ticks(*bias), Origin::neighbour};
    ++filled;
  }
  return filled;
}

std::size_t bridge_extreme(std::vector<DayValue>& values, std::size_t longest) {
  std::size_t filled = 0;
  std::size_t gap = 0;  // days without a value so far
  for (std::size_t i = 0; i < values.size(); ++i) {
    if (!has_value(values[i].origin)) {
      ++gap;
      continue;
    }
    if (gap > 0 && gap <= longest && gap < i) {
      const Temperature before = values[i - gap - 1].value;
      const double step = static_cast<double>((values[i].value - before).ticks()) / static_cast<double>(gap + 1);
      for (std::size_t k = 1; k <= gap; ++k) {
        const auto rise = TemperatureDifference::from_ticks(std::llround(step * static_cast<double>(k)));
        values[i - gap - 1 + k] = {before + rise, Origin::line};
      }
      filled += gap;
    }
    gap = 0;
  }
  return filled;
}

bool is_filled(Origin origin) { return origin == Origin::neighbour || origin == Origin::line; }

}  // namespace

void keep_order(DailySeries& series) {
  for (std::size_t i = 0; i < series.size(); ++i) {
    DayValue& tmin = series.tmin[i];
    DayValue& tmax = series.tmax[i];
    if (!series.complete(i) || tmin.value <= tmax.value) continue;
    if (is_filled(tmin.origin)) {
      tmin.value = tmax.value;
    } else if (is_filled(tmax.origin)) {
      tmax.value = tmin.value;
    }
  }
}

FillCounts fill_from_neighbour(DailySeries& series, const DailySeries& neighbour) {
  if (series.empty() || neighbour.empty()) return {};
  if (neighbour.last() > series.last()) include_day(series, neighbour.last());
  DailySeries beside;  // the neighbour's values on the days of the series
  include_day(beside, series.first);
  include_day(beside, series.last());
  for (std::size_t i = 0; i < series.size(); ++i) {
    const auto there = neighbour.index_of(series.day(i));
    if (!there) continue;
    beside.tmin[i] = neighbour.tmin[*there];
    beside.tmax[i] = neighbour.tmax[*there];
  }
  const FillCounts filled{fill_extreme(series.first, series.tmin, beside.tmin),
                          fill_extreme(series.first, series.tmax, beside.tmax)};
  keep_order(series);
  return filled;
}

FillCounts fill_by_line(DailySeries& series, std::size_t longest) {
  const FillCounts filled{bridge_extreme(series.tmin, longest), bridge_extreme(series.tmax, longest)};
  keep_order(series);
  return filled;
}

}  // namespace budclock::weather

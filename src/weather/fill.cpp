#include <budclock/weather/calendar_climate.hpp>
#include <budclock/weather/fill.hpp>

#include <algorithm>
#include <cmath>
#include <optional>
#include <vector>

namespace budclock::weather {
namespace {

constexpr std::size_t k_reach = 45;
constexpr double k_fewest_common_days = 30;
constexpr double k_least_correlation = 0.8;

/// Sums over days on which both stations have a value, in grid ticks; whole numbers, exact in a double.
struct Moments {
  double days = 0, own = 0, other = 0, own_squares = 0, other_squares = 0, products = 0;

  void add(double x, double y) {
    days += 1;
    own += x;
    other += y;
    own_squares += x * x;
    other_squares += y * y;
    products += x * y;
  }
  friend Moments combine(const Moments& a, const Moments& b, double sign) {
    return {a.days + sign * b.days,
            a.own + sign * b.own,
            a.other + sign * b.other,
            a.own_squares + sign * b.own_squares,
            a.other_squares + sign * b.other_squares,
            a.products + sign * b.products};
  }
  bool enough() const { return days >= k_fewest_common_days; }
  bool alike() const {
    const double covariance = days * products - own * other;
    const double variances = (days * own_squares - own * own) * (days * other_squares - other * other);
    return variances > 0 && covariance >= k_least_correlation * std::sqrt(variances);
  }
  /// How much warmer our station is, in ticks.
  std::int64_t bias() const { return std::llround((own - other) / days); }
};

/// What one extreme of two stations has in common around any day.
class CommonDays {
 public:
  /// Both arrays run over the same days from `first` on.
  CommonDays(Day first, const std::vector<DayValue>& own, const std::vector<DayValue>& other)
      : first_{first}, running_(own.size() + 1), by_calendar_(3 * k_calendar_slots + 1) {
    std::vector<Moments> slots(k_calendar_slots);
    for (std::size_t i = 0; i < own.size(); ++i) {
      running_[i + 1] = running_[i];
      if (own[i].origin != Origin::observed || other[i].origin != Origin::observed) continue;
      const double x = own[i].value.ticks();
      const double y = other[i].value.ticks();
      running_[i + 1].add(x, y);
      slots[calendar_slot(first + date::days{static_cast<int>(i)})].add(x, y);
    }
    for (std::size_t i = 0; i + 1 < by_calendar_.size(); ++i) {  // three years round, so that windows need no wrapping
      by_calendar_[i + 1] = combine(by_calendar_[i], slots[i % k_calendar_slots], 1);
    }
  }

  /// The bias to remove on day `index`, in ticks; nothing where the neighbour cannot stand in.
  std::optional<std::int64_t> bias(std::size_t index) const {
    const std::size_t from = index < k_reach ? 0 : index - k_reach;
    const std::size_t to = std::min(index + k_reach + 1, running_.size() - 1);
    Moments moments = combine(running_[to], running_[from], -1);
    if (!moments.enough()) {
      const std::size_t slot = k_calendar_slots + calendar_slot(first_ + date::days{static_cast<int>(index)});
      moments = combine(by_calendar_[slot + k_reach + 1], by_calendar_[slot - k_reach], -1);
    }
    if (!moments.enough() || !moments.alike()) return std::nullopt;
    return moments.bias();
  }

 private:
  Day first_;
  std::vector<Moments> running_;      ///< of all days before each
  std::vector<Moments> by_calendar_;  ///< of all days of the year before each, whatever their year
};

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

/// Of a minimum above its maximum, moves the one that is filled; of two, the minimum.
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

}  // namespace

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

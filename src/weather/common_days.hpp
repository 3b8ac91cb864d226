// What two stations have in common, and so how far one can stand in for the other.
#pragma once

#include <budclock/weather/calendar_climate.hpp>
#include <budclock/weather/daily_series.hpp>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <vector>

namespace budclock::weather {

inline constexpr std::size_t k_reach = 45;
inline constexpr double k_fewest_common_days = 30;
inline constexpr double k_least_correlation = 0.8;

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

  /// All common days.
  const Moments& all() const { return running_.back(); }

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

}  // namespace budclock::weather

#include <budclock/weather/join.hpp>

#include "common_days.hpp"

#include <cmath>
#include <cstdint>

namespace budclock::weather {
namespace {

constexpr std::int64_t k_equal_ticks = 50;  // 0.1 °F: what rounding to °C and back can do
constexpr double k_share_equal = 0.95;      // common practice

/// Both series over the days of either.
struct Aligned {
  DailySeries own;
  DailySeries other;
};

void put(DailySeries& days, const DailySeries& from) {
  const std::size_t begin = include_day(days, from.first);
  include_day(days, from.last());
  for (std::size_t i = 0; i < from.size(); ++i) {
    days.tmin[begin + i] = from.tmin[i];
    days.tmax[begin + i] = from.tmax[i];
  }
}

Aligned aligned(const DailySeries& own, const DailySeries& other) {
  Aligned both;
  for (DailySeries* days : {&both.own, &both.other}) {
    for (const DailySeries* span : {&own, &other}) {
      include_day(*days, span->first);
      include_day(*days, span->last());
    }
  }
  put(both.own, own);
  put(both.other, other);
  return both;
}

Kinship kinship(const Aligned& both) {
  std::size_t common = 0;
  std::size_t equal = 0;
  bool alike = true;
  for (const auto extreme : {&DailySeries::tmin, &DailySeries::tmax}) {
    const auto& own = both.own.*extreme;
    const auto& other = both.other.*extreme;
    Moments moments;
    for (std::size_t i = 0; i < own.size(); ++i) {
      if (own[i].origin != Origin::observed || other[i].origin != Origin::observed) continue;
      moments.add(own[i].value.ticks(), other[i].value.ticks());
      ++common;
      if (std::abs((own[i].value - other[i].value).ticks()) <= k_equal_ticks) ++equal;
    }
    alike = alike && moments.enough() && moments.alike();
  }
  if (common > 0 && static_cast<double>(equal) >= k_share_equal * static_cast<double>(common)) {
    return Kinship::same_station;
  }
  return alike ? Kinship::neighbour : Kinship::unknown;
}

/// Gives `own` what it still lacks, moved by the mean difference of all common days.
void take_with_mean_bias(std::vector<DayValue>& own, const std::vector<DayValue>& other) {
  Moments moments;
  for (std::size_t i = 0; i < own.size(); ++i) {
    if (own[i].origin == Origin::observed && other[i].origin == Origin::observed) {
      moments.add(own[i].value.ticks(), other[i].value.ticks());
    }
  }
  const auto bias = TemperatureDifference::from_ticks(moments.bias());
  for (std::size_t i = 0; i < own.size(); ++i) {
    if (!has_value(own[i].origin) && other[i].origin == Origin::observed) {
      own[i] = {other[i].value + bias, Origin::neighbour};
    }
  }
}

/// Gives `own` what it lacks, as it is.
void take_as_it_is(Aligned& both) {
  for (std::size_t i = 0; i < both.own.size(); ++i) {
    DayValue& tmin = both.own.tmin[i];
    DayValue& tmax = both.own.tmax[i];
    const auto take = [](DayValue& mine, const DayValue& theirs) {
      const bool takes = !has_value(mine.origin) && theirs.origin > mine.origin;
      if (takes) mine = theirs;
      return takes;
    };
    const bool took_minimum = take(tmin, both.other.tmin[i]);
    const bool took_maximum = take(tmax, both.other.tmax[i]);
    if (took_minimum == took_maximum || !both.own.complete(i) || tmin.value <= tmax.value) continue;
    (took_minimum ? tmin : tmax).origin = Origin::set_aside;
  }
}

FillCounts values_in(const DailySeries& days) {
  FillCounts counts;
  for (std::size_t i = 0; i < days.size(); ++i) {
    counts.minima += has_value(days.tmin[i].origin) ? 1 : 0;
    counts.maxima += has_value(days.tmax[i].origin) ? 1 : 0;
  }
  return counts;
}

}  // namespace

Joined join(DailySeries& preferred, const DailySeries& other) {
  if (other.empty()) return {};
  if (preferred.empty()) {
    preferred = other;
    return {Kinship::unknown, values_in(other)};
  }
  const FillCounts before = values_in(preferred);
  Aligned both = aligned(preferred, other);
  Joined joined{kinship(both), {}};
  if (joined.kinship == Kinship::neighbour) {
    fill_from_neighbour(both.own, both.other);
    take_with_mean_bias(both.own.tmin, both.other.tmin);
    take_with_mean_bias(both.own.tmax, both.other.tmax);
    keep_order(both.own);
  } else {
    take_as_it_is(both);
  }
  const FillCounts after = values_in(both.own);
  joined.taken = {after.minima - before.minima, after.maxima - before.maxima};
  preferred = std::move(both.own);
  return joined;
}

}  // namespace budclock::weather

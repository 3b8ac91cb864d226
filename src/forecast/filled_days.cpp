#include <budclock/forecast/filled_days.hpp>

#include "normal_deviate.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <numeric>

namespace budclock::forecast {
namespace {

using weather::Origin;

bool is_filled(Origin origin) { return origin == Origin::neighbour || origin == Origin::line; }

/// SplitMix64 (Steele, Lea & Flood 2014, OOPSLA, doi 10.1145/2660193.2660195).
std::uint64_t mixed(std::uint64_t x) {
  x += 0x9e3779b97f4a7c15ULL;
  x = (x ^ (x >> 30U)) * 0xbf58476d1ce4e5b9ULL;
  x = (x ^ (x >> 27U)) * 0x94d049bb133111ebULL;
  return x ^ (x >> 31U);
}

/// Ranks of the members for the run that begins on `first`, in an order that differs from run to run.
std::vector<std::size_t> ranks(Day first, const std::vector<int>& shifts) {
  const auto key = [&](std::size_t member) {
    const auto day = static_cast<std::uint64_t>(first.time_since_epoch().count());
    return mixed(mixed(day) + static_cast<std::uint64_t>(shifts[member]));
  };
  std::vector<std::size_t> order(shifts.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) { return key(a) < key(b); });
  std::vector<std::size_t> ranks(shifts.size());
  for (std::size_t rank = 0; rank < order.size(); ++rank) ranks[order[rank]] = rank;
  return ranks;
}

}  // namespace

TemperatureDifference fill_error(Origin origin, std::size_t days) {
  if (!is_filled(origin) || days == 0) return {};
  // °F, for lines over 1, 2, ... days, and for one day of a neighbour; src/weather/gap_filling.md has the tables.
  constexpr std::array k_line{4.26, 4.67, 5.00, 5.16, 5.23};
  constexpr double k_neighbour_day = 3.15;
  constexpr double k_neighbour_fall = -0.35;  // errors of neighbouring days are alike, else it would be -0.5
  if (origin == Origin::line) return TemperatureDifference::fahrenheit(k_line[std::min(days, k_line.size()) - 1]);
  return TemperatureDifference::fahrenheit(k_neighbour_day * std::pow(static_cast<double>(days), k_neighbour_fall));
}

std::optional<Origin> fill_of(const weather::DailySeries& series, std::size_t index) {
  if (!series.complete(index)) return std::nullopt;
  const Origin tmin = series.tmin[index].origin;
  const Origin tmax = series.tmax[index].origin;
  if (tmin == Origin::line || tmax == Origin::line) return Origin::line;
  if (tmin == Origin::neighbour || tmax == Origin::neighbour) return Origin::neighbour;
  return std::nullopt;
}

FilledDays::FilledDays(const degree_day::Formula& formula, const weather::DailySeries& series,
                       const std::vector<int>& shifts, Day first, Day last)
    : formula_{formula}, series_{series} {
  if (series.empty() || last < series.first || first > series.last()) return;
  const std::size_t stop = *series.index_of(std::min(last, series.last())) + 1;
  std::size_t i = *series.index_of(std::max(first, series.first));
  while (i > 0 && fill_of(series, i) && fill_of(series, i - 1) == fill_of(series, i)) --i;
  while (i < stop) {
    const auto fill = fill_of(series, i);
    std::size_t end = i + 1;
    if (fill) {
      while (end < stop && fill_of(series, end) == fill) ++end;
      add_run(*fill, i, end - i, shifts);
    }
    i = end;
  }
}

void FilledDays::add_run(Origin fill, std::size_t first, std::size_t days, const std::vector<int>& shifts) {
  Run run{first, days, {}};
  const double error = static_cast<double>(fill_error(fill, days).ticks());
  for (const std::size_t rank : ranks(series_.day(first), shifts)) {
    run.errors.push_back(TemperatureDifference::from_ticks(std::llround(deviate(rank, shifts.size()) * error)));
  }
  runs_.push_back(std::move(run));
}

const FilledDays::Run* FilledDays::run_of(std::size_t index) const {
  const auto after = std::upper_bound(runs_.begin(), runs_.end(), index,
                                      [](std::size_t wanted, const Run& run) { return wanted < run.first; });
  if (after == runs_.begin()) return nullptr;
  const Run& run = *(after - 1);
  return index < run.first + run.days ? &run : nullptr;
}

std::optional<DegreeDays> FilledDays::amount(std::size_t index, std::size_t member) const {
  const Run* run = run_of(index);
  if (run == nullptr) return std::nullopt;
  const TemperatureDifference error = member < run->errors.size() ? run->errors[member] : TemperatureDifference{};
  const auto seen = [error](const weather::DayValue& value) {
    return is_filled(value.origin) ? value.value + error : value.value;
  };
  const Temperature tmax = seen(series_.tmax[index]);
  const Temperature tmin = std::min(seen(series_.tmin[index]), tmax);
  const bool has_next = index + 1 < series_.size() && weather::has_value(series_.tmin[index + 1].origin);
  return degree_day::of_day(formula_, tmin, tmax, has_next ? series_.tmin[index + 1].value : tmin);
}

}  // namespace budclock::forecast

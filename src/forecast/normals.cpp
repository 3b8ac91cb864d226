#include <budclock/forecast/normals.hpp>
#include <budclock/weather/reader.hpp>

#include "normal_deviate.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

namespace budclock::forecast {
namespace {

/// Standard deviation of the mean temperature of single days by month, C, January first; and that of longer runs as a
/// share of it, the mean over the months (measure_normals, 40 records of 16 to 90 years, 2026-11-28). Month by month
/// the ranges were too narrow (they held 67 to 77 of 100), for where most days lie below a base a sum hangs on its few
/// warm days and not on the run's mean.
constexpr std::array k_of_days{6.08, 6.04, 5.65, 4.77, 4.30, 3.68, 3.09, 2.95, 3.58, 4.06, 4.81, 5.51};
constexpr std::array<int, 7> k_lengths{1, 3, 7, 14, 30, 60, 90};
constexpr std::array<double, k_lengths.size()> k_shares{1.00, 0.86, 0.70, 0.56, 0.43, 0.33, 0.29};

/// A day's scatter in equal slices, and what makes the variance of their middles 1.
constexpr std::size_t k_slices = 15;
double scatter_deviate(std::size_t slice) {
  static const double k_stretch = [] {
    double squares = 0;
    for (std::size_t each = 0; each < k_slices; ++each) squares += deviate(each, k_slices) * deviate(each, k_slices);
    return std::sqrt(static_cast<double>(k_slices) / squares);
  }();
  return k_stretch * deviate(slice, k_slices);
}

/// Members stand at the tenths of the normal distribution, so that 8 in 10 seasons lie between the first and the last.
double member_deviate(std::size_t member) {
  const double below = static_cast<double>(member + 1) / static_cast<double>(k_normals_members + 1);
  return below <= 0.5 ? -upper_deviate(below) : upper_deviate(1 - below);
}

/// What one day gives when it is warmer than normal by `warmer`, and scattered about that.
double mean_degree_days(const degree_day::Formula& formula, const weather::DailySeries& normals, std::size_t i,
                        double warmer, double scatter) {
  const std::size_t next = (i + 1) % normals.size();
  double sum = 0;
  for (std::size_t slice = 0; slice < k_slices; ++slice) {
    const auto off = TemperatureDifference::celsius(warmer + scatter * scatter_deviate(slice));
    sum += degree_day::of_day(formula, normals.tmin[i].value + off, normals.tmax[i].value + off,
                              normals.tmin[next].value + off)
               .celsius_days();
  }
  return sum / static_cast<double>(k_slices);
}

}  // namespace

double run_deviation(date::month month, int days) {
  const double of_days = k_of_days[unsigned{month} - 1];
  const auto later = std::find_if(k_lengths.begin(), k_lengths.end(), [&](int length) { return length >= days; });
  if (later == k_lengths.begin()) return of_days;
  // Beyond the last measured length, runs average out as independent days do.
  if (later == k_lengths.end())
    return of_days * k_shares.back() * std::sqrt(static_cast<double>(k_lengths.back()) / days);
  const auto i = static_cast<std::size_t>(later - k_lengths.begin());
  const double shorter = k_lengths[i - 1];
  const double at = std::log(days / shorter) / std::log(k_lengths[i] / shorter);
  return of_days * (k_shares[i - 1] + at * (k_shares[i] - k_shares[i - 1]));
}

std::vector<std::vector<DegreeDays>> degree_days_on_normals(const degree_day::Formula& formula,
                                                            const weather::DailySeries& normals, Day first, Day last) {
  std::vector<std::vector<DegreeDays>> members(k_normals_members);
  const date::month month = date::year_month_day{first}.month();
  double run_before = 0;
  for (Day day = first; day <= last; day += date::days{1}) {
    const int days = static_cast<int>((day - first).count()) + 1;
    // A run's mean is off by so much: what this day adds to the sum of the days before.
    const double run = run_deviation(month, days) * days;
    const double off = run - std::exchange(run_before, run);
    const double of_day = run_deviation(date::year_month_day{day}.month(), 1);
    const double scatter = std::sqrt(std::max(of_day * of_day - off * off, 0.0));
    const auto i = normals.index_of(in_year(month_day_of(day), weather::k_normals_year));
    for (std::size_t m = 0; m < members.size(); ++m) {
      const bool there = i && normals.complete(*i) && normals.complete((*i + 1) % normals.size());
      const double amount = there ? mean_degree_days(formula, normals, *i, off * member_deviate(m), scatter) : 0;
      members[m].push_back(DegreeDays::celsius_days(amount));
    }
  }
  return members;
}

}  // namespace budclock::forecast

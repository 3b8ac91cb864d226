#include <budclock/forecast/learning.hpp>

#include "normal_deviate.hpp"

#include <algorithm>
#include <cmath>

namespace budclock::forecast {
namespace {

constexpr double k_years_share = 0.15;
constexpr double k_sites_share = 0.10;
/// Of the standard deviation between sites (common practice).
constexpr double k_farthest_move = 2;

double square(double x) { return x * x; }

}  // namespace

ThresholdPrior threshold_prior(double published, std::optional<double> published_scatter) {
  return {.published = published,
          .between_sites = k_sites_share * published,
          .between_years = published_scatter.value_or(k_years_share * published)};
}

bool teaches(const SeenBetween& seen) {
  return seen.last_not_found < seen.first_found && seen.first_found - seen.last_not_found <= k_longest_between_visits;
}

std::optional<SeenSum> seen_sum(const Season& season, const SeenBetween& seen) {
  const Day last_known = season.days.first + date::days{static_cast<int>(season.known_days)} - date::days{1};
  if (!teaches(seen) || seen.first_found > last_known || seen.last_not_found < season.days.first) return std::nullopt;
  const bool has_gap = std::any_of(season.filled.begin(), season.filled.end(), [&](const FilledDay& filled) {
    return !filled.fill && filled.day <= seen.first_found;
  });
  if (has_gap) return std::nullopt;
  const double before = sum_on(season, seen.last_not_found).fahrenheit_days();
  const double after = sum_on(season, seen.first_found).fahrenheit_days();
  return SeenSum{(before + after) / 2, after - before};
}

LearnedThreshold learn(const ThresholdPrior& prior, const std::vector<SeenSum>& seen) {
  const double prior_precision = 1 / square(prior.between_sites);
  double precision = prior_precision;
  double weighted = prior_precision * prior.published;
  for (const SeenSum& each : seen) {
    const double of_each = 1 / (square(prior.between_years) + square(each.width) / 12);
    precision += of_each;
    weighted += of_each * each.middle;
  }
  const double farthest = k_farthest_move * prior.between_sites;
  const double move = weighted / precision - prior.published;
  return {.sum = prior.published + std::clamp(move, -farthest, farthest),
          .deviation = std::sqrt(1 / precision),
          .predictive = std::sqrt(1 / precision + square(prior.between_years)),
          .weight = 1 - prior_precision / precision,
          .seasons = seen.size(),
          .held_back = std::abs(move) > farthest};
}

Spread first_reached_about(const Season& season, double sum, double deviation) {
  std::vector<Spread> spreads;
  for (std::size_t slice = 0; slice < k_threshold_slices; ++slice) {
    const double at = sum + deviation * deviate(slice, k_threshold_slices);
    spreads.push_back(first_reached(season, DegreeDays::fahrenheit_days(std::max(at, 0.0))));
    if (!spreads.back().known()) return spreads.back();
    if (deviation == 0) break;
  }
  return pooled(spreads);
}

}  // namespace budclock::forecast

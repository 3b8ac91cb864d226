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

ThresholdPrior threshold_prior(double published, double published_scatter) {
  return {.published = published,
          .between_sites = std::min(k_sites_share * published, published_scatter),
          .between_years = published_scatter};
}

double scatter_in_place(double published) { return k_years_share * published; }

std::vector<SeenBetween> finds_of(const std::vector<journal::Sighting>& log, std::string_view site,
                                  std::string_view pest, std::string_view stage, int first_year, int last_year) {
  std::vector<SeenBetween> finds;
  for (int year = first_year; year <= last_year; ++year) {
    const auto found = stage_found(log, site, pest, stage, year, Day{date::year{year} / 12 / 31});
    if (!found) continue;
    const Day before = found->contradicted ? found->first : found->last_not_found.value_or(found->first);
    finds.push_back({before, found->first});
  }
  return finds;
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

LocalSum local_sum(const DegreeDayRecord& record, MonthDay start, Day today, double published,
                   std::optional<double> scatter, const std::vector<SeenBetween>& finds) {
  LocalSum local{.published = published, .scatter = scatter};
  std::vector<SeenSum> sums;
  for (const SeenBetween& find : finds) {
    const SeasonDays days = season_on(start, find.first_found);
    if (days.first >= season_on(start, today).first) continue;
    const auto sum =
        record.series().empty() ? std::nullopt : seen_sum(run_season(record, days, record.series().last(), {}), find);
    if (sum) {
      sums.push_back(*sum);
    } else {
      ++local.set_aside;
    }
  }
  local.seasons = sums.size();
  if (!sums.empty()) {
    const auto lower = [](const SeenSum& a, const SeenSum& b) { return a.middle < b.middle; };
    const auto [lowest, highest] = std::minmax_element(sums.begin(), sums.end(), lower);
    local.lowest = lowest->middle;
    local.highest = highest->middle;
    for (const SeenSum& sum : sums) local.mean += sum.middle / static_cast<double>(sums.size());
  }
  if (scatter) local.learned = learn(threshold_prior(published, *scatter), sums);
  return local;
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

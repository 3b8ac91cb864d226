#include <budclock/forecast/hindcast.hpp>

#include <cmath>

namespace budclock::forecast {
namespace {

constexpr double k_from = 0.1;
constexpr double k_to = 0.9;

/// Sums over forecasts become means.
void divide(Scores& scores, double count) {
  for (double* sum : {&scores.bias, &scores.error, &scores.covered, &scores.held, &scores.width, &scores.crps,
                      &scores.calendar_error, &scores.calendar_crps, &scores.increment_error, &scores.increment_crps}) {
    *sum /= count;
  }
  if (scores.known) {
    for (double* sum : {&scores.known->error, &scores.known->crps, &scores.known->covered}) *sum /= count;
  }
}

/// Pairs of scores of the same forecasts, for the bootstrap.
struct Pairs {
  std::vector<ScoredCase> calendar, calendar_crps, increment, increment_crps, known, known_crps;
};

void add(const ReplayedForecast& each, Scores& scores, Pairs& pairs) {
  const double error = std::abs(each.likely - each.truth);
  const double crps = fair_crps(each.members, each.truth);
  const double calendar_error = std::abs(each.calendar_mean - each.truth);
  const double calendar_crps = fair_crps(each.calendar, each.truth);
  const double increment_error = std::abs(each.increment - each.truth);
  const double increment_crps = fair_crps(each.increment_dates, each.truth);
  const PitRange pit = pit_range(each.members, each.truth);
  ++scores.forecasts;
  if (each.never) ++scores.never;
  scores.bias += each.likely - each.truth;
  scores.error += error;
  scores.covered += share_inside(pit, k_from, k_to);
  scores.held += each.early <= each.truth && each.truth <= each.late ? 1 : 0;
  scores.width += each.late - each.early;
  scores.crps += crps;
  scores.ranks.add(pit);
  scores.calendar_error += calendar_error;
  scores.calendar_crps += calendar_crps;
  scores.increment_error += increment_error;
  scores.increment_crps += increment_crps;
  pairs.calendar.push_back({each.year, 0, error, calendar_error});
  pairs.calendar_crps.push_back({each.year, 0, crps, calendar_crps});
  pairs.increment.push_back({each.year, 0, error, increment_error});
  pairs.increment_crps.push_back({each.year, 0, crps, increment_crps});
  if (each.members_known.empty()) return;
  if (!scores.known) scores.known = Scores::Known{};
  const double error_known = std::abs(each.likely_known - each.truth);
  const double crps_known = fair_crps(each.members_known, each.truth);
  scores.known->error += error_known;
  scores.known->crps += crps_known;
  scores.known->covered += share_inside(pit_range(each.members_known, each.truth), k_from, k_to);
  pairs.known.push_back({each.year, 0, error_known, error});
  pairs.known_crps.push_back({each.year, 0, crps_known, crps});
}

}  // namespace

Scores score(const std::vector<ReplayedForecast>& forecasts) {
  Scores scores;
  if (forecasts.empty()) return scores;
  Pairs pairs;
  for (const ReplayedForecast& each : forecasts) add(each, scores, pairs);
  divide(scores, static_cast<double>(forecasts.size()));
  scores.over_calendar = bootstrap_skill(pairs.calendar);
  scores.over_calendar_crps = bootstrap_skill(pairs.calendar_crps);
  scores.over_increment = bootstrap_skill(pairs.increment);
  scores.over_increment_crps = bootstrap_skill(pairs.increment_crps);
  if (scores.known) {
    scores.known->gain = bootstrap_skill(pairs.known);
    scores.known->gain_crps = bootstrap_skill(pairs.known_crps);
  }
  return scores;
}

}  // namespace budclock::forecast

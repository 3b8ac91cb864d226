#include <budclock/forecast/learning.hpp>

#include "wooster.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <random>

using namespace budclock;
using namespace budclock::forecast;

namespace {

const degree_day::Formula k_base_50{.lower = Temperature::fahrenheit(50), .upper = {}};

Season season_of(int year) {
  const SeasonDays days = season_on(date::January / 1, *make_day(year, 12, 31));
  return run_season(DegreeDayRecord{k_base_50, wooster()}, days, wooster().last(), {});
}

/// The visits of a crew to an event on `date`: every `every` days from a phase, the last before it and the next.
SeenBetween visited(Day date, int every, int phase) {
  const Day first_visit = date - date::days{every * 10 - phase};
  Day last_not = first_visit;
  while (last_not + date::days{every} < date) last_not += date::days{every};
  return {last_not, last_not + date::days{every}};
}

/// Seasons 1985 to 1985 + count of a site whose own sum is `own` +- `scatter`, visited every `every` days.
std::vector<SeenSum> simulated(int count, double own, double scatter, int every, unsigned seed) {
  std::mt19937 engine{seed};
  std::vector<SeenSum> sums;
  for (int year = 1985; year < 1985 + count; ++year) {
    if (year == 1989) continue;  // a day is missing
    // Uniform with the standard deviation `scatter`, portable where the standard's normal is not.
    const double uniform = static_cast<double>(engine()) / 4294967296.0 - 0.5;
    const Season season = season_of(year);
    const Spread spread = first_reached(season, DegreeDays::fahrenheit_days(own + uniform * scatter * std::sqrt(12.0)));
    REQUIRE(spread.known());
    const int phase = static_cast<int>(engine() % static_cast<unsigned>(every));
    const auto seen = seen_sum(season, visited(*spread.dates.front(), every, phase));
    if (seen) sums.push_back(*seen);
  }
  return sums;
}

}  // namespace

TEST_CASE("a site's sum is shrunk towards the published one as the formula says") {
  // By hand: w = 10^2/(10^2 + 14.4^2/3) = 0.591296; 96 + w 12; variance 1/(1/10^2 + 3/14.4^2).
  const ThresholdPrior prior{.published = 96, .between_sites = 10, .between_years = 14.4};
  const LearnedThreshold learned = learn(prior, {{108, 0}, {108, 0}, {108, 0}});
  CHECK(learned.weight == Approx(0.591296).margin(5e-7));
  CHECK(learned.sum == Approx(103.0956).margin(5e-5));
  CHECK(learned.deviation == Approx(6.39300).margin(5e-6));
  CHECK(learned.predictive == Approx(15.75533).margin(5e-6));
  CHECK(learned.seasons == 3);
  CHECK_FALSE(learned.held_back);
}

TEST_CASE("without a season the published sum stands with its own scatter") {
  const LearnedThreshold learned = learn({.published = 96, .between_sites = 10, .between_years = 14.4}, {});
  CHECK(learned.sum == 96);
  CHECK(learned.deviation == Approx(10));
  CHECK(learned.weight == 0);
  CHECK(learned.seasons == 0);
}

TEST_CASE("a find between visits far apart counts for less") {
  const ThresholdPrior prior{.published = 96, .between_sites = 10, .between_years = 14.4};
  // 35 degree-days between weekly visits at 5 a day: a scatter of 35/sqrt(12) = 10.1 is added.
  const LearnedThreshold weekly = learn(prior, {{108, 35}});
  const double variance = 14.4 * 14.4 + 35.0 * 35.0 / 12;
  CHECK(std::sqrt(35.0 * 35.0 / 12) == Approx(10.1).margin(0.05));
  CHECK(weekly.weight == Approx(100 / (100 + variance)));
  CHECK(weekly.weight < learn(prior, {{108, 0}}).weight);
}

TEST_CASE("a sum moves by no more than twice the scatter between sites") {
  const ThresholdPrior prior{.published = 100, .between_sites = 10, .between_years = 15};
  const std::vector<SeenSum> far(30, {200, 0});
  CHECK(learn(prior, far).sum == Approx(120));
  CHECK(learn(prior, far).held_back);
  const std::vector<SeenSum> early(30, {20, 0});
  CHECK(learn(prior, early).sum == Approx(80));
}

TEST_CASE("only a find with a visit in vain at most 14 days before it teaches") {
  const Day found = *make_day(2010, 5, 20);
  CHECK(teaches({found - date::days{14}, found}));
  CHECK_FALSE(teaches({found - date::days{15}, found}));
  CHECK_FALSE(teaches({found, found}));
  CHECK_FALSE(seen_sum(season_of(2010), {found - date::days{15}, found}));
  CHECK(seen_sum(season_of(2010), {found - date::days{14}, found}));
}

TEST_CASE("a find in a season that lacks a day before it does not teach, and after it does") {
  const Season season = season_of(1989);  // 15 March is missing
  CHECK_FALSE(seen_sum(season, {*make_day(1989, 5, 10), *make_day(1989, 5, 17)}));
  CHECK(seen_sum(season, {*make_day(1989, 3, 7), *make_day(1989, 3, 14)}));
}

TEST_CASE("a site that is 20 % later than published is learned, the more so with more seasons") {
  const ThresholdPrior prior = threshold_prior(179, scatter_in_place(179));
  double before = 179;
  for (const int seasons : {3, 10, 29}) {
    const LearnedThreshold learned = learn(prior, simulated(seasons, 1.2 * 179, 20, 7, 42));
    CAPTURE(seasons);
    CHECK(learned.sum > before);
    CHECK(learned.sum < 1.2 * 179 + learned.deviation);
    before = learned.sum;
  }
  CHECK(before == Approx(1.2 * 179).margin(10));
}

TEST_CASE("a site that is as published stays there, whatever the crew's rhythm") {
  const ThresholdPrior prior = threshold_prior(179, scatter_in_place(179));
  for (const int every : {3, 7, 14}) {
    const LearnedThreshold learned = learn(prior, simulated(29, 179, 20, every, 7));
    CAPTURE(every);
    CHECK(learned.seasons >= 27);
    CHECK(learned.sum == Approx(179).margin(2 * learned.deviation));
  }
}

TEST_CASE("late crews do not drag a site later") {
  // Crews that first come one to five weeks after the event, and find it: no visit in vain is near, so nothing is
  // learned; taken for the event itself, the same finds would move the sum.
  std::vector<SeenSum> taught;
  std::vector<SeenSum> taken_for_it;
  for (int year = 1985; year < 2015; ++year) {
    if (year == 1989) continue;
    const Season season = season_of(year);
    const Day date = *first_reached(season, DegreeDays::fahrenheit_days(179)).dates.front();
    const Day found = date + date::days{7 + (year % 5) * 7};
    const auto seen = seen_sum(season, {date - date::days{21}, found});
    if (seen) taught.push_back(*seen);
    taken_for_it.push_back({sum_on(season, found).fahrenheit_days(), 0});
  }
  const ThresholdPrior prior = threshold_prior(179, scatter_in_place(179));
  CHECK(learn(prior, taught).sum == 179);
  CHECK(learn(prior, taken_for_it).sum > 179 + 1.5 * prior.between_sites);
}

TEST_CASE("an uncertain sum spreads the dates on both sides, and a certain one does not") {
  const SeasonDays days = season_on(date::January / 1, *make_day(2010, 4, 15));
  const DegreeDayRecord record{k_base_50, wooster()};
  const CompleteDays complete{wooster()};
  const auto shifts = member_shifts(complete, *make_day(2010, 4, 15), days.last, OtherYears::all);
  const Season season = run_season(record, days, *make_day(2010, 4, 15), shifts);
  const Summary certain = summarize(first_reached_about(season, 400, 0));
  const Summary spread = summarize(first_reached_about(season, 400, 60));
  CHECK(first_reached_about(season, 400, 0).dates == first_reached(season, DegreeDays::fahrenheit_days(400)).dates);
  CHECK(*spread.early < *certain.early);
  CHECK(*spread.late > *certain.late);
  CHECK(std::abs((*spread.likely - *certain.likely).count()) <= 1);
  CHECK(first_reached_about(season, 400, 60).dates.size() == k_threshold_slices * season.members.size());
}

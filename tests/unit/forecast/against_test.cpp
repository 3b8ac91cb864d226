#include <budclock/forecast/against.hpp>

#include "wooster.hpp"

#include <catch2/catch.hpp>
#include <cmath>

using namespace budclock;
using namespace budclock::forecast;

namespace {

Figure egg_hatch() { return figures_of({shipped().find_pest("boxwood-psyllid")}).front(); }

/// Weekly visits to an event that comes at `own` degree-days F.
std::vector<SeenBetween> weekly(double own, int first_year, int last_year) {
  const Figure figure = egg_hatch();
  const DegreeDayRecord record{figure.event.formula, wooster()};
  std::vector<SeenBetween> seen;
  for (int year = first_year; year <= last_year; ++year) {
    const SeasonDays days = season_on(figure.event.start, *make_day(year, 12, 31));
    const Season season = run_season(record, days, wooster().last(), {});
    const Day date = *first_reached(season, DegreeDays::fahrenheit_days(own)).dates.front();
    const Day before = date - date::days{1 + year % 7};
    seen.push_back({before, before + date::days{7}});
  }
  return seen;
}

}  // namespace

TEST_CASE("a site that is later than published is forecast early until its own seasons teach") {
  const Figure figure = egg_hatch();
  const double published = figure.event.sum.fahrenheit_days();
  const FigureAgainst result = against(figure, weekly(1.25 * published, 1992, 2011), wooster(), {14});
  CHECK(result.learned.seasons == 20);
  CHECK(result.learned.sum > 1.1 * published);
  REQUIRE(result.leads.size() == 1);
  const AgainstScores& scores = result.leads.front();
  CHECK(scores.published.bias < -1.5);
  CHECK(std::abs(scores.learned.bias) < std::abs(scores.published.bias) / 2);
  CHECK(scores.learned.error < scores.published.error);
  CHECK(scores.learned.error < scores.calendar_error);
}

TEST_CASE("a site that is as published is not made worse by learning") {
  const Figure figure = egg_hatch();
  const FigureAgainst result =
      against(figure, weekly(figure.event.sum.fahrenheit_days(), 1992, 2011), wooster(), {7, 30});
  for (const AgainstScores& scores : result.leads) {
    CHECK(scores.learned.error < scores.published.error + 0.3);
    CHECK(std::abs(scores.learned.bias) < 1.5);
  }
}

TEST_CASE("finds of crews that came late are counted and set aside") {
  auto seen = weekly(179, 1995, 2000);
  for (SeenBetween& each : seen) each.last_not_found -= date::days{14};
  const FigureAgainst result = against(egg_hatch(), seen, wooster(), {14});
  CHECK(result.set_aside == 6);
  CHECK(result.learned.seasons == 0);
  CHECK(result.learned.sum == result.prior.published);
  CHECK(result.leads.empty());
}

TEST_CASE("two seasons teach but are too few to score") {
  const FigureAgainst result = against(egg_hatch(), weekly(179, 1995, 1996), wooster(), {14});
  CHECK(result.learned.seasons == 2);
  CHECK(result.leads.empty());
}

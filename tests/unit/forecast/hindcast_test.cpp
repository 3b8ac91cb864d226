#include <budclock/forecast/evaluate.hpp>
#include <budclock/forecast/hindcast.hpp>

#include "wooster.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <functional>
#include <numeric>

using namespace budclock;
using namespace budclock::forecast;

namespace {

Day day(const char* text) { return parse_iso_day(text).value(); }

/// Days whose minimum and maximum are both `mean`, so that every method gives mean minus base.
weather::DailySeries even_days(const char* first, const char* last, const std::function<double(Day)>& mean_f) {
  weather::DailySeries series;
  for (Day each = day(first); each <= day(last); each += date::days{1}) {
    const std::size_t i = weather::include_day(series, each);
    series.tmin[i] = series.tmax[i] = {Temperature::fahrenheit(mean_f(each)), weather::Origin::observed};
  }
  return series;
}

SumEvent base_50(double sum_f, MonthDay start = date::January / 1) {
  return {.formula = {.lower = Temperature::fahrenheit(50), .upper = {}},
          .start = start,
          .sum = DegreeDays::fahrenheit_days(sum_f)};
}

std::vector<double> sorted(std::vector<double> values) {
  std::sort(values.begin(), values.end());
  return values;
}

}  // namespace

TEST_CASE("the last season of a record is forecast exactly as `when` forecasts it on the day of issue") {
  const rules::Pest& pest = *shipped().find_pest("boxwood-psyllid");
  std::size_t compared = 0;
  for (const Figure& figure : figures_of({&pest})) {
    const auto forecasts = replay(figure.event, wooster(), 30);
    REQUIRE_FALSE(forecasts.empty());
    const ReplayedForecast& replayed = forecasts.back();
    REQUIRE(replayed.year == 2014);
    const Question question{.site = "", .pests = {&pest}, .method = {}};
    const SiteForecast site = evaluate(question, {weather::until(wooster(), replayed.issued), replayed.issued});
    for (const StageForecast& stage : site.pests.front().stages) {
      for (const auto* list : {&stage.begins, &stage.ends}) {
        for (const TriggerForecast& trigger : *list) {
          if (trigger.trigger != figure.trigger) continue;
          std::vector<double> dates;
          for (const auto& date : trigger.spread.dates) {
            dates.push_back((date.value_or(replayed.days.last + date::days{1}) - replayed.days.first).count());
          }
          CHECK(sorted(dates) == sorted(replayed.members));
          ++compared;
        }
      }
    }
  }
  CHECK(compared >= 4);
}

TEST_CASE("nothing of a season after the day of issue reaches its forecast or its rivals") {
  const SumEvent event = base_50(400);
  auto changed = wooster();
  const auto before = replay(event, wooster(), 14);
  const auto at_2000 = [](const std::vector<ReplayedForecast>& all) {
    return *std::find_if(all.begin(), all.end(), [](const auto& each) { return each.year == 2000; });
  };
  const ReplayedForecast told = at_2000(before);
  for (Day each = told.issued + date::days{1}; each <= day("2000-12-31"); each += date::days{1}) {
    const auto i = changed.index_of(each).value();
    changed.tmax[i].value = changed.tmax[i].value + TemperatureDifference::fahrenheit(9);
  }
  const ReplayedForecast again = at_2000(replay(event, changed, 14));
  CHECK(again.issued == told.issued);
  CHECK(again.members == told.members);
  CHECK(again.increment == told.increment);
  CHECK(again.calendar_mean == told.calendar_mean);
  CHECK(again.truth < told.truth);
}

TEST_CASE("a double method sees no minimum of the day after the day of issue") {
  SumEvent event = base_50(400);
  event.formula.method = degree_day::Method::double_sine;
  auto changed = wooster();
  const ReplayedForecast told = replay(event, wooster(), 14).front();
  const auto next = changed.index_of(told.issued + date::days{1}).value();
  changed.tmin[next].value = changed.tmin[next].value + TemperatureDifference::fahrenheit(-30);
  const ReplayedForecast again = replay(event, changed, 14).front();
  REQUIRE(again.issued == told.issued);
  CHECK(again.members == told.members);
  CHECK(again.increment == told.increment);
}

TEST_CASE("a forecast is issued so many days before the other years' mean, and only while the event is to come") {
  // Each year is a day later than the one before: 10 a day from 1 January of 2001, 2 January of 2002 and so on.
  const auto series = even_days("2001-01-01", "2012-12-31", [](Day each) {
    const auto since = (each - in_year(date::January / 1, year_of(each))).count();
    return since >= year_of(each) - 2001 ? 60.0 : 40.0;
  });
  // 300 degree-days take 30 days: 30 January of 2001 (29 days after the first) to 10 February of 2012 (40 days).
  const auto forecasts = replay(base_50(300), series, 2);
  for (const ReplayedForecast& each : forecasts) {
    const double mean = (29 + 40) / 2.0 + ((29 + 40) / 2.0 - each.truth) / 11;
    CHECK(each.calendar_mean == Approx(mean));
    CHECK(each.issued == each.days.first + date::days{static_cast<int>(std::lround(mean)) - 2});
    CHECK(each.truth > (each.issued - each.days.first).count());
    CHECK(each.members.size() == 11);
  }
  // The mean of the others is 34.6 for a season of 33 days (2005): two days before, on its 33rd, it is over.
  REQUIRE_FALSE(forecasts.empty());
  CHECK(forecasts.front().year == 2006);
  CHECK(forecasts.back().year == 2012);
}

TEST_CASE("years that are all alike are forecast without error or width, and so by both rivals") {
  const auto series = even_days("2001-01-01", "2012-12-31", [](Day) { return 60.0; });
  const Scores scores = score(replay(base_50(500), series, 30));
  CHECK(scores.forecasts == 12);
  CHECK(scores.error == 0);
  CHECK(scores.width == 0);
  CHECK(scores.crps == 0);
  CHECK(scores.covered == Approx(0.8));
  CHECK(scores.held == 1);
  CHECK(scores.increment_error == 0);
  CHECK(scores.over_calendar.skill == 0);
}

TEST_CASE("the rival of the mean increment extends the sum so far by the other years' mean warmth") {
  // Odd years give 20 a day from March on, even years 10: about 15 a day on the mean of all.
  const auto series = even_days("2001-01-01", "2012-12-31", [](Day each) {
    if (date::year_month_day{each}.month() < date::March) return 40.0;
    return year_of(each) % 2 == 1 ? 70.0 : 60.0;
  });
  for (const ReplayedForecast& each : replay(base_50(600), series, 10)) {
    const double own = each.year % 2 == 1 ? 20 : 10;
    const double others = each.year % 2 == 1 ? (5 * 20 + 6 * 10) / 11.0 : (6 * 20 + 5 * 10) / 11.0;
    const double march_1 = static_cast<double>((in_year(date::March / 1, each.year) - each.days.first).count());
    const double known = static_cast<double>((each.issued - each.days.first).count()) + 1 - march_1;
    const double left = std::ceil((600 - own * known) / others - 1e-6);
    CHECK(each.increment == march_1 + known + left - 1);
  }
}

TEST_CASE("the rival's spread is its date with the errors of the other seasons, those still to come") {
  const auto forecasts = replay(base_50(300), wooster(), 7);
  REQUIRE(forecasts.size() > 10);
  std::size_t gone_by = 0;
  for (const ReplayedForecast& each : forecasts) {
    const double issued = static_cast<double>((each.issued - each.days.first).count());
    std::vector<double> dates;
    for (const ReplayedForecast& other : forecasts) {
      const double date = each.increment + (other.truth - other.increment);
      if (other.year == each.year) continue;
      if (date > issued)
        dates.push_back(date);
      else
        ++gone_by;
    }
    CHECK(sorted(each.increment_dates) == sorted(dates));
  }
  CHECK(gone_by > 0);
}

TEST_CASE("a season that never gets there counts as the day after its last, in the members and in truth") {
  const auto series = even_days("2001-01-01", "2014-12-31", [](Day each) {
    return year_of(each) >= 2013 ? 40.0 : 60.0;  // the last two years never warm up
  });
  const auto forecasts = replay(base_50(600), series, 200);  // issued before the season begins
  REQUIRE(forecasts.size() == 13);                           // before the first season there was no weather to see
  const ReplayedForecast& last = forecasts.back();
  CHECK(last.never);
  CHECK(last.truth == 365);
  CHECK(std::count(last.members.begin(), last.members.end(), 365) == 1);
  CHECK(score(forecasts).never == 2);
}

TEST_CASE("a season that crosses New Year is replayed from its own start") {
  const auto series = even_days("2001-01-01", "2013-12-31", [](Day) { return 60.0; });
  const auto forecasts = replay(base_50(2500, date::July / 1), series, 30);
  REQUIRE(forecasts.size() == 12);
  CHECK(forecasts.front().days.first == day("2001-07-01"));
  CHECK(forecasts.front().truth == 249);
  CHECK(score(forecasts).error <= 1);  // a leap day may shift it
}

TEST_CASE("with the days ahead known, an event inside them is dated without error") {
  const auto forecasts = replay(base_50(400), wooster(), 7, 30);
  REQUIRE(forecasts.size() > 15);
  for (const ReplayedForecast& each : forecasts) {
    const double known = static_cast<double>((each.issued - each.days.first).count()) + 30;
    // A day of 1989 is missing: its members differ.
    if (each.year != 1989 && each.truth <= known) CHECK(each.likely_known == each.truth);
  }
  const Scores scores = score(forecasts);
  REQUIRE(scores.known);
  CHECK(scores.known->error < scores.error / 4);
  CHECK(scores.known->gain.skill > 0.75);
}

TEST_CASE("nine whole seasons are too few, ten are enough, and a season with holes is not whole") {
  HindcastQuestion question{.site = "", .pests = {shipped().find_pest("boxwood-psyllid")}};
  const auto nine = even_days("2001-01-01", "2009-12-31", [](Day) { return 60.0; });
  const Hindcast few = hindcast(question, nine);
  CHECK(few.seasons == 9);
  CHECK_FALSE(few.enough());
  CHECK(few.pooled.empty());

  auto ten = even_days("2001-01-01", "2010-12-31", [](Day) { return 60.0; });
  CHECK(hindcast(question, ten).enough());
  CHECK_FALSE(hindcast(question, ten).pooled.empty());
  for (Day each = day("2005-03-01"); each <= day("2005-04-30"); each += date::days{1}) {
    ten.tmax[ten.index_of(each).value()] = {};
  }
  CHECK_FALSE(hindcast(question, ten).enough());
}

TEST_CASE("figures that share a sum are pooled once") {
  const rules::Pest& pest = *shipped().find_pest("boxwood-psyllid");
  HindcastQuestion once{.site = "", .pests = {&pest}};
  HindcastQuestion twice{.site = "", .pests = {&pest, &pest}};
  const Hindcast one = hindcast(once, wooster());
  const Hindcast two = hindcast(twice, wooster());
  CHECK(two.figures.size() == 2 * one.figures.size());
  REQUIRE(one.pooled.size() == 4);
  CHECK(one.pooled[2].scores.forecasts == two.pooled[2].scores.forecasts);
}

TEST_CASE("scores are means over the forecasts, and above zero is late") {
  ReplayedForecast early{.year = 2001, .truth = 100, .members = {104, 106}, .early = 104, .likely = 104, .late = 106};
  early.calendar_mean = 110;
  early.calendar = {108, 112};
  early.increment = 102;
  early.increment_dates = {102, 108};
  ReplayedForecast late = early;
  late.year = 2002;
  late.truth = 105;
  const Scores scores = score({early, late});
  CHECK(scores.bias == Approx((4 - 1) / 2.0));
  CHECK(scores.error == Approx((4 + 1) / 2.0));
  CHECK(scores.width == 2);
  CHECK(scores.held == 0.5);
  CHECK(scores.crps == Approx(((5 - 1) + (1 - 1)) / 2.0));
  CHECK(scores.calendar_error == Approx((10 + 5) / 2.0));
  CHECK(scores.calendar_crps == Approx(((10 - 2) + (5 - 2)) / 2.0));
  CHECK(scores.increment_error == Approx((2 + 3) / 2.0));
  CHECK(scores.over_calendar.skill == Approx(1 - 2.5 / 7.5));
  CHECK(scores.over_increment.skill == Approx(0));
  CHECK(scores.increment_crps == Approx(((5 - 3) + (3 - 3)) / 2.0));
  CHECK(scores.over_increment_crps.skill == Approx(1 - 2 / 1.0));
}

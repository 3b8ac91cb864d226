#include <budclock/report/first_dates.hpp>

#include <catch2/catch.hpp>

using namespace budclock;
using namespace budclock::report;

namespace {

/// Days of 10 degree-days above 50 °F each, from `first` on.
weather::DailySeries warm_days(Day first, std::size_t count) {
  const weather::DayValue tmin{Temperature::fahrenheit(55), weather::Origin::observed};
  const weather::DayValue tmax{Temperature::fahrenheit(65), weather::Origin::observed};
  return {first, std::vector(count, tmin), std::vector(count, tmax)};
}

FirstDatesPlan plan_of(std::vector<double> sums) {
  FirstDatesPlan plan;
  plan.formulas.resize(1);
  plan.formulas.front().lower = Temperature::fahrenheit(50);
  for (const double sum : sums) {
    plan.sums.push_back({std::to_string(static_cast<int>(sum)), DegreeDays::fahrenheit_days(sum)});
  }
  plan.decimals = 1;
  return plan;
}

}  // namespace

TEST_CASE("a sum is reached on the day that fills it exactly, and one that is not leaves its cell empty") {
  const auto days = warm_days(Day{date::year{2014} / 1 / 1}, 5);
  CHECK(first_dates_header(plan_of({20, 50, 60})) ==
        "station,year,method,days,missing_days,sum_ddf,first_20_ddf,first_50_ddf,first_60_ddf\n");
  CHECK(first_dates_rows("A", days, plan_of({20, 50, 60})) == "A,2014,average,5,0,50.0,2014-01-02,2014-01-05,\n");
}

TEST_CASE("each year's sum begins anew, and days without both extremes are told") {
  auto days = warm_days(Day{date::year{2013} / 12 / 30}, 5);
  days.tmin[3].origin = weather::Origin::absent;
  CHECK(first_dates_rows("A", days, plan_of({20})) ==
        "A,2013,average,2,363,20.0,2013-12-31\n"
        "A,2014,average,2,1,20.0,2014-01-03\n");
}

TEST_CASE("a year from March to March has the year's name in which it begins") {
  FirstDatesPlan plan = plan_of({20});
  plan.start = date::March / 1;
  CHECK(first_dates_rows("A", warm_days(Day{date::year{2014} / 2 / 28}, 3), plan) ==
        "A,2013,average,1,364,10.0,\n"
        "A,2014,average,2,0,20.0,2014-03-02\n");
}

TEST_CASE("several formulas of a year stand together") {
  FirstDatesPlan plan = plan_of({10});
  plan.formulas.push_back(plan.formulas.front());
  plan.formulas.back().method = degree_day::Method::single_sine;
  CHECK(first_dates_rows("=A", warm_days(Day{date::year{2014} / 1 / 1}, 1), plan) ==
        "'=A,2014,average,1,0,10.0,2014-01-01\n"
        "'=A,2014,single-sine,1,0,10.0,2014-01-01\n");
}

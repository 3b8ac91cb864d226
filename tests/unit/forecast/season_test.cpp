#include <budclock/forecast/season.hpp>

#include <catch2/catch.hpp>
#include <functional>

using namespace budclock;
using namespace budclock::forecast;

namespace {

Day day(const char* text) { return parse_iso_day(text).value(); }

/// Days whose minimum and maximum are both `mean`, so that every method gives mean minus base.
weather::DailySeries constant_days(const char* first, const char* last, const std::function<double(Day)>& mean_f) {
  weather::DailySeries series;
  for (Day each = day(first); each <= day(last); each += date::days{1}) {
    const std::size_t i = weather::include_day(series, each);
    series.tmin[i] = series.tmax[i] = {Temperature::fahrenheit(mean_f(each)), weather::Origin::observed};
  }
  return series;
}

void remove(weather::DailySeries& series, const char* first, const char* last) {
  for (Day each = day(first); each <= day(last); each += date::days{1}) {
    series.tmin[series.index_of(each).value()] = {};
  }
}

const degree_day::Formula k_base_50{.lower = Temperature::fahrenheit(50), .upper = {}};
const MonthDay k_january_1 = date::January / 1;

Season season_of(const SiteWeather& weather, MonthDay start = k_january_1) {
  const SeasonDays days = season_on(start, weather.today);
  return run_season(k_base_50, weather, days, member_shifts(weather, days.last));
}

SiteWeather as_of(weather::DailySeries series, const char* today) {
  return {weather::until(series, day(today)), day(today)};
}

}  // namespace

TEST_CASE("a start from January to June belongs to today's year, before it and after it") {
  const MonthDay march_1 = date::March / 1;
  CHECK(season_on(march_1, day("2014-02-10")).first == day("2014-03-01"));
  CHECK(season_on(march_1, day("2014-11-10")).first == day("2014-03-01"));
  CHECK(season_on(march_1, day("2014-11-10")).last == day("2014-12-31"));
}

TEST_CASE("a later start belongs to the newest one and lasts a year, across New Year") {
  const MonthDay july_1 = date::July / 1;
  CHECK(season_on(july_1, day("2014-02-10")).first == day("2013-07-01"));
  CHECK(season_on(july_1, day("2014-02-10")).last == day("2014-06-30"));
  CHECK(season_on(july_1, day("2014-07-01")).first == day("2014-07-01"));
}

TEST_CASE("the observed part is common to all members and the rest is each past year's own") {
  // 2012: 60 F (10 a day), 2013: 70 F (20 a day), 2014 so far: 55 F (5 a day).
  const auto series = constant_days("2012-01-01", "2014-04-10", [](Day each) {
    return year_of(each) == 2012 ? 60.0 : year_of(each) == 2013 ? 70.0 : 55.0;
  });
  const Season season = season_of(as_of(series, "2014-04-10"));
  REQUIRE(season.shifts == std::vector<int>{-2, -1});
  CHECK(season.known_days == 100);
  CHECK(sum_on(season, day("2014-04-10")) == DegreeDays::fahrenheit_days(500));

  // 100 more: ten days at 10 a day, five at 20.
  const Spread spread = first_reached(season, DegreeDays::fahrenheit_days(600));
  CHECK(spread.dates == std::vector<std::optional<Day>>{day("2014-04-20"), day("2014-04-15")});
  CHECK(first_reached(season, DegreeDays::fahrenheit_days(500)).dates.front() == day("2014-04-10"));
}

TEST_CASE("weather after today is never looked at") {
  const auto series = constant_days("2012-01-01", "2014-12-31", [](Day) { return 60.0; });
  auto changed = series;
  for (Day each = day("2014-04-11"); each <= day("2014-12-31"); each += date::days{1}) {
    const auto i = changed.index_of(each).value();
    changed.tmin[i].value = changed.tmax[i].value = Temperature::fahrenheit(99);
  }
  CHECK(season_of(as_of(series, "2014-04-10")).members == season_of(as_of(changed, "2014-04-10")).members);
}

TEST_CASE("a sum that no past year reaches is censored, not dropped") {
  const auto series =
      constant_days("2012-01-01", "2014-04-10", [](Day each) { return year_of(each) == 2012 ? 40.0 : 60.0; });
  const Season season = season_of(as_of(series, "2014-04-10"));
  const Spread spread = first_reached(season, DegreeDays::fahrenheit_days(1100));
  REQUIRE(spread.dates.size() == 2);
  CHECK_FALSE(spread.dates[0]);
  CHECK(spread.dates[1] == day("2014-04-20"));
}

TEST_CASE("with one year only, what is not reached yet is not known") {
  const auto series = constant_days("2014-01-01", "2014-04-10", [](Day) { return 60.0; });
  const Season season = season_of(as_of(series, "2014-04-10"));
  CHECK(season.shifts.empty());
  CHECK(first_reached(season, DegreeDays::fahrenheit_days(100)).dates ==
        std::vector<std::optional<Day>>{day("2014-01-10")});
  const Spread ahead = first_reached(season, DegreeDays::fahrenheit_days(2000));
  CHECK_FALSE(ahead.known());
  CHECK(ahead.unknown == "no other year in the record to continue from");
}

TEST_CASE("a missing day takes each past year's own warmth of that date") {
  auto series = constant_days("2012-01-01", "2014-04-10", [](Day each) { return year_of(each) == 2012 ? 60.0 : 70.0; });
  remove(series, "2014-02-01", "2014-02-03");
  const Season season = season_of(as_of(series, "2014-04-10"));
  CHECK(season.missing_days == 3);
  const auto at = static_cast<std::size_t>((day("2014-04-10") - day("2014-01-01")).count());
  CHECK(season.members[0][at] == DegreeDays::fahrenheit_days(97 * 20 + 3 * 10));
  CHECK(season.members[1][at] == DegreeDays::fahrenheit_days(100 * 20));
}

TEST_CASE("a missing day takes the mean warmth of its date where no year can be a member") {
  auto series = constant_days("2011-01-01", "2014-04-10", [](Day each) { return year_of(each) == 2011 ? 60.0 : 70.0; });
  remove(series, "2011-06-01", "2011-09-30");
  remove(series, "2012-06-01", "2012-09-30");
  remove(series, "2013-06-01", "2013-09-30");
  remove(series, "2014-02-01", "2014-02-03");
  const Season season = season_of(as_of(series, "2014-04-10"));
  CHECK(season.shifts.empty());
  // 10 in 2011 and 20 in 2012 and 2013: 16 2/3 a day.
  CHECK(sum_on(season, day("2014-04-10")).fahrenheit_days() == Approx(97 * 20 + 50).margin(1e-6));
}

TEST_CASE("a year with too many holes is no member") {
  auto series = constant_days("2012-01-01", "2014-04-10", [](Day) { return 60.0; });
  remove(series, "2012-06-01", "2012-07-31");
  CHECK(season_of(as_of(series, "2014-04-10")).shifts == std::vector<int>{-1});
}

TEST_CASE("29 February neither adds nor loses a day in members of common years") {
  const auto series = constant_days("2011-01-01", "2016-02-20", [](Day) { return 60.0; });
  const Season season = season_of(as_of(series, "2016-02-20"));
  REQUIRE(season.shifts.size() == 5);
  for (const auto& member : season.members) {
    CHECK(member.size() == 366);
    CHECK(member.back() == DegreeDays::fahrenheit_days(3660));
  }
}

TEST_CASE("before the start the sum is zero and all of the season is ahead") {
  const auto series = constant_days("2012-01-01", "2014-02-10", [](Day) { return 60.0; });
  const Season season = season_of(as_of(series, "2014-02-10"), date::March / 1);
  CHECK(season.known_days == 0);
  CHECK(sum_on(season, day("2014-02-10")) == DegreeDays{});
  CHECK(first_reached(season, DegreeDays::fahrenheit_days(20)).dates.front() == day("2014-03-02"));
}

TEST_CASE("degree-days after another event count from that event in each member") {
  const auto series =
      constant_days("2012-01-01", "2014-04-10", [](Day each) { return year_of(each) == 2012 ? 60.0 : 70.0; });
  const Season season = season_of(as_of(series, "2014-04-10"));
  const Spread event{{day("2014-05-01"), std::nullopt}, {}};
  const Spread after = first_reached_after(season, event, DegreeDays::fahrenheit_days(30));
  CHECK(after.dates == std::vector<std::optional<Day>>{day("2014-05-04"), std::nullopt});
}

TEST_CASE("the ten days around a day show their sums and what each day rests on") {
  auto series = constant_days("2012-01-01", "2014-04-10", [](Day each) { return year_of(each) == 2012 ? 60.0 : 70.0; });
  remove(series, "2014-04-06", "2014-04-06");
  series.tmax[series.index_of(day("2014-04-09")).value()].origin = weather::Origin::forecast;
  series.tmin[series.index_of(day("2014-04-10")).value()].origin = weather::Origin::forecast;
  const SiteWeather weather{series, day("2014-04-08")};
  const Season season = season_of(weather);
  const auto sums = sums_around(season, weather.days, day("2014-04-10"));
  REQUIRE(sums.size() == 10);
  const std::vector<DayBasis> basis{
      DayBasis::observed, DayBasis::past_years,  DayBasis::observed,    DayBasis::observed,    DayBasis::forecast,
      DayBasis::forecast, DayBasis::other_years, DayBasis::other_years, DayBasis::other_years, DayBasis::other_years};
  for (std::size_t i = 0; i < sums.size(); ++i) {
    CHECK(sums[i].day == day("2014-04-05") + date::days{static_cast<int>(i)});
    CHECK(sums[i].basis == basis[i]);
    CHECK(sums[i].sum == sum_on(season, sums[i].day));
  }
  CHECK(sums.front().sum == DegreeDays::fahrenheit_days(95 * 20));
}

TEST_CASE("days outside the season, or ahead when no other year goes on, are not shown") {
  const SiteWeather weather = as_of(constant_days("2014-01-01", "2014-04-10", [](Day) { return 60.0; }), "2014-04-10");
  const Season season = season_of(weather);
  const auto at_start = sums_around(season, weather.days, day("2014-01-03"));
  REQUIRE(at_start.size() == 7);
  CHECK(at_start.front().day == day("2014-01-01"));
  const auto at_end = sums_around(season, weather.days, day("2014-04-08"));
  REQUIRE(at_end.size() == 8);
  CHECK(at_end.back().day == day("2014-04-10"));
}

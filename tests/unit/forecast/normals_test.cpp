#include <budclock/forecast/evaluate.hpp>
#include <budclock/forecast/hindcast.hpp>
#include <budclock/forecast/normals.hpp>
#include <budclock/weather/reader.hpp>

#include "wooster.hpp"

#include <algorithm>
#include <array>
#include <catch2/catch.hpp>
#include <cmath>

using namespace budclock;
using namespace budclock::forecast;

namespace {

Day day(const char* text) { return parse_iso_day(text).value(); }

const degree_day::Formula k_base_50{.lower = Temperature::fahrenheit(50), .upper = {}};

/// A year that has the same mean on all its days.
weather::DailySeries flat(double mean_f) {
  weather::DailySeries normals;
  for (Day each = day("2000-01-01"); each <= day("2000-12-31"); each += date::days{1}) {
    const std::size_t i = weather::include_day(normals, each);
    normals.tmin[i] = {Temperature::fahrenheit(mean_f - 10), weather::Origin::observed};
    normals.tmax[i] = {Temperature::fahrenheit(mean_f + 10), weather::Origin::observed};
  }
  return normals;
}

/// The mean year of Wooster without one of its years, over a week to either side.
weather::DailySeries wooster_without(int left_out) {
  std::array<double, 366> low{}, high{}, count{};
  for (std::size_t i = 0; i < wooster().size(); ++i) {
    if (!wooster().complete(i) || year_of(wooster().day(i)) == left_out) continue;
    const auto slot = (in_year(month_day_of(wooster().day(i)), 2000) - day("2000-01-01")).count();
    for (int near = -7; near <= 7; ++near) {
      const auto at = static_cast<std::size_t>((slot + near + 366) % 366);
      low[at] += wooster().tmin[i].value.celsius();
      high[at] += wooster().tmax[i].value.celsius();
      ++count[at];
    }
  }
  weather::DailySeries normals = flat(0);
  for (std::size_t at = 0; at < 366; ++at) {
    normals.tmin[at].value = Temperature::celsius(low[at] / count[at]);
    normals.tmax[at].value = Temperature::celsius(high[at] / count[at]);
  }
  return normals;
}

SiteWeather one_season(const char* today) {
  SiteWeather weather{weather::until(wooster(), day(today)), day(today)};
  weather::DailySeries season;
  for (Day each = day("2014-01-01"); each <= day(today); each += date::days{1}) {
    const std::size_t from = weather.days.index_of(each).value();
    const std::size_t to = weather::include_day(season, each);
    season.tmin[to] = weather.days.tmin[from];
    season.tmax[to] = weather.days.tmax[from];
  }
  weather.days = std::move(season);
  return weather;
}

SiteForecast boxwood(const SiteWeather& weather) {
  return evaluate({.site = "", .pests = {shipped().find_pest("boxwood-psyllid")}, .method = {}}, weather);
}

}  // namespace

TEST_CASE("runs of days stray less from normal the longer they are, and less in summer") {
  for (unsigned month = 1; month <= 12; ++month) {
    for (int days = 1; days < 200; ++days) {
      CHECK(run_deviation(date::month{month}, days + 1) < run_deviation(date::month{month}, days));
      // Their sums stray ever more.
      CHECK(run_deviation(date::month{month}, days + 1) * (days + 1) > run_deviation(date::month{month}, days) * days);
    }
  }
  CHECK(run_deviation(date::July, 7) < run_deviation(date::March, 7));
}

TEST_CASE("a normal day below the base still gives degree-days, for its warm spells do") {
  const auto members = degree_days_on_normals(k_base_50, flat(44), day("2014-04-01"), day("2014-04-30"));
  REQUIRE(members.size() == k_normals_members);
  DegreeDays middle;
  for (const DegreeDays amount : members[k_normals_members / 2]) middle += amount;
  CHECK(degree_day::of_day(k_base_50, Temperature::fahrenheit(34), Temperature::fahrenheit(54), {}) == DegreeDays{});
  CHECK(middle > DegreeDays::fahrenheit_days(30 * 0.5));
}

TEST_CASE("members run from cold to warm, and far above the base the middle one is as normal") {
  const auto members = degree_days_on_normals(k_base_50, flat(90), day("2014-07-01"), day("2014-07-30"));
  std::vector<double> sums;
  for (const auto& member : members) {
    sums.push_back(0);
    for (const DegreeDays amount : member) sums.back() += amount.fahrenheit_days();
  }
  CHECK(std::is_sorted(sums.begin(), sums.end()));
  CHECK(sums[4] == Approx(30 * 40).epsilon(0.001));
  // Eight in ten Julys lie within 1.28 standard deviations.
  CHECK(sums[8] - sums[4] == Approx(1.2816 * 1.8 * 30 * run_deviation(date::July, 30)).epsilon(0.01));
}

TEST_CASE("seasons of a real record lie in the range that its normals give, 8 in 10") {
  const auto event = figures_of({shipped().find_pest("boxwood-psyllid")}).front().event;
  const DegreeDayRecord record{event.formula, wooster()};
  for (const int lead : {14, 30}) {
    double held = 0, count = 0, bias = 0;
    for (const ReplayedForecast& each : replay(event, wooster(), lead)) {
      const Season season = run_season_on_normals(record, each.days, each.issued, wooster_without(each.year));
      const Summary summary = summarize(first_reached(season, event.sum));
      const auto at = [&](const std::optional<Day>& date) {
        return static_cast<double>((*date - each.days.first).count());
      };
      held += at(summary.early) <= each.truth && each.truth <= at(summary.late) ? 1 : 0;
      bias += at(summary.likely) - each.truth;
      ++count;
    }
    CAPTURE(lead, held, count);
    CHECK(count >= 25);
    CHECK(held / count > 0.65);  // 0.8 with 25 to 30 seasons: 0.65 to 0.95
    CHECK(held / count < 0.97);
    CHECK(std::abs(bias / count) < 2);
  }
}

TEST_CASE("normals continue a season that has no past years, and nothing else") {
  SiteWeather weather = one_season("2014-04-10");
  const SiteForecast without = boxwood(weather);
  CHECK_FALSE(without.weather.normals);
  CHECK_FALSE(without.pests.front().stages.front().begins.front().spread.known());
  weather.normals = wooster_without(2014);
  const SiteForecast with = boxwood(weather);
  CHECK(with.weather.normals);
  CHECK(with.weather.years == 0);
  const StageForecast& hatch = with.pests.front().stages.front();
  REQUIRE(hatch.summary.likely);
  CHECK(hatch.summary.members == k_normals_members);
  CHECK(*hatch.summary.early < *hatch.summary.likely);
  CHECK(*hatch.summary.late > *hatch.summary.likely);
  CHECK(hatch.begins.front().degree_days->around.front().basis == DayBasis::normals);

  SiteWeather years{weather::until(wooster(), day("2014-04-10")), day("2014-04-10")};
  const auto by_years = boxwood(years).pests.front().stages.front().spread.dates;
  years.normals = flat(90);
  CHECK_FALSE(boxwood(years).weather.normals);
  CHECK(boxwood(years).pests.front().stages.front().spread.dates == by_years);
}

TEST_CASE("what is reached already does not hang on normals") {
  SiteWeather weather = one_season("2014-05-20");
  const auto reached = boxwood(weather).pests.front().stages.front().summary.likely;
  REQUIRE(reached);
  weather.normals = flat(90);
  CHECK(boxwood(weather).pests.front().stages.front().summary.likely == reached);
}

TEST_CASE("a day that is missing from a season without past years is as normal") {
  SiteWeather weather = one_season("2014-05-20");
  const auto sum = [&] { return boxwood(weather).pests.front().stages.front().begins.front().degree_days->so_far; };
  const std::size_t i = weather.days.index_of(day("2014-05-10")).value();
  const DegreeDays whole = sum();
  const DegreeDays own = degree_day::of_day(k_base_50, weather.days.tmin[i].value, weather.days.tmax[i].value, {});
  weather.days.tmax[i] = {};
  weather.normals = flat(90);
  CHECK(sum().fahrenheit_days() == Approx((whole - own).fahrenheit_days() + 40).margin(1));
}

#include <budclock/forecast/yearline.hpp>

#include <catch2/catch.hpp>

using namespace budclock;
using namespace budclock::forecast;

namespace {

Day day(const char* text) { return parse_iso_day(text).value(); }

/// Ten degree-days (base 50 F) a day from 2012 to today, two whole years before.
SiteWeather ten_a_day(const char* today) {
  weather::DailySeries series;
  for (Day each = day("2012-01-01"); each <= day(today); each += date::days{1}) {
    const std::size_t i = weather::include_day(series, each);
    series.tmin[i] = series.tmax[i] = {Temperature::fahrenheit(60), weather::Origin::observed};
  }
  return {series, day(today)};
}

rules::CompanionEvent event(const char* id, double sum, bool start_assumed = false) {
  rules::CompanionEvent published{.id = id, .says = id, .cue = {}, .count = {}, .citation = {}};
  published.cue.sum = DegreeDays::fahrenheit_days(sum);
  published.count.lower = Temperature::fahrenheit(50);
  published.count.start.value = date::March / 1;
  published.count.start.assumed = start_assumed;
  if (start_assumed) published.count.start.alternatives = {date::January / 1};
  return published;
}

std::vector<rules::Companion> companions() {
  return {{"maple", "maple", "", rules::CompanionKind::indicator_plant, {event("bloom", 100), event("never", 90'000)}},
          {"scale", "scale", "", rules::CompanionKind::pest, {event("crawlers", 140, true), event("late", 1000)}}};
}

SiteForecast evaluated(const SiteWeather& weather) {
  SiteForecast site{.site = "here", .today = weather.today, .weather = {}, .pests = {}, .notes = {"a note"}};
  site.weather.last_observed = weather.last_observed();
  return site;
}

std::vector<std::string> names(const std::vector<YearEvent>& events) {
  std::vector<std::string> found;
  for (const YearEvent& each : events) found.push_back(each.of + " " + each.what);
  return found;
}

}  // namespace

TEST_CASE("the half of a month begins on its first or sixteenth day") {
  CHECK(half_month_of(day("2014-04-01")) == day("2014-04-01"));
  CHECK(half_month_of(day("2014-04-15")) == day("2014-04-01"));
  CHECK(half_month_of(day("2014-04-16")) == day("2014-04-16"));
  CHECK(half_month_of(day("2014-02-28")) == day("2014-02-16"));
}

TEST_CASE("a time line stands by half-month, pests before other pests before blooms") {
  const SiteWeather weather = ten_a_day("2014-03-12");
  rules::Pest pest;
  pest.id = pest.name = "psyllid";
  const rules::Stage hatch{"hatch", "hatch", "", {}, {}};
  const rules::Stage seen{"seen", "seen by a scout", "", {}, {}};
  SiteForecast site = evaluated(weather);
  StageForecast dated{.stage = &hatch};
  dated.spread = certain(day("2014-03-15"), 2);
  dated.summary = summarize(dated.spread);
  StageForecast without{.stage = &seen};
  without.spread = unknown("no published date");
  site.pests.push_back({.pest = &pest, .stages = {dated, without}, .windows = {}});

  const auto others = companions();
  const YearLine line = year_line(site, others, weather);
  CHECK(line.site == "here");
  CHECK(line.notes == std::vector<std::string>{"a note"});
  // The bloom of 10 March comes before the crawlers of 14 March and the hatch of 15 March, yet stands after them.
  CHECK(names(line.events) == std::vector<std::string>{"psyllid hatch", "scale crawlers", "maple bloom", "scale late"});
  CHECK(names(line.undated) == std::vector<std::string>{"psyllid seen by a scout", "maple never"});
  CHECK(line.undated.at(1).standing == Standing::never);
}

TEST_CASE("a companion is dated from its own start, and from the others where its source states none") {
  const SiteWeather weather = ten_a_day("2014-03-12");
  const auto others = companions();
  const YearLine line = year_line(evaluated(weather), others, weather);
  const YearEvent& crawlers = line.events.at(0);
  REQUIRE(crawlers.what == "crawlers");
  CHECK(crawlers.published == &others.at(1).events.at(0));
  CHECK(crawlers.kind == EventKind::companion);
  CHECK(crawlers.summary.likely == day("2014-03-14"));
  CHECK(crawlers.standing == Standing::ahead);
  REQUIRE(crawlers.alternatives.size() == 1);
  CHECK(crawlers.alternatives.at(0).instead == "from Jan 1");
  CHECK(crawlers.alternatives.at(0).summary.likely == day("2014-01-14"));
  const YearEvent& bloom = line.events.at(1);
  CHECK(bloom.kind == EventKind::bloom);
  CHECK(bloom.standing == Standing::passed);
  CHECK(bloom.alternatives.empty());
}

TEST_CASE("a stage that only the calendar dates stands under its first day") {
  const SiteWeather weather = ten_a_day("2014-03-12");
  rules::Pest pest;
  const rules::Stage stage{"adults", "adults", "", {}, {}};
  SiteForecast site = evaluated(weather);
  StageForecast dated{.stage = &stage, .evidence = Evidence::calendar};
  dated.summary = {.early = day("2014-05-21"), .likely = {}, .late = day("2014-06-10")};
  site.pests.push_back({.pest = &pest, .stages = {dated}, .windows = {}});
  const YearLine line = year_line(site, {}, weather);
  REQUIRE(line.events.size() == 1);
  CHECK(line.events.at(0).day == day("2014-05-21"));
}

TEST_CASE("weather that ends too long ago dates what it has reached and nothing ahead") {
  SiteWeather weather = ten_a_day("2014-03-12");
  weather.today = day("2014-04-20");
  SiteForecast site = evaluated(weather);
  site.weather.too_old = true;
  const auto others = companions();
  const YearLine line = year_line(site, others, weather);
  CHECK(names(line.events) == std::vector<std::string>{"maple bloom"});
  for (const YearEvent& each : line.undated) {
    CHECK(each.standing == Standing::not_known);
    CHECK(each.spread.unknown == "the weather ends too long before today");
  }
  CHECK(line.undated.size() == 3);
}

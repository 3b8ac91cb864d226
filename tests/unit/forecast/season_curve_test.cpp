#include <budclock/forecast/evaluate.hpp>

#include <catch2/catch.hpp>

using namespace budclock;
using namespace budclock::forecast;

namespace {

Day day(const char* text) { return parse_iso_day(text).value(); }

/// Each year has its own warmth: 10 degree-days a day in 2010, 20 in 2011, 30 in 2012, 15 so far in 2013.
weather::DailySeries four_years() {
  weather::DailySeries series;
  for (Day each = day("2010-01-01"); each <= day("2013-04-10"); each += date::days{1}) {
    const double means[] = {60, 70, 80, 65};
    const std::size_t i = weather::include_day(series, each);
    const auto value = Temperature::fahrenheit(means[year_of(each) - 2010]);
    series.tmin[i] = series.tmax[i] = {value, weather::Origin::observed};
  }
  return series;
}

/// Two stages by one count and one by another start.
rules::Pest two_counts() {
  rules::Pest pest;
  pest.id = "test-psyllid";
  for (const char* id : {"new-year", "march"}) {
    rules::Count count;
    count.id = id;
    count.lower = Temperature::fahrenheit(50);
    count.start.value = std::string_view{id} == "march" ? date::March / 1 : date::January / 1;
    pest.counts.push_back(count);
  }
  const auto add = [&](const char* count, double sum, rules::Use use) {
    rules::Stage stage;
    stage.id = count + std::to_string(pest.stages.size());
    rules::DegreeDayCue cue;
    cue.count = count;
    cue.sum = DegreeDays::fahrenheit_days(sum);
    rules::Trigger trigger;
    trigger.id = stage.id;
    trigger.use = use;
    trigger.cue = cue;
    stage.begins.push_back(trigger);
    pest.stages.push_back(stage);
  };
  add("new-year", 200, rules::Use::date);
  add("new-year", 900, rules::Use::date);
  add("march", 300, rules::Use::date);
  add("march", 400, rules::Use::warning);
  return pest;
}

SiteForecast forecast_of(const rules::Pest& pest, bool with_curves) {
  Question question;
  question.site = "Mill Lane";
  question.pests = {&pest};
  question.with_curves = with_curves;
  static const SiteWeather k_weather{four_years(), day("2013-04-10")};
  return evaluate(question, k_weather);
}

double f(DegreeDays sum) { return sum.fahrenheit_days(); }

}  // namespace

TEST_CASE("curves are made for each count that dates a stage, and only when asked for") {
  const rules::Pest pest = two_counts();
  CHECK(forecast_of(pest, false).curves.empty());
  const auto curves = forecast_of(pest, true).curves;
  REQUIRE(curves.size() == 2);
  CHECK(curves[0].first == day("2013-01-01"));
  CHECK(curves[1].first == day("2013-03-01"));
  REQUIRE(curves[0].marks.size() == 2);
  CHECK(f(curves[0].marks[1].sum) == Approx(900));
  REQUIRE(curves[1].marks.size() == 1);
  CHECK(curves[1].marks[0].stage == &pest.stages[2]);
}

TEST_CASE("a curve holds this year to its last day, the years before alone, and what they would bring after it") {
  const rules::Pest pest = two_counts();
  const SeasonCurve curve = forecast_of(pest, true).curves.at(0);
  REQUIRE(curve.known.size() == 100);  // January 1 to April 10
  CHECK(f(curve.known.front()) == Approx(15));
  CHECK(f(curve.known.back()) == Approx(1500));
  REQUIRE(curve.past.size() == 365);
  CHECK(f(curve.past[9].low) == Approx(100));
  CHECK(f(curve.past[9].middle) == Approx(200));
  CHECK(f(curve.past[9].high) == Approx(300));
  CHECK(curve.years == 3);
  REQUIRE(curve.ahead.size() == 265);
  CHECK(f(curve.ahead[0].low) == Approx(1510));
  CHECK(f(curve.ahead[0].middle) == Approx(1520));
  CHECK(f(curve.ahead[264].middle) == Approx(1500 + 265 * 20));
}

TEST_CASE("a forecast's days stand ahead, not in this year's line, and old weather has no curve") {
  const rules::Pest pest = two_counts();
  Question question;
  question.pests = {&pest};
  question.with_curves = true;
  SiteWeather weather{four_years(), day("2013-04-08")};
  for (const char* forecast_day : {"2013-04-09", "2013-04-10"}) {
    const std::size_t i = weather.days.index_of(day(forecast_day)).value();
    weather.days.tmin[i].origin = weather.days.tmax[i].origin = weather::Origin::forecast;
  }
  const SeasonCurve curve = evaluate(question, weather).curves.at(0);
  CHECK(curve.known.size() == 98);
  REQUIRE(curve.ahead.size() == 267);
  CHECK(f(curve.ahead[1].low) == Approx(1500));
  CHECK(f(curve.ahead[1].high) == Approx(1500));
  weather.today = day("2013-06-30");
  CHECK(evaluate(question, weather).curves.empty());
}

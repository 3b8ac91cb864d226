#include <budclock/weather/assemble.hpp>
#include <budclock/weather/record_check.hpp>

#include "reading.hpp"
#include "series.hpp"

#include <catch2/catch.hpp>

using namespace budclock;
using namespace budclock::weather;
using test::day;
using test::days_text;
using test::Lines;
using test::waves;

namespace {

SiteSource source(const char* file, DailySeries days) { return {file, std::move(days), TemperatureUnit::fahrenheit}; }

SiteSeries assembled(SiteSource only, GapPolicy gaps = GapPolicy::fill, const char* today = "2014-12-31") {
  std::vector<SiteSource> sources;
  sources.push_back(std::move(only));
  return assemble(std::move(sources), gaps, day(today));
}

}  // namespace

TEST_CASE("nothing after today is looked at, neither to doubt a value nor to bridge a gap") {
  SiteSource record = source("own.csv", waves("2014-03-01", 40));
  record.days.tmax[5] = {};
  record.days.tmax[9].value = Temperature::fahrenheit(118);  // a spike, seen only with the day after
  const SiteSeries site = assembled(std::move(record), GapPolicy::fill, "2014-03-10");
  CHECK(site.days.last() == day("2014-03-10"));
  CHECK(site.sources[0].doubted == 0);
  SiteSource whole = source("own.csv", waves("2014-03-01", 40));
  whole.days.tmax[9].value = Temperature::fahrenheit(118);
  CHECK(assembled(std::move(whole)).sources[0].doubted == 1);
  CHECK(site.days.tmax[5].origin == Origin::line);

  SiteSource cut = source("own.csv", waves("2014-03-01", 40));
  cut.days.tmax[9] = {};
  CHECK(assembled(std::move(cut), GapPolicy::fill, "2014-03-10").days.tmax[9].origin == Origin::absent);
}

TEST_CASE("a doubtful value is set aside, named and counted, and its gap bridged") {
  SiteSource record = source("own.csv", waves("2014-03-01", 40));
  record.days.tmax[20].value = Temperature::fahrenheit(139);
  const SiteSeries site = assembled(std::move(record));
  REQUIRE(site.diagnostics.size() == 1);
  CHECK(site.diagnostics[0].severity == Severity::fault);
  CHECK(to_text(site.diagnostics[0]).starts_with("own.csv: 2014-03-21: maximum 139"));
  CHECK(site.sources[0].doubted == 1);
  CHECK(site.days.tmax[20].origin == Origin::line);
  CHECK(site.by_line.maxima == 1);
  CHECK(site.notes == Lines{"own.csv: 1 doubtful value set aside."});
}

TEST_CASE("only the policy to fill bridges gaps") {
  for (const GapPolicy policy : {GapPolicy::keep, GapPolicy::refuse}) {
    SiteSource record = source("own.csv", waves("2014-03-01", 10));
    record.days.tmin[4] = {};
    CHECK(assembled(std::move(record), policy).days.tmin[4].origin == Origin::absent);
  }
}

TEST_CASE("a site's offset and morning readings are applied and told") {
  SiteSource record = source("own.csv", waves("2014-03-01", 10));
  record.read_time = ReadTime::morning;
  record.offset = TemperatureDifference::fahrenheit(-1.5);
  const SiteSeries site = assembled(std::move(record));
  CHECK(site.days.first == day("2014-02-28"));
  CHECK(days_text(site.days)[1] == "2014-03-01 78.5/68.5");
  CHECK(site.notes == Lines{"own.csv: read in the morning, so each maximum is moved to the day before.",
                            "own.csv: every value is taken 1.5 F colder."});
}

TEST_CASE("records read at different times are warned of, and a joined one is told") {
  std::vector<SiteSource> sources;
  sources.push_back(source("own.csv", waves("2014-03-01", 60)));
  sources.push_back(source("coop.txt", waves("2014-01-30", 100, 3)));
  sources[1].read_time = ReadTime::morning;
  const SiteSeries site = assemble(std::move(sources), GapPolicy::fill, day("2014-12-31"));
  REQUIRE(site.diagnostics.size() == 1);
  CHECK(site.diagnostics[0].severity == Severity::note);
  CHECK(site.notes.back().starts_with("coop.txt: 80 values taken from it as they are"));
}

TEST_CASE("a forecast begins after the last complete day, and a second one after the first") {
  DailySeries days = waves("2014-03-01", 10);
  days.tmax[9] = {};
  DailySeries early = waves("2014-03-08", 5, 1);
  CHECK(append_forecast(days, early) == 3);
  CHECK(days_text(days)[8] == "2014-03-09 70/50");
  CHECK(days_text(days)[9] == "2014-03-10 71/51");
  CHECK(days.tmin[9].origin == Origin::forecast);
  CHECK(append_forecast(days, waves("2014-03-01", 14)) == 2);
  CHECK(days.last() == day("2014-03-14"));
}

TEST_CASE("a day that the forecast lacks stays open, and a forecast of the past gives nothing") {
  DailySeries days = waves("2014-03-01", 10);
  DailySeries forecast = waves("2014-03-11", 3);
  forecast.tmin[1] = {};
  CHECK(append_forecast(days, forecast) == 2);
  CHECK_FALSE(days.complete(11));
  CHECK(append_forecast(days, waves("2014-03-01", 5)) == 0);
}

TEST_CASE("looking through a station counts what is missing, unreadable, doubted and bridgeable apart") {
  StationRecord record;
  record.id = "OWN";
  record.unit = TemperatureUnit::fahrenheit;
  record.days = waves("2014-03-01", 60);
  record.days.tmin[5] = {};
  record.days.tmax[6] = {{}, Origin::set_aside};
  record.days.tmax[40].value = Temperature::fahrenheit(139);
  for (std::size_t i = 20; i < 30; ++i) record.days.tmin[i] = record.days.tmax[i] = {};
  const StationCheck check = check_station(record, "own.csv");
  CHECK(check.days == 60);
  CHECK(check.missing_minima == 11);
  CHECK(check.missing_maxima == 12);
  CHECK(check.set_aside == 1);
  CHECK(check.doubted == 1);
  CHECK(check.by_line.minima == 1);
  CHECK(check.by_line.maxima == 2);
  REQUIRE(check.longest_gap);
  CHECK(check.longest_gap->first == day("2014-03-21"));
  CHECK(check.longest_gap->days() == 10);
  REQUIRE(check.problems.size() == 1);
  CHECK(to_text(check.problems[0]).starts_with("own.csv: OWN 2014-04-10: maximum 139"));
}

TEST_CASE("days of too few readings are counted apart from values that cannot be read") {
  StationRecord record;
  record.days = waves("2014-03-01", 60);
  record.partial_days = 2;
  for (const std::size_t i : {0U, 59U}) record.days.tmin[i].origin = record.days.tmax[i].origin = Origin::set_aside;
  CHECK(check_station(record, "logger.csv").partial_days == 2);
  CHECK(check_station(record, "logger.csv").set_aside == 0);
  record.days.tmax[6] = {{}, Origin::set_aside};
  CHECK(check_station(record, "logger.csv").set_aside == 1);
}

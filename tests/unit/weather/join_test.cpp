#include <budclock/weather/join.hpp>

#include "reading.hpp"
#include "series.hpp"

#include <catch2/catch.hpp>

using namespace budclock;
using namespace budclock::weather;
using test::day;
using test::days_text;
using test::part;
using test::waves;

TEST_CASE("two exports of one station become one record of observed values") {
  const DailySeries whole = waves("2013-03-01", 200);
  DailySeries own = part(whole, 120, 60);
  own.tmax[10] = {};
  const Joined joined = join(own, whole);
  CHECK(joined.kinship == Kinship::same_station);
  CHECK(joined.taken.minima == 140);
  CHECK(joined.taken.maxima == 141);
  CHECK(days_text(own) == days_text(whole));
  CHECK(own.tmax[130].origin == Origin::observed);
}

TEST_CASE("rounding to Celsius and back does not make a station its own neighbour") {
  const DailySeries whole = waves("2013-03-01", 120);
  DailySeries rounded = part(whole, 60, 60);
  for (DayValue& value : rounded.tmin) value.value = value.value + TemperatureDifference::fahrenheit(0.1);
  CHECK(join(rounded, whole).kinship == Kinship::same_station);
}

TEST_CASE("a neighbour's earlier years come in with its bias removed and say so") {
  DailySeries own = waves("2014-03-01", 60);
  const Joined joined = join(own, waves("2013-02-28", 426, -4));
  CHECK(joined.kinship == Kinship::neighbour);
  CHECK(own.first == day("2013-02-28"));
  CHECK(days_text(own).front() == "2013-02-28 90/70");
  CHECK(own.tmin.front().origin == Origin::neighbour);
  CHECK(own.tmin.back().origin == Origin::observed);
}

TEST_CASE("a season without common days takes the bias of all common days") {
  DailySeries own = waves("2014-03-01", 60);
  join(own, waves("2013-09-02", 240, -4));  // autumn and winter lie more than 45 days from any common day
  CHECK(days_text(own).front() == "2013-09-02 90/70");
}

TEST_CASE("a record with too few common days is taken as it is") {
  DailySeries own = waves("2014-03-01", 20);
  const Joined joined = join(own, waves("2014-02-27", 30, -4));
  CHECK(joined.kinship == Kinship::unknown);
  CHECK(joined.taken.minima == 10);
  CHECK(days_text(own).front() == "2014-02-27 86/66");
  CHECK(own.tmin.front().origin == Origin::observed);
}

TEST_CASE("a value taken as it is that would cross the other extreme is set aside") {
  DailySeries own = waves("2014-03-01", 3);
  own.tmin[1] = {};
  const Joined joined = join(own, waves("2014-03-01", 3, 60));
  CHECK(joined.kinship == Kinship::unknown);
  CHECK(days_text(own)[1] == "2014-03-02 80/x");
}

TEST_CASE("joining with nothing changes nothing, and nothing joined with a record is the record") {
  const DailySeries whole = waves("2014-03-01", 3);
  DailySeries own = whole;
  join(own, {});
  CHECK(days_text(own) == days_text(whole));
  DailySeries none;
  CHECK(join(none, whole).taken.maxima == 3);
  CHECK(days_text(none) == days_text(whole));
}

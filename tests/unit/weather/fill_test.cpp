#include <budclock/weather/fill.hpp>

#include "reading.hpp"
#include "series.hpp"

#include <catch2/catch.hpp>

using namespace budclock;
using namespace budclock::weather;
using test::day;
using test::days_text;
using test::Lines;
using test::part;
using test::waves;

TEST_CASE("a neighbour's value comes in with its bias removed and says so") {
  DailySeries own = waves("2014-03-01", 100);
  const DailySeries neighbour = waves("2014-03-01", 100, -3.5);
  own.tmin[50] = {};
  own.tmax[51] = {};
  own.tmax[51].origin = Origin::set_aside;
  const FillCounts filled = fill_from_neighbour(own, neighbour);
  CHECK(filled.minima == 1);
  CHECK(filled.maxima == 1);
  CHECK(own.tmin[50].origin == Origin::neighbour);
  CHECK(own.tmax[50].origin == Origin::observed);
  CHECK(own.tmax[51].origin == Origin::neighbour);
  CHECK(days_text(own) == days_text(waves("2014-03-01", 100)));
}

TEST_CASE("a neighbour carries on past the last day of the record") {
  DailySeries own = waves("2014-03-01", 40);
  fill_from_neighbour(own, waves("2014-03-01", 43, 5));
  CHECK(days_text(own) == days_text(waves("2014-03-01", 43)));
  CHECK(own.last_observed() == day("2014-04-09"));
}

TEST_CASE("twenty-nine common days are too few and thirty are enough") {
  const DailySeries neighbour = waves("2014-03-01", 31, 5);
  DailySeries own = waves("2014-03-01", 29);
  CHECK(fill_from_neighbour(own, neighbour).minima == 0);
  own = waves("2014-03-01", 30);
  CHECK(fill_from_neighbour(own, neighbour).minima == 1);
}

TEST_CASE("where this year has too few common days other years' same dates serve") {
  // The own record has last spring and nothing of this one.
  DailySeries own = waves("2013-03-01", 100);
  const DailySeries before = own;
  DailySeries neighbour = waves("2013-03-01", 480, 4);
  const FillCounts filled = fill_from_neighbour(own, neighbour);
  const std::size_t april = own.index_of(day("2014-04-16")).value();
  REQUIRE(own.complete(april));
  CHECK(own.tmin[april].value == neighbour.tmin[april].value + TemperatureDifference::fahrenheit(-4));
  CHECK_FALSE(own.complete(own.index_of(day("2013-12-01")).value()));
  CHECK(filled.minima > 100);
}

TEST_CASE("a neighbour that goes its own way fills nothing") {
  DailySeries own = waves("2014-03-01", 100);
  DailySeries neighbour = waves("2014-03-01", 100);
  for (std::size_t i = 0; i < 100; ++i) {
    neighbour.tmin[i].value = Temperature::fahrenheit(40 + 7 * static_cast<double>(i * i % 5));
  }
  own.tmin[50] = own.tmax[50] = {};
  const FillCounts filled = fill_from_neighbour(own, neighbour);
  CHECK(filled.minima == 0);
  CHECK(filled.maxima == 1);
}

TEST_CASE("a filled extreme does not pass the observed one") {
  DailySeries own = waves("2014-03-01", 100);
  const DailySeries neighbour = waves("2014-03-01", 100);
  own.tmin[50] = {};
  own.tmax[50].value = Temperature::fahrenheit(33);
  fill_from_neighbour(own, neighbour);
  CHECK(days_text(part(own, 50, 1)) == Lines{"2014-04-20 33/33"});
  CHECK(own.tmax[50].origin == Origin::observed);
}

TEST_CASE("a short gap is bridged by a straight line and each extreme by its own") {
  DailySeries own;
  include_day(own, day("2014-04-01"));
  include_day(own, day("2014-04-05"));
  own.tmin[0] = {Temperature::fahrenheit(40), Origin::observed};
  own.tmin[3] = {Temperature::fahrenheit(46), Origin::observed};
  own.tmin[4] = {Temperature::fahrenheit(50), Origin::observed};
  own.tmax[0] = {Temperature::fahrenheit(70), Origin::observed};
  own.tmax[4] = {Temperature::fahrenheit(62), Origin::observed};
  const FillCounts filled = fill_by_line(own);
  CHECK(filled.minima == 2);
  CHECK(filled.maxima == 3);
  CHECK(days_text(own) ==
        Lines{"2014-04-01 70/40", "2014-04-02 68/42", "2014-04-03 66/44", "2014-04-04 64/46", "2014-04-05 62/50"});
  CHECK(own.tmin[1].origin == Origin::line);
  CHECK(own.tmin[3].origin == Origin::observed);
}

TEST_CASE("five days are bridged and six are not, nor is either end of a record") {
  DailySeries own = waves("2014-03-01", 30);
  for (const std::size_t i : {0U, 5U, 6U, 7U, 8U, 9U, 15U, 16U, 17U, 18U, 19U, 20U, 29U}) own.tmax[i] = {};
  CHECK(fill_by_line(own).maxima == 5);
  CHECK_FALSE(has_value(own.tmax[0].origin));
  CHECK(own.tmax[7].origin == Origin::line);
  CHECK_FALSE(has_value(own.tmax[17].origin));
  CHECK_FALSE(has_value(own.tmax[29].origin));
}

TEST_CASE("nothing is filled in an empty record or from one") {
  DailySeries empty;
  CHECK(fill_from_neighbour(empty, waves("2014-03-01", 9)).minima == 0);
  CHECK(fill_by_line(empty).minima == 0);
  DailySeries own = waves("2014-03-01", 9);
  CHECK(fill_from_neighbour(own, {}).minima == 0);
  CHECK(own.size() == 9);
}

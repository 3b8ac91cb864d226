#include <budclock/weather/adjust.hpp>

#include "reading.hpp"

#include <catch2/catch.hpp>

using namespace budclock;
using namespace budclock::weather;
using test::days_text;
using test::Lines;

namespace {

DailySeries three_days() {
  DailySeries days;
  const double minima[] = {40, 45, 50};
  const double maxima[] = {60, 80, 60};
  for (std::size_t i = 0; i < 3; ++i) {
    include_day(days, parse_iso_day("2014-04-01").value() + date::days{static_cast<int>(i)});
    days.tmin[i] = {Temperature::fahrenheit(minima[i]), Origin::observed};
    days.tmax[i] = {Temperature::fahrenheit(maxima[i]), Origin::observed};
  }
  return days;
}

}  // namespace

TEST_CASE("an offset moves the values there are and nothing else") {
  DailySeries days = three_days();
  days.tmin[1].origin = Origin::absent;
  days.tmax[2].origin = Origin::set_aside;
  CHECK(days_text(with_offset(days, TemperatureDifference::fahrenheit(-2.5))) ==
        Lines{"2014-04-01 57.5/37.5", "2014-04-02 77.5/-", "2014-04-03 x/47.5"});
}

TEST_CASE("a site 200 m above its station is 1.3 C colder") {
  CHECK(lapse(200) == TemperatureDifference::celsius(-1.3));
  CHECK(lapse(-1000) == TemperatureDifference::celsius(6.5));
}

TEST_CASE("a maximum read in the morning goes to the day before") {
  const Shifted shifted = with_maxima_a_day_earlier(three_days());
  CHECK(days_text(shifted.days) == Lines{"2014-03-31 60/-", "2014-04-01 80/40", "2014-04-02 60/45", "2014-04-03 -/50"});
  CHECK(shifted.set_aside == 0);
}

TEST_CASE("a minimum that the move puts above its maximum is set aside with it") {
  DailySeries days = three_days();
  days.tmin[0].value = Temperature::fahrenheit(81);
  const Shifted shifted = with_maxima_a_day_earlier(days);
  CHECK(days_text(shifted.days) == Lines{"2014-03-31 60/-", "2014-04-01 x/x", "2014-04-02 60/45", "2014-04-03 -/50"});
  CHECK(shifted.set_aside == 1);
}

TEST_CASE("an empty record can be moved") { CHECK(with_maxima_a_day_earlier({}).days.empty()); }

TEST_CASE("records of different times of reading are warned of and others are not") {
  const Diagnostics notes = read_time_notes({{"logger.csv", ReadTime::as_dated}, {"coop.csv", ReadTime::morning}});
  REQUIRE(notes.size() == 1);
  CHECK(to_text(notes[0]) ==
        "logger.csv: its maxima stay on their dates, while those of coop.csv are moved to the day before: state the "
        "time of reading of each record that is read in the morning");
  CHECK(read_time_notes({{"a.csv", ReadTime::morning}, {"b.csv", ReadTime::morning}}).empty());
  CHECK(read_time_notes({{"a.csv", ReadTime::as_dated}}).empty());
}

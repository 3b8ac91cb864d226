// Readings within a day, reduced to daily extremes.
#include <budclock/weather/day_reducer.hpp>

#include <catch2/catch.hpp>
#include <initializer_list>

using namespace budclock;
using namespace budclock::weather;

namespace {

const Day k_day = parse_iso_day("2014-04-16").value();

Temperature celsius(int degrees) { return Temperature::hundredths_celsius(degrees * 100); }

/// What a day is with a reading at each of these minutes.
DayCover cover(std::initializer_list<int> minutes) {
  DayReducer reducer;
  for (const int minute : minutes) reducer.add(k_day, minute, celsius(10), 1);
  return reducer.take().at(0).cover;
}

}  // namespace

TEST_CASE("readings become the day's extremes, in whatever order they come") {
  DayReducer reducer;
  for (int hour = 23; hour >= 0; --hour) {
    reducer.add(k_day + date::days{1}, hour * 60, celsius(hour), 50);
    reducer.add(k_day, hour * 60, celsius(-hour), 7);
  }
  const auto days = reducer.take();
  REQUIRE(days.size() == 2);
  CHECK(days[0].day == k_day);
  CHECK(days[0].line == 7);
  CHECK(days[0].tmin == celsius(-23));
  CHECK(days[0].tmax == celsius(0));
  CHECK(days[1].tmin == celsius(0));
  CHECK(days[1].tmax == celsius(23));
  CHECK(days[1].cover == DayCover::whole);
  CHECK(reducer.days() == 0);
}

TEST_CASE("an hour that comes twice changes nothing, and the extremes of an hour count as its readings") {
  DayReducer reducer;
  for (int hour = 0; hour < 24; ++hour) reducer.add(k_day, hour * 60, celsius(hour - 1), celsius(hour), 1);
  reducer.add(k_day, 60, celsius(0), celsius(1), 30);
  const ReducedDay day = reducer.take().at(0);
  CHECK(day.tmin == celsius(-1));
  CHECK(day.tmax == celsius(23));
  CHECK(day.line == 1);
}

TEST_CASE("a day is whole when it has a reading every three hours, and partial with a larger hole at any place") {
  CHECK(cover({0, 180, 360, 540, 720, 900, 1080, 1260}) == DayCover::whole);
  CHECK(cover({60, 240, 420, 600, 780, 960, 1140, 1320}) == DayCover::whole);
  CHECK(cover({0, 360, 540, 720, 900, 1080, 1260}) == DayCover::partial);
  CHECK(cover({180, 360, 540, 720, 900, 1080, 1260}) == DayCover::partial);
  CHECK(cover({0, 180, 360, 540, 720, 900, 1080}) == DayCover::partial);
  CHECK(cover({0, 360, 720, 1080}) == DayCover::partial);
  CHECK(cover({840}) == DayCover::partial);
}

TEST_CASE("24:00 is the last instant of its day") {
  CHECK(cover({0, 180, 360, 540, 720, 900, 1080, 1250}) == DayCover::partial);
  CHECK(cover({0, 180, 360, 540, 720, 900, 1080, 1250, 1440}) == DayCover::whole);
}

TEST_CASE("a day whose rows have no value has no cover, and rows without a value leave a hole") {
  DayReducer reducer;
  reducer.add_without_value(k_day, 3);
  for (int hour = 0; hour < 24; ++hour) {
    if (hour < 10 || hour > 13)
      reducer.add(k_day + date::days{1}, hour * 60, celsius(1), 4);
    else
      reducer.add_without_value(k_day + date::days{1}, 4);
  }
  const auto days = reducer.take();
  CHECK(days.at(0).cover == DayCover::none);
  CHECK(days.at(1).cover == DayCover::partial);
}

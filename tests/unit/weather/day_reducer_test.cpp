// Readings within a day, reduced to daily extremes.
#include <budclock/weather/day_reducer.hpp>

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <fmt/format.h>
#include <fstream>
#include <initializer_list>
#include <sstream>
#include <string>
#include <vector>

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

namespace {

/// Ten-minute readings of a year at Whately MA, tenths of °C, 144 a day.
std::vector<std::vector<int>> readings_of_a_year() {
  std::ifstream file{BUDCLOCK_TEST_DATA "/weather/whately_ma_2015_10min.csv"};
  std::string line;
  REQUIRE(std::getline(file, line));
  std::vector<std::vector<int>> days;
  while (std::getline(file, line)) {
    std::replace(line.begin(), line.end(), ',', ' ');
    std::istringstream text{line};
    std::string date;
    text >> date;
    std::vector<int> day;
    for (int tenths = 0; text >> tenths;) day.push_back(tenths);
    REQUIRE(day.size() == 144);
    days.push_back(day);
  }
  return days;
}

/// What a hole costs at its worst place, as a mean over the days: degrees C that the day's range loses.
double range_lost(const std::vector<std::vector<int>>& days, std::size_t hole_readings) {
  double sum = 0;
  for (const auto& day : days) {
    const auto [low, high] = std::minmax_element(day.begin(), day.end());
    int worst = 0;
    for (std::size_t begin = 0; begin + hole_readings <= day.size(); ++begin) {
      int lowest = INT32_MAX;
      int highest = INT32_MIN;
      for (std::size_t i = 0; i < day.size(); ++i) {
        if (i >= begin && i < begin + hole_readings) continue;
        lowest = std::min(lowest, day[i]);
        highest = std::max(highest, day[i]);
      }
      worst = std::max({worst, lowest - *low, *high - highest});
    }
    sum += worst / 10.0;
  }
  return sum / static_cast<double>(days.size());
}

}  // namespace

TEST_CASE("holes that a whole day may have cost its extremes little on a real year, longer ones much") {
  const auto days = readings_of_a_year();
  REQUIRE(days.size() == 365);
  double last = 0;
  for (const std::size_t hours : {1U, 2U, 3U, 6U, 12U}) {
    const double lost = range_lost(days, hours * 6);
    fmt::print("Whately MA 2015: a hole of {} h at the day's worst place moves one extreme by {:.2f} C on average\n",
               hours, lost);
    CHECK(lost > last);
    last = lost;
  }
  CHECK(range_lost(days, 18) < 2.0);
}

TEST_CASE("sums from hourly readings reduced to extremes are those from ten-minute readings within a few per cent") {
  const auto days = readings_of_a_year();
  DayReducer ten_minutes;
  DayReducer hourly;
  Day day = parse_iso_day("2015-01-01").value();
  double integral = 0;  // of hourly readings above 10 C
  for (const auto& readings : days) {
    for (std::size_t i = 0; i < readings.size(); ++i) {
      const Temperature value = Temperature::hundredths_celsius(readings[i] * 10);
      ten_minutes.add(day, static_cast<int>(i) * 10, value, 1);
      if (i % 6 != 0) continue;
      hourly.add(day, static_cast<int>(i) * 10, value, 1);
      integral += std::max(0.0, readings[i] / 10.0 - 10) / 24;
    }
    day += date::days{1};
  }
  const auto sums = [](std::vector<ReducedDay> reduced) {
    double average = 0;
    double sine = 0;
    for (const ReducedDay& one : reduced) {
      REQUIRE(one.cover == DayCover::whole);
      const double low = one.tmin.celsius() - 10;
      const double high = one.tmax.celsius() - 10;
      const double mean = (low + high) / 2;
      average += std::max(0.0, mean);
      if (low >= 0) sine += mean;
      if (low >= 0 || high <= 0) continue;
      const double half = (high - low) / 2;  // single sine of one day: Baskerville & Emin 1969, Ecology 50:514-517
      const double angle = std::asin(-mean / half);
      sine += (mean * (M_PI / 2 - angle) + half * std::cos(angle)) / M_PI;
    }
    return std::pair{average, sine};
  };
  const auto percent = [integral](double sum) { return 100 * (sum / integral - 1); };
  const auto [average_hourly, sine_hourly] = sums(hourly.take());
  const auto [average_ten, sine_ten] = sums(ten_minutes.take());
  // Published beside it: subdaily_test.cpp of the degree-day tests cites the sources.
  fmt::print(
      "Whately MA 2015, base 10 C, against {:.1f} C-days of hourly integration: hourly extremes, sine {:+.1f} %, "
      "average "
      "{:+.1f} %; ten-minute extremes, sine {:+.1f} %, average {:+.1f} %\n",
      integral, percent(sine_hourly), percent(average_hourly), percent(sine_ten), percent(average_ten));
  CHECK(std::abs(percent(sine_hourly)) < 5);
  CHECK(std::abs(percent(average_hourly)) < 3);
  CHECK(sine_hourly < sine_ten);  // hourly readings miss the peaks
}

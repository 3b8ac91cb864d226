// GHCN-Daily's fixed-width files: what is read, and what is wrong with lines that cannot be.
#include <budclock/weather/ghcn_dly_reader.hpp>

#include "reading.hpp"

#include <catch2/catch.hpp>
#include <fmt/format.h>
#include <fstream>
#include <iterator>
#include <map>

using namespace budclock;
using namespace budclock::weather;
using namespace budclock::weather::test;

namespace {

/// A line with the given cells of eight columns, by day; the others hold no value.
std::string dly_line(std::string_view heading, const std::map<int, std::string>& cells) {
  std::string line{heading};
  for (int day = 1; day <= 31; ++day) {
    const auto cell = cells.find(day);
    line += cell == cells.end() ? std::string{"-9999   "} : cell->second;
  }
  return line + "\n";
}

Lines celsius_days(const Reading& reading) { return days_text(reading.stations.at(0).days, TemperatureUnit::celsius); }

const std::string k_maxima = dly_line("USC00339312201404TMAX", {{1, "  156  7"}, {3, "  200  7"}});
const std::string k_minima = dly_line("USC00339312201404TMIN", {{1, "  -11  7"}, {2, "   50  7"}});
const Lines k_days{"2014-04-01 15.6/-1.1", "2014-04-02 -/5", "2014-04-03 20/-"};

}  // namespace

TEST_CASE("a fixed-width GHCN-Daily file is recognised, and its tenths of a degree are read") {
  const Reading reading = read_text(dly_line("USC00339312201404PRCP", {{1, "  999  7"}}) + k_maxima + k_minima);
  CHECK(reading.said == Lines{});
  CHECK(reading.summary.layout == "GHCN-Daily, fixed width");
  CHECK(reading.summary.unit == TemperatureUnit::celsius);
  CHECK(reading.summary.unit_evidence == UnitEvidence::layout);
  CHECK(reading.summary.kind == RecordKind::observed);
  CHECK(reading.summary.rows == 4);
  REQUIRE(reading.stations.size() == 1);
  CHECK(reading.stations[0].id == "USC00339312");
  CHECK(celsius_days(reading) == k_days);
}

TEST_CASE("months of absent values at either end do not make the record longer") {
  const Reading reading = read_text(dly_line("USC00339312201403TMAX", {}) + k_maxima + k_minima +
                                    dly_line("USC00339312201405TMAX", {}) + dly_line("USC00339312201405TMIN", {}));
  CHECK(reading.said == Lines{});
  CHECK(celsius_days(reading) == k_days);
}

TEST_CASE("a value with a quality flag is missing, and counted; other flags do not matter") {
  const Reading reading = read_text(dly_line("USC00339312201404TMAX", {{1, "  156 I7"}, {2, "  211H 7"}}) +
                                    dly_line("USC00339312201404TMIN", {{1, "   11  7"}, {2, "   50 S7"}}));
  CHECK(reading.said == Lines{});
  CHECK(reading.summary.flagged == 2);
  CHECK(celsius_days(reading) == Lines{"2014-04-01 -/1.1", "2014-04-02 21.1/-"});
}

TEST_CASE("a fixed-width file may hold several stations, and --station keeps one") {
  const std::string text = k_maxima + k_minima + dly_line("USW00003870201404TMAX", {{5, "  250  W"}});
  const Reading all = read_text(text);
  REQUIRE(all.stations.size() == 2);
  CHECK(days_text(all.stations[1].days, TemperatureUnit::celsius) == Lines{"2014-04-05 25/-"});
  ReadOptions options;
  options.station = "USW00003870";
  const Reading one = read_text(text, options);
  CHECK(one.said == Lines{});
  REQUIRE(one.stations.size() == 1);
  CHECK(one.stations[0].id == "USW00003870");
  options.station = "USC00000000";
  CHECK(read_text(text, options).said ==
        Lines{"w.csv: no row is of station \"USC00000000\": the file has USC00339312, USW00003870"});
}

TEST_CASE("elements that stand apart come together by day") {
  const std::string more = dly_line("USC00339312201405TMAX", {{1, "  222  7"}});
  const Reading reading = read_text(k_maxima + more + k_minima);
  CHECK(reading.said == Lines{});
  CHECK(celsius_days(reading).front() == k_days.front());
  CHECK(celsius_days(reading).back() == "2014-05-01 22.2/-");
}

TEST_CASE("a month that comes twice with another value is a fault, and the value is set aside") {
  const Reading reading = read_text(k_maxima + dly_line("USC00339312201404TMAX", {{1, "  157  7"}}));
  REQUIRE(reading.said.size() == 1);
  CHECK(
      reading.said[0].starts_with("w.csv:2: 2014-04-01 was already given on line 1, with other values (maximum "
                                  "15.6 C there and 15.7 C here)"));
  CHECK(celsius_days(reading).front() == "2014-04-01 x/-");
}

TEST_CASE("lines without the blanks at their end are whole") {
  std::string stripped = k_maxima.substr(0, k_maxima.find_last_not_of(" \n") + 1) + "\n";
  REQUIRE(stripped.size() < k_maxima.size());
  const Reading reading = read_text(stripped + k_minima);
  CHECK(reading.said == Lines{});
  CHECK(celsius_days(reading) == k_days);
}

TEST_CASE("lines of another length and values that are none are named by line and column, and the rest is read") {
  const std::string cut = k_minima.substr(0, 100) + "\n";
  const std::string joined = k_minima.substr(0, k_minima.size() - 1) + k_minima;
  const Reading reading =
      read_text(k_maxima + cut + joined + "what is this\n" + dly_line("USC00339312201413TMIN", {{1, "   10  7"}}) +
                dly_line("USC00339312201404TMIN", {{1, "  1.5  7"}, {2, "  999  7"}, {31, "   50  7"}}));
  CHECK(reading.said ==
        Lines{
            "w.csv:2:101: this has 100 characters instead of 269; the line is set aside: get the file again",
            "w.csv:3:270: this has 538 characters instead of 269; the line is set aside: get the file again",
            "w.csv:4:1: this does not begin with a station, a month and an element; the line is set aside: get the "
            "file again",
            "w.csv:5:12: \"201413\" is not a month; the line is set aside: get the file again",
            "w.csv:6:22: \"1.5\" is not a whole number of tenths of a degree; it is set aside: get the file again",
            "w.csv:6:30: 99.9 C is outside what has ever been measured (-89.4 C to 57.7 C); it is set aside: correct "
            "it, or take it out",
            "w.csv:6:262: \"50\" stands for day 31, after the month's end; it is left out: get the file again",
        });
  CHECK(celsius_days(reading) == Lines{"2014-04-01 15.6/x", "2014-04-02 -/x", "2014-04-03 20/-"});
}

TEST_CASE("a fixed-width file without temperatures is an error") {
  CHECK(read_text(dly_line("USC00339312201404PRCP", {{1, "  999  7"}})).said ==
        Lines{"w.csv: no line gives a value of TMAX or TMIN: choose another station"});
}

TEST_CASE("a real year of 1872 is read: every day but those that the publisher flags") {
  std::ifstream file{BUDCLOCK_TEST_DATA "/weather/new_york_wb_city_ny_1872.dly", std::ios::binary};
  const std::string text{std::istreambuf_iterator<char>{file}, {}};
  const Reading reading = read_text(text);
  CHECK(reading.said == Lines{});
  CHECK(reading.summary.flagged == 2);
  const Lines days = celsius_days(reading);
  REQUIRE(days.size() == 366);
  CHECK(days[0] == "1872-01-01 8.9/-");
  CHECK(days[1] == "1872-01-02 -/-2.2");
}

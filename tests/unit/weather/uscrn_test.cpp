// Daily and hourly text files of the Climate Reference Network.
#include <budclock/weather/uscrn_reader.hpp>

#include "reading.hpp"

#include <catch2/catch.hpp>
#include <fmt/format.h>
#include <fstream>
#include <iterator>

using namespace budclock;
using namespace budclock::weather;
using namespace budclock::weather::test;

namespace {

constexpr std::string_view k_soil = " -99.000 -99.000 -99.000 -99.000 -99.000 -9999.0 -9999.0 -9999.0 -9999.0 -9999.0";

std::string daily_line(std::string_view date, std::string_view tmax, std::string_view tmin,
                       std::string_view station = "54856") {
  return fmt::format(
      "{} {} -9.000  -81.91   40.76 {:>7} {:>7}     6.5     5.8     0.8    10.05 U"
      " -9999.0 -9999.0 -9999.0 -9999.0 -9999.0 -9999.0{}\n",
      station, date, tmax, tmin, k_soil);
}

/// An hour that ends at the time given; the UTC columns hold something else, on purpose.
std::string hourly_line(std::string_view date, std::string_view time, double tmax, double tmin) {
  return fmt::format(
      "54856 19990909 0909 {} {}  2.622  -81.91   40.76    99.9    99.9 {:7.1f} {:7.1f}     0.0      0 0"
      "      0 0      0 0 C     5.0 0     5.0 0     5.0 0    88 0{}\n",
      date, time, tmax, tmin, k_soil);
}

Lines celsius_days(const Reading& reading, std::size_t station = 0) {
  return days_text(reading.stations.at(station).days, TemperatureUnit::celsius);
}

}  // namespace

TEST_CASE("daily text of the reference network is recognised and read") {
  const Reading reading = read_text(daily_line("20200401", "9.5", "3.6") + daily_line("20200402", "-9999.0", "1.4") +
                                    daily_line("20200401", "30.1", "20.2", "53877"));
  CHECK(reading.said == Lines{});
  CHECK(reading.summary.layout == "Climate Reference Network, daily");
  CHECK(reading.summary.unit == TemperatureUnit::celsius);
  CHECK(reading.summary.unit_evidence == UnitEvidence::layout);
  CHECK_FALSE(reading.summary.within_day);
  CHECK(reading.summary.rows == 3);
  REQUIRE(reading.stations.size() == 2);
  CHECK(reading.stations[0].id == "54856");
  CHECK(celsius_days(reading) == Lines{"2020-04-01 9.5/3.6", "2020-04-02 -/1.4"});
  CHECK(celsius_days(reading, 1) == Lines{"2020-04-01 30.1/20.2"});
}

TEST_CASE("two real months laid out as daily text are read without a word") {
  std::ifstream file{BUDCLOCK_TEST_DATA "/weather/wooster_oh_2020_daily01.txt", std::ios::binary};
  const Reading reading = read_text(std::string{std::istreambuf_iterator<char>{file}, {}});
  CHECK(reading.said == Lines{});
  const Lines days = celsius_days(reading);
  REQUIRE(days.size() == 61);
  CHECK(days.front() == "2020-04-01 9.5/3.6");
  CHECK(days[1] == "2020-04-02 12.8/1.4");
}

TEST_CASE("lines and values of the reference network that cannot be used are named by line and column") {
  const std::string cut = daily_line("20200403", "9.5", "3.6").substr(0, 60) + "\n";
  const Reading reading = read_text(daily_line("20200401", "9.5", "3.6") + cut + daily_line("20200230", "9.5", "3.6") +
                                    daily_line("20200404", "9,5", "-91.0"));
  CHECK(reading.said ==
        Lines{
            "w.csv:2:1: the line is not 28 fields that begin with a station and a date; it is set aside: get the file "
            "again",
            "w.csv:3:7: \"20200230\" does not exist; the line is set aside: correct the date",
            "w.csv:4:43: \"9,5\" is not a temperature; it is set aside: get the file again",
            "w.csv:4:49: -91 C is outside what has ever been measured (-89.4 C to 57.7 C); it is set aside: correct "
            "it, or take it out",
        });
  CHECK(celsius_days(reading).front() == "2020-04-01 9.5/3.6");
  CHECK(celsius_days(reading).back() == "2020-04-04 x/x");
}

TEST_CASE("hourly text is reduced to days of local standard time, midnight closing the day before") {
  // 2020-04-02 has its 24 hours, the last of them under the next date; on both sides stands one hour only.
  std::string text = hourly_line("20200402", "0000", 1.0, 0.0);
  for (int hour = 1; hour <= 23; ++hour) {
    text += hourly_line("20200402", fmt::format("{:02}00", hour), 10.0 + hour, 5.0 + hour);
  }
  text += hourly_line("20200403", "0000", 40.0, 2.0) + hourly_line("20200403", "0100", 50.0, -20.0);
  const Reading reading = read_text(text);
  CHECK(reading.summary.layout == "Climate Reference Network, hourly");
  CHECK(reading.summary.within_day);
  CHECK(reading.summary.partial_days == 2);
  CHECK(celsius_days(reading) == Lines{"2020-04-01 x/x", "2020-04-02 40/2", "2020-04-03 x/x"});
  REQUIRE(reading.summary.diagnostics.size() == 1);
  CHECK(reading.summary.diagnostics[0].severity == Severity::note);
}

TEST_CASE("hours that cannot be are set aside with a fault") {
  const Reading reading = read_text(hourly_line("20200402", "0100", 1.0, 2.0) + hourly_line("20200402", "2400", 1, 0) +
                                    hourly_line("20200402", "0130", 1, 0));
  CHECK(reading.said ==
        Lines{
            "w.csv:1:78: the hour's minimum 2 C is above its maximum 1 C; both are set aside: correct the line",
            "w.csv:2:30: \"2400\" is not a full hour; the line is set aside: correct the time",
            "w.csv:3:30: \"0130\" is not a full hour; the line is set aside: correct the time",
        });
}

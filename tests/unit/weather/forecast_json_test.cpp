// Forecasts of the National Weather Service as JSON.
#include <budclock/weather/forecast_json_reader.hpp>

#include "reading.hpp"

#include <catch2/catch.hpp>
#include <fmt/format.h>
#include <fstream>
#include <iterator>

using namespace budclock;
using namespace budclock::weather;
using namespace budclock::weather::test;

namespace {

/// Times without their date's month: "16T06" is 2026-04-16T06:00:00-04:00.
std::string time_of(std::string_view day_and_hour) { return fmt::format("2026-04-{}:00:00-04:00", day_and_hour); }

std::string period(std::string_view start, std::string_view end, bool daytime, std::string_view temperature) {
  return fmt::format(R"({{"startTime": "{}", "endTime": "{}", "isDaytime": {}, {}}})", time_of(start), time_of(end),
                     daytime, temperature);
}
std::string day(std::string_view date, int fahrenheit) {
  return period(fmt::format("{}T06", date), fmt::format("{}T18", date), true,
                fmt::format(R"("temperature": {}, "temperatureUnit": "F")", fahrenheit));
}

/// One period a line, from line 2 on.
std::string forecast(const std::vector<std::string>& periods) {
  std::string text = "{\"properties\": {\"periods\": [\n";
  for (std::size_t i = 0; i < periods.size(); ++i) text += periods[i] + (i + 1 < periods.size() ? ",\n" : "\n");
  return text + "]}}\n";
}

/// An hour of °C from 2026-04-15T00 on.
std::string hour(int number, double celsius) {
  const auto text = [](int h) { return fmt::format("{}T{:02}", 15 + h / 24, h % 24); };
  return period(text(number), text(number + 1), number % 24 >= 6 && number % 24 < 18,
                fmt::format(R"("temperature": {{"unitCode": "wmoUnit:degC", "value": {}}})", celsius));
}

Lines days_of(const Reading& reading) { return days_text(reading.stations.at(0).days); }

std::string real_file(const char* name) {
  std::ifstream file{std::string{BUDCLOCK_TEST_DATA "/weather/"} + name, std::ios::binary};
  return {std::istreambuf_iterator<char>{file}, {}};
}

const std::string k_night = period("15T18", "16T06", false, R"("temperature": 41, "temperatureUnit": "F")");

}  // namespace

TEST_CASE("a day period gives its date's maximum, a night period the minimum of the next morning's date") {
  const Reading reading = read_text(forecast({k_night, day("16", 63), day("17", 70)}));
  CHECK(reading.said == Lines{});
  CHECK(reading.summary.layout == "Weather Service forecast, days and nights");
  CHECK(reading.summary.kind == RecordKind::forecast);
  CHECK(reading.summary.unit == TemperatureUnit::fahrenheit);
  CHECK(reading.summary.unit_evidence == UnitEvidence::layout);
  CHECK(reading.summary.rows == 3);
  REQUIRE(reading.stations.size() == 1);
  CHECK(reading.stations[0].id.empty());
  CHECK(days_of(reading) == Lines{"2026-04-16 63/41", "2026-04-17 70/-"});
  for (const DayValue& value : {reading.stations[0].days.tmin[0], reading.stations[0].days.tmax[0]}) {
    CHECK(value.origin == Origin::forecast);
  }
}

TEST_CASE("a night period that begins after midnight gives the minimum of its own date") {
  const Reading reading = read_text(
      forecast({period("16T02", "16T06", false, R"("temperature": 5, "temperatureUnit": "C")"), day("16", 63)}));
  CHECK(reading.said == Lines{});
  CHECK(days_of(reading) == Lines{"2026-04-16 63/41"});
}

TEST_CASE("a day period that begins late gives no maximum") {
  const Reading reading =
      read_text(forecast({period("15T16", "15T18", true, R"("temperature": 50, "temperatureUnit": "F")"), k_night,
                          period("16T15", "16T18", true, R"("temperature": 63, "temperatureUnit": "F")")}));
  CHECK(reading.said == Lines{"w.csv:2:1: this day period begins late on 2026-04-15 and gives no maximum"});
  CHECK(days_of(reading) == Lines{"2026-04-16 63/41"});
}

TEST_CASE("hourly temperatures become daily extremes, of whole days only") {
  std::vector<std::string> hours;
  for (int h = 12; h < 54; ++h) hours.push_back(hour(h, 10 + h % 24 / 2.0));  // from noon on the 15th to 6 on the 17th
  const Reading reading = read_text(forecast(hours));
  CHECK(reading.summary.layout == "Weather Service forecast, hourly");
  CHECK(reading.summary.within_day);
  CHECK(reading.summary.partial_days == 2);
  CHECK(days_text(reading.stations.at(0).days, TemperatureUnit::celsius) ==
        Lines{"2026-04-15 x/x", "2026-04-16 21.5/10", "2026-04-17 x/x"});
  CHECK(reading.stations[0].days.tmax[1].origin == Origin::forecast);
}

TEST_CASE("periods may stand at the top of the document") {
  const Reading reading = read_text("{\"periods\": [" + k_night + ", " + day("16", 63) + "]}");
  CHECK(reading.said == Lines{});
  CHECK(days_of(reading) == Lines{"2026-04-16 63/41"});
}

TEST_CASE("real forecasts are read, in either unit") {
  const Reading us = read_text(real_file("nws_forecast_tallahassee_fl_f.json"));
  CHECK(us.said == Lines{});
  CHECK(days_of(us) == Lines{"2019-10-13 41/-", "2019-10-14 -/68"});
  const Reading si = read_text(real_file("nws_forecast_tallahassee_fl_c.json"));
  CHECK(si.said == Lines{});
  CHECK(days_of(si) == days_of(us));
  const Reading hourly = read_text(real_file("nws_forecast_tallahassee_fl_hourly.json"));
  CHECK(hourly.summary.partial_days == 1);
  CHECK(days_of(hourly) == Lines{"2019-10-14 x/x"});
}

TEST_CASE("what is missing or contradicts in a forecast is named by place and pointer, and the rest is used") {
  const Reading reading = read_text(forecast({
      k_night,
      day("16", 63),
      period("17T06", "17T18", true, R"("temperature": null, "temperatureUnit": "F")"),
      period("18T06", "18T18", true, R"("temperature": 70)"),
      period("19T06", "19T18", true, R"("temperature": 290, "temperatureUnit": "K")"),
      period("20T06", "20T18", true, R"("temperature": 700, "temperatureUnit": "F")"),
      period("21T18", "21T06", true, R"("temperature": 70, "temperatureUnit": "F")"),
      R"({"startTime": "soon", "endTime": "2026-04-22T18:00:00-04:00", "isDaytime": true, "temperature": 1})",
      R"({"startTime": "2026-04-22T06:00:00Z", "endTime": "2026-04-22T18:00:00Z", "isDaytime": true, "temperature": 1})",
      day("16", 64),
      R"(7)",
      R"({"startTime": "2026-04-23T06:00:00-04:00", "endTime": "2026-04-23T18:00:00-04:00", "temperature": 1})",
      period("24T06", "24T18", true, R"("name": "Friday")"),
  }));
  const auto at = [](int line, const char* pointer, const char* what, const char* remedy = "get the forecast again") {
    return fmt::format("{} {} at /properties/periods/{}: {}", line, what, pointer, remedy);
  };
  Lines said;
  for (const Diagnostic& entry : reading.summary.diagnostics) {
    CHECK(entry.severity == Severity::fault);
    CHECK(entry.place.column > 0);
    said.push_back(fmt::format("{} {}: {}", entry.place.line, entry.message, entry.remedy));
  }
  CHECK(said ==
        Lines{
            at(4, "2/temperature", "the temperature is not a number; it is set aside"),
            at(5, "3/temperature", "the temperature's unit is neither F nor C; it is set aside"),
            at(6, "4/temperatureUnit", "the temperature's unit is neither F nor C; it is set aside"),
            at(7, "5/temperature", "700 F is outside what has ever been measured; it is set aside"),
            at(8, "6", "the period does not end within a day after its start; it is set aside"),
            at(9, "7/startTime", "the period has no startTime such as \"2026-04-16T06:00:00-04:00\"; it is set aside"),
            at(10, "8/startTime", "the time is in UTC, so the local date is not known; the period is set aside",
               "get the forecast of the place, which has local times"),
            at(10, "8/endTime", "the time is in UTC, so the local date is not known; the period is set aside",
               "get the forecast of the place, which has local times"),
            at(11, "9", "another temperature than that of the same time at /properties/periods/1; both are set aside"),
            at(12, "10", "this is not a period; it is set aside"),
            at(13, "11", "isDaytime is neither true nor false; the period is set aside"),
            at(14, "12", "the period has no temperature; it is set aside"),
        });
  const Lines days = days_of(reading);
  CHECK(days.front() == "2026-04-16 x/41");
  CHECK(days.size() == 9);
}

TEST_CASE("JSON that is no forecast is an error") {
  const auto only_error = [](std::string_view text) {
    const Reading reading = read_text(text);
    CHECK(reading.stations.empty());
    REQUIRE(reading.summary.diagnostics.size() == 1);
    CHECK(reading.summary.diagnostics[0].severity == Severity::error);
    return reading.said[0];
  };
  CHECK(only_error(R"({"title": "Not Found", "status": 404})") ==
        "w.csv:1:11: this is no forecast but an answer that there is none: \"Not Found\": get the forecast again");
  CHECK(only_error("[1, 2]") ==
        "w.csv: this JSON is not a Weather Service forecast with periods: get the forecast or the hourly forecast of "
        "the place");
  CHECK(only_error(R"({"periods": []})") ==
        "w.csv:1:13: no period of the forecast can be used: get the forecast again");
  CHECK(only_error(forecast({k_night, day("16", 63)}).substr(0, 200)).starts_with("w.csv:"));
  CHECK(only_error(R"({"periods": [{"temperature": NaN}]})").starts_with("w.csv:1:"));
}

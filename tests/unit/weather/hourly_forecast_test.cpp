// The hours of a Weather Service forecast, with all that is said of them.
#include <budclock/weather/hourly_forecast.hpp>

#include <catch2/catch.hpp>
#include <fmt/format.h>
#include <fstream>
#include <iterator>

using namespace budclock;
using namespace budclock::weather;

namespace {

struct Read {
  std::vector<ForecastHour> hours;
  std::vector<std::string> said;
};

Read read(const std::string& text) {
  MemorySource source{text};
  ProblemList problems{"h.json"};
  Read result{read_hourly_forecast(source, problems), {}};
  for (const Diagnostic& entry : problems.take()) result.said.push_back(to_text(entry));
  return result;
}

/// An hour of 16 April 2026 at UTC-4, with more members after its times.
std::string hour(int at, const std::string& members, int long_hours = 1) {
  return fmt::format(
      R"({{"startTime": "2026-04-16T{:02}:00:00-04:00", "endTime": "2026-04-16T{:02}:00:00-04:00"{}{}}})", at,
      at + long_hours, members.empty() ? "" : ", ", members);
}

/// One period a line, from line 2 on.
std::string forecast(const std::vector<std::string>& periods) {
  return fmt::format("{{\"properties\": {{\"periods\": [\n{}]}}}}\n", fmt::join(periods, ",\n"));
}

/// What is said of one hour.
ForecastHour one(const std::string& members) {
  const Read result = read(forecast({hour(6, members)}));
  CHECK(result.said.empty());
  REQUIRE(result.hours.size() == 1);
  return result.hours.front();
}

/// The fault of an hour with a bad member.
std::string fault(const std::string& members) {
  const Read result = read(forecast({hour(6, members)}));
  REQUIRE(result.hours.size() == 1);
  REQUIRE(result.said.size() == 1);
  return result.said.front();
}

}  // namespace

TEST_CASE("an hour of the service's own file keeps all that is said of it") {
  std::ifstream file{BUDCLOCK_TEST_DATA "/weather/nws_forecast_tallahassee_fl_hourly.json"};
  const Read result = read(std::string{std::istreambuf_iterator<char>{file}, {}});
  CHECK(result.said.empty());
  REQUIRE(result.hours.size() == 2);
  const ForecastHour& second = result.hours[1];
  CHECK(iso(second.day) == "2019-10-14");
  CHECK(second.minute == 21 * 60);
  CHECK(second.offset_minutes == -4 * 60);
  CHECK(second.temperature == Temperature::fahrenheit(77));
  CHECK(second.humidity_percent == 63.0);
  CHECK(second.rain_chance_percent == 20.0);
  CHECK(second.wind == WindSpeed{0, 0});
  CHECK(second.wind_direction == "SW");
  CHECK(second.words == "Partly Cloudy");
}

TEST_CASE("what an hour leaves out, or says null to, is not known and never 0") {
  for (const char* members :
       {"", R"("temperature": null, "relativeHumidity": null, "windSpeed": null, "probabilityOfPrecipitation": null,
                "windDirection": null, "shortForecast": null)",
        R"("temperature": {"unitCode": "wmoUnit:degC", "value": null},
            "relativeHumidity": {"unitCode": "wmoUnit:percent", "value": null}, "windSpeed": "",
            "probabilityOfPrecipitation": {"unitCode": "wmoUnit:percent", "value": null})",
        R"("windSpeed": {"unitCode": "wmoUnit:km_h-1", "value": null})"}) {
    INFO(members);
    const ForecastHour found = one(members);
    CHECK_FALSE(found.temperature);
    CHECK_FALSE(found.humidity_percent);
    CHECK_FALSE(found.wind);
    CHECK_FALSE(found.rain_chance_percent);
    CHECK(found.wind_direction.empty());
    CHECK(found.words.empty());
  }
}

TEST_CASE("wind speeds are read as the service writes them") {
  CHECK(one(R"("windSpeed": "5 mph")").wind == WindSpeed{5, 5});
  CHECK(one(R"("windSpeed": "5 to 10 mph")").wind == WindSpeed{5, 10});
  CHECK(one(R"("windSpeed": "16 km/h")").wind->high_mph == Approx(9.94).margin(0.005));
  CHECK(one(R"("windSpeed": {"unitCode": "wmoUnit:km_h-1", "value": 16})").wind->low_mph == Approx(9.94).margin(0.005));
  const auto range = one(R"("windSpeed": {"unitCode": "wmoUnit:km_h-1", "minValue": 8, "maxValue": 16})").wind;
  CHECK(range->low_mph == Approx(4.97).margin(0.005));
  CHECK(range->high_mph == Approx(9.94).margin(0.005));
}

TEST_CASE("a wind speed that cannot be right is a fault") {
  for (const char* wind :
       {R"("fast")", R"("5 knots")", R"("10 to 5 mph")", R"("5 to mph")", R"("301 mph")", "5", R"("5mph")",
        R"({"unitCode": "wmoUnit:m_s-1", "value": 5})", R"({"unitCode": "wmoUnit:km_h-1", "value": -5})"}) {
    INFO(wind);
    const std::string said = fault(fmt::format(R"("windSpeed": {})", wind));
    CHECK(said.find("h.json:2:") == 0);
    CHECK(said.find("at /properties/periods/0/windSpeed") != std::string::npos);
  }
}

TEST_CASE("a percentage outside 0 to 100 is a fault with its place, its bounds are not") {
  CHECK(one(R"("relativeHumidity": {"unitCode": "wmoUnit:percent", "value": 100})").humidity_percent == 100.0);
  CHECK(one(R"("relativeHumidity": {"unitCode": "wmoUnit:percent", "value": 0})").humidity_percent == 0.0);
  CHECK(fault(R"("relativeHumidity": {"unitCode": "wmoUnit:percent", "value": 100.5})") ==
        "h.json:2:145: relativeHumidity is no number from 0 to 100; it counts as not known at "
        "/properties/periods/0/relativeHumidity/value: get the forecast again");
  CHECK(fault(R"("probabilityOfPrecipitation": {"unitCode": "wmoUnit:percent", "value": -1})")
            .find("probabilityOfPrecipitation is no number") != std::string::npos);
  CHECK(fault(R"("relativeHumidity": {"unitCode": "wmoUnit:degC", "value": 5})").find("not in percent") !=
        std::string::npos);
}

TEST_CASE("hours come in order of time, and one that stands twice once") {
  const Read result = read(forecast({hour(8, ""), hour(6, R"("shortForecast": "first")"), hour(6, "")}));
  REQUIRE(result.hours.size() == 2);
  CHECK(result.hours[0].words == "first");
  CHECK(result.hours[1].minute == 8 * 60);
  REQUIRE(result.said.size() == 1);
  CHECK(result.said[0].find("this hour has begun in another period") != std::string::npos);
}

TEST_CASE("the hour that clocks repeat in autumn is two hours") {
  const auto at = [](const char* start, const char* end) {
    return fmt::format(R"({{"startTime": "2026-11-01T01:00:00{}", "endTime": "2026-11-01T{}"}})", start, end);
  };
  const Read result = read(forecast({at("-04:00", "01:00:00-05:00"), at("-05:00", "02:00:00-05:00")}));
  CHECK(result.said.empty());
  REQUIRE(result.hours.size() == 2);
  CHECK(utc_minute(result.hours[1]) - utc_minute(result.hours[0]) == 60);
}

TEST_CASE("a forecast of days and nights is refused, a long period among hours set aside") {
  const Read days = read(forecast({hour(6, "", 12)}));
  CHECK(days.hours.empty());
  REQUIRE(days.said.size() == 1);
  CHECK(days.said[0] ==
        "h.json:1:28: this forecast has days and nights, not hours: get the hourly forecast of the place");
  const Read mixed = read(forecast({hour(6, ""), hour(7, "", 3)}));
  CHECK(mixed.hours.size() == 1);
  REQUIRE(mixed.said.size() == 1);
  CHECK(mixed.said[0].find("h.json:3:1: this period is not one hour long") == 0);
}

TEST_CASE("what is no forecast is an error with its place") {
  CHECK(read("{\"periods\": [\n{]}").said.at(0).find("h.json:2:") == 0);
  CHECK(read("[]").said.at(0).find("not a Weather Service forecast") != std::string::npos);
  CHECK(read(R"({"periods": []})").said.at(0).find("no hour of the forecast can be used") != std::string::npos);
}

TEST_CASE("the outline of the forecast's place comes with its hours, from the first polygon that can be read") {
  const auto outline = [](const std::string& geometry) {
    const std::string text = "{\"geometry\": " + geometry + ", " + forecast({hour(6, "")}).substr(1);
    MemorySource source{text};
    ProblemList problems{"h.json"};
    std::vector<OutlinePoint> found;
    CHECK(read_hourly_forecast(source, problems, &found).size() == 1);
    CHECK(problems.take().empty());
    return found;
  };
  const auto square = outline(
      R"({"type": "GeometryCollection", "geometries": [{"type": "Point", "coordinates": [-85, 30]},
          {"type": "Polygon", "coordinates": [[[-85, 30], [-84, 30], [-84, 31], [-85, 30]]]}]})");
  REQUIRE(square.size() == 4);
  CHECK(square[2].latitude == 31);
  CHECK(square[2].longitude == -84);
  CHECK(outline("null").empty());
  CHECK(outline(R"({"type": "Polygon", "coordinates": [[["a", 30]]]})").empty());
  CHECK(outline(R"({"type": "Polygon", "coordinates": []})").empty());
}

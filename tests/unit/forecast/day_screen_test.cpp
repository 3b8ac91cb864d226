// Hours against the shipped limits: each limit, each boundary, what is not known, daylight and runs.
#include <budclock/forecast/day_screen.hpp>
#include <budclock/rules/load.hpp>

#include <catch2/catch.hpp>
#include <cstdlib>

using namespace budclock;
using namespace budclock::forecast;
using rules::DayAction;
using weather::ForecastHour;

namespace {

const Coordinates k_wooster{40.78, -81.92};
const Day k_today = *parse_iso_day("2026-04-16");

const std::vector<rules::DayLimit>& shipped_limits() {
  static const std::vector<rules::DayLimit> limits = [] {
    Diagnostics found;
    rules::PestTable table = rules::load(rules::shipped_files(), found);
    REQUIRE(found.empty());
    return table.day_limits;
  }();
  return limits;
}

/// Three mild, dry days with a breeze, from 15 April midnight on, UTC-4.
std::vector<ForecastHour> mild_days() {
  std::vector<ForecastHour> hours;
  for (int i = 0; i < 72; ++i) {
    ForecastHour hour;
    hour.day = k_today + date::days{i / 24 - 1};
    hour.minute = i % 24 * 60;
    hour.offset_minutes = -240;
    hour.temperature = Temperature::fahrenheit(65);
    hour.humidity_percent = 60;
    hour.wind = weather::WindSpeed{5, 5};
    hour.rain_chance_percent = 5;
    hours.push_back(hour);
  }
  return hours;
}

DayScreen screen(DayAction action, const std::vector<ForecastHour>& hours) {
  return screen_days("Garden", k_wooster, action, shipped_limits(), hours, k_today);
}

/// All that is said of noon of today when that hour is changed.
template <class Change>
std::string noon(DayAction action, Change change, int at = 36) {
  auto hours = mild_days();
  change(hours[static_cast<std::size_t>(at)]);
  const DayScreen result = screen(action, hours);
  const JudgedHour& judged = result.hours.at(12);
  std::string said = judged.standing == HourStanding::ruled_out   ? "out"
                     : judged.standing == HourStanding::not_known ? "unknown"
                                                                  : "none";
  for (const std::size_t i : judged.ruled_out_by) said += " " + result.limits[i].id;
  for (const std::size_t i : judged.flagged_by) said += " mind " + result.limits[i].id;
  for (const std::size_t i : judged.not_known) said += " ? " + result.limits[i].id;
  return said;
}

auto fahrenheit(double degrees) {
  return [degrees](ForecastHour& hour) { hour.temperature = Temperature::fahrenheit(degrees); };
}
auto humid(double percent) {
  return [percent](ForecastHour& hour) { hour.humidity_percent = percent; };
}
auto windy(double low, double high) {
  return [low, high](ForecastHour& hour) { hour.wind = weather::WindSpeed{low, high}; };
}
auto rainy(double percent) {
  return [percent](ForecastHour& hour) { hour.rain_chance_percent = percent; };
}

}  // namespace

TEST_CASE("oil is ruled out by frost, cold and heat, and not on the bounds of the range") {
  CHECK(noon(DayAction::oil, fahrenheit(31.99)) == "out oil-freezing oil-cold");
  CHECK(noon(DayAction::oil, fahrenheit(32)) == "out oil-freezing oil-cold");
  CHECK(noon(DayAction::oil, fahrenheit(32.01)) == "out oil-cold");
  CHECK(noon(DayAction::oil, fahrenheit(49.99)) == "out oil-cold");
  CHECK(noon(DayAction::oil, fahrenheit(50)) == "none");
  CHECK(noon(DayAction::oil, fahrenheit(85)) == "none");
  CHECK(noon(DayAction::oil, fahrenheit(85.01)) == "out oil-heat");
  CHECK(noon(DayAction::contact, fahrenheit(20)) == "none");
}

TEST_CASE("oil is ruled out by humidity over 90 percent") {
  CHECK(noon(DayAction::oil, humid(90)) == "none");
  CHECK(noon(DayAction::oil, humid(90.5)) == "out oil-humidity");
  CHECK(noon(DayAction::contact, humid(100)) == "none");
}

TEST_CASE("sprays are ruled out by the upper end of the wind, soil treatments are not") {
  CHECK(noon(DayAction::contact, windy(5, 10)) == "none");
  CHECK(noon(DayAction::contact, windy(5, 10.5)) == "out wind");
  CHECK(noon(DayAction::oil, windy(15, 15)) == "out wind");
  CHECK(noon(DayAction::systemic, windy(15, 15)) == "none");
}

TEST_CASE("rain likely rules sprays out for the six hours up to it, its own among them") {
  CHECK(noon(DayAction::contact, rainy(49)) == "none");
  CHECK(noon(DayAction::contact, rainy(50)) == "out rain-ahead");
  CHECK(noon(DayAction::contact, rainy(50), 41) == "out rain-ahead");
  CHECK(noon(DayAction::contact, rainy(50), 42) == "none");
  CHECK(noon(DayAction::systemic, rainy(50), 41) == "none mind soil-rain");
  CHECK(noon(DayAction::systemic, rainy(50), 42) == "none");
}

TEST_CASE("foliage may be wet for oil in the six hours after rain was likely") {
  CHECK(noon(DayAction::oil, rainy(50), 35) == "none mind oil-wet");
  CHECK(noon(DayAction::oil, rainy(50), 30) == "none mind oil-wet");
  CHECK(noon(DayAction::oil, rainy(50), 29) == "none");
  CHECK(noon(DayAction::contact, rainy(50), 35) == "none");
}

TEST_CASE("freezing air is flagged for soil treatments") {
  CHECK(noon(DayAction::systemic, fahrenheit(32)) == "none mind soil-frost");
  CHECK(noon(DayAction::systemic, fahrenheit(32.01)) == "none");
}

TEST_CASE("what the forecast leaves out is not known, and no hour of none met") {
  CHECK(noon(DayAction::oil, [](ForecastHour& hour) { hour.temperature.reset(); }) ==
        "unknown ? oil-freezing ? oil-cold ? oil-heat");
  CHECK(noon(DayAction::oil, [](ForecastHour& hour) { hour.humidity_percent.reset(); }) == "unknown ? oil-humidity");
  CHECK(noon(DayAction::contact, [](ForecastHour& hour) { hour.wind.reset(); }) == "unknown ? wind");
  const auto no_rain = [](ForecastHour& hour) { hour.rain_chance_percent.reset(); };
  CHECK(noon(DayAction::contact, no_rain, 41) == "unknown ? rain-ahead");
  CHECK(noon(DayAction::oil, no_rain, 30) == "none ? oil-wet");
  CHECK(noon(DayAction::systemic, no_rain) == "none ? soil-rain");
  CHECK(noon(DayAction::contact, [](ForecastHour& hour) {
          hour.wind.reset();
          hour.rain_chance_percent = 80;
        }) == "out rain-ahead ? wind");
}

TEST_CASE("past the end of the forecast rain is not known") {
  const DayScreen result = screen(DayAction::contact, mild_days());
  REQUIRE(result.hours.size() == 48);
  CHECK(result.hours[42].standing == HourStanding::none_met);
  CHECK(result.hours[43].standing == HourStanding::not_known);
}

TEST_CASE("calm is flagged within two hours of sunrise and sunset, and at no other time") {
  auto hours = mild_days();
  for (ForecastHour& hour : hours) hour.wind = weather::WindSpeed{2.9, 2.9};
  const DayScreen result = screen(DayAction::contact, hours);
  std::vector<int> flagged;
  for (std::size_t i = 0; i < 24; ++i) {
    if (!result.hours[i].flagged_by.empty()) flagged.push_back(static_cast<int>(i));
  }
  // Sunrise 6:49, sunset 20:07.
  CHECK(flagged == std::vector<int>{4, 5, 6, 7, 8, 18, 19, 20, 21, 22});
  for (ForecastHour& hour : hours) hour.wind = weather::WindSpeed{3, 3};
  CHECK(screen(DayAction::contact, hours).hours[6].flagged_by.empty());
}

TEST_CASE("sunrise and sunset stand where almanacs have them") {
  // Greenwich, 2026-06-21: 4:43 and 21:21 BST; 2026-11-03: 6:57 and 16:29 GMT (from memory, to some minutes).
  const Coordinates greenwich{51.48, 0};
  const SunTimes june = sun_times(greenwich, *parse_iso_day("2026-06-21"), 60);
  CHECK(std::abs(june.rise - (4 * 60 + 43)) <= 4);
  CHECK(std::abs(june.set - (21 * 60 + 21)) <= 4);
  const SunTimes november = sun_times(greenwich, *parse_iso_day("2026-11-03"), 0);
  CHECK(std::abs(november.rise - (6 * 60 + 57)) <= 4);
  CHECK(std::abs(november.set - (16 * 60 + 29)) <= 4);
}

TEST_CASE("an hour is daylight when all of it is") {
  const DayScreen result = screen(DayAction::contact, mild_days());
  CHECK_FALSE(result.hours[6].daylight);
  CHECK(result.hours[7].daylight);
  CHECK(result.hours[19].daylight);
  CHECK_FALSE(result.hours[20].daylight);
}

TEST_CASE("the longest run of daylight hours comes first, broken by limits and by holes") {
  auto hours = mild_days();
  hours[24 + 10].wind = weather::WindSpeed{12, 12};
  hours.erase(hours.begin() + 48 + 12);
  const DayScreen result = screen(DayAction::systemic, hours);
  REQUIRE(result.runs.size() == 3);
  CHECK(result.runs[0].first == 7);
  CHECK(result.runs[0].count == 13);
  CHECK(result.runs[1].count == 7);  // 13:00 to 20:00 of the second day
  CHECK(result.runs[2].count == 5);  // 7:00 to 12:00
  const DayScreen spray = screen(DayAction::contact, hours);
  CHECK(spray.runs.at(0).first == 11);
  CHECK(spray.runs.at(0).count == 9);
}

TEST_CASE("a forecast that ended before today has no hours") {
  const auto result =
      screen_days("Garden", k_wooster, DayAction::oil, shipped_limits(), mild_days(), k_today + date::days{2});
  CHECK(result.hours.empty());
  CHECK(result.runs.empty());
}

TEST_CASE("what the site says of its soil is judged, and what it does not say stays out") {
  const auto standing = [](Ground ground) {
    const auto screen =
        screen_days("x", k_wooster, DayAction::systemic, shipped_limits(), mild_days(), k_today, std::move(ground));
    return screen.hours.front().standing;
  };
  CHECK(standing({}) == HourStanding::none_met);
  CHECK(standing({false, {}, {}}) == HourStanding::none_met);
  CHECK(standing({true, {}, {}}) == HourStanding::ruled_out);
}

TEST_CASE("an action is ruled out when every coming hour is, and not when one is not") {
  const auto ruled = [](std::vector<ForecastHour> hours) {
    return ruled_out(screen_days("x", k_wooster, DayAction::contact, shipped_limits(), hours, k_today));
  };
  std::vector<ForecastHour> windy = mild_days();
  for (ForecastHour& hour : windy) hour.wind = weather::WindSpeed{15, 20};
  const auto all = ruled(windy);
  REQUIRE(all);
  CHECK(all->bars);
  CHECK(all->actions == std::vector{rules::Action::contact, rules::Action::soap, rules::Action::foliar_systemic});
  CHECK(all->text == "wind over 10 mph");
  CHECK(all->until == windy.back().day);
  windy.back().wind = weather::WindSpeed{4, 5};
  CHECK(!ruled(windy));
  CHECK(!ruled(mild_days()));
  CHECK(!ruled({}));
}

TEST_CASE("a forecast says whose place it is by its outline") {
  const std::vector<Coordinates> square{{40, -82}, {40, -81}, {41, -81}, {41, -82}};
  CHECK(elsewhere_text(square, {40.5, -81.5}).empty());
  CHECK(elsewhere_text({}, {40.5, -81.5}).empty());
  CHECK(elsewhere_text(square, {41.5, -81}).find("its nearest corner lies 56 km from the site") != std::string::npos);
}

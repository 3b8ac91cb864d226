#include <budclock/core/temperature.hpp>

#include <catch2/catch.hpp>
#include <type_traits>
#include <utility>

using budclock::DegreeDays;
using budclock::Temperature;
using budclock::TemperatureDifference;
using budclock::TemperatureUnit;

namespace {

template <class A, class B>
concept can_add = requires(A a, B b) {
  a + b;
};

// Two points have no sum; a point and a difference have one. The twin line differs by one word and must hold, so a
// typing slip cannot make the first line true by accident.
static_assert(!can_add<Temperature, Temperature>);
static_assert(can_add<Temperature, TemperatureDifference>);
static_assert(!can_add<Temperature, DegreeDays>);
static_assert(can_add<DegreeDays, DegreeDays>);
static_assert(!can_add<TemperatureDifference, DegreeDays>);
static_assert(
    std::is_same_v<decltype(std::declval<Temperature>() - std::declval<Temperature>()), TemperatureDifference>);

}  // namespace

TEST_CASE("a temperature point converts with the offset of 32") {
  CHECK(Temperature::fahrenheit(50) == Temperature::celsius(10));
  CHECK(Temperature::fahrenheit(32).ticks() == 0);
  CHECK(Temperature::celsius(-40) == Temperature::fahrenheit(-40));
}

TEST_CASE("a temperature difference and a degree-day sum only scale") {
  CHECK(TemperatureDifference::fahrenheit(18) == TemperatureDifference::celsius(10));
  CHECK(DegreeDays::fahrenheit_days(180) == DegreeDays::celsius_days(100));
}

TEST_CASE("every hundredth of a degree of both scales lies on the grid and reads back exactly") {
  for (int hundredths = -12000; hundredths <= 14000; ++hundredths) {
    const Temperature f = Temperature::hundredths_fahrenheit(hundredths);
    const Temperature c = Temperature::hundredths_celsius(hundredths);
    REQUIRE(f == Temperature::fahrenheit(f.fahrenheit()));
    REQUIRE(c == Temperature::celsius(c.celsius()));
    REQUIRE(f.ticks() == (hundredths - 3200) * 5);
    REQUIRE(c.ticks() == hundredths * 9);
  }
}

TEST_CASE("float noise in a record rounds to the hundredth it stands for") {
  CHECK(Temperature::fahrenheit(71.96000000000001) == Temperature::hundredths_fahrenheit(7196));
  CHECK(Temperature::fahrenheit(60.980000000000004) == Temperature::hundredths_fahrenheit(6098));
}

TEST_CASE("text rounds half up once, from the grid") {
  // 62.25 °F-days is exact; a double of it printed with %.1f gives 62.2.
  CHECK(to_text(DegreeDays::fahrenheit_days(62.25), TemperatureUnit::fahrenheit, 1) == "62.3");
  CHECK(to_text(DegreeDays::fahrenheit_days(0.05), TemperatureUnit::fahrenheit, 1) == "0.1");
  CHECK(to_text(DegreeDays::fahrenheit_days(-0.05), TemperatureUnit::fahrenheit, 1) == "-0.1");
  CHECK(to_text(DegreeDays::fahrenheit_days(-0.04), TemperatureUnit::fahrenheit, 1) == "0.0");
  CHECK(to_text(DegreeDays::celsius_days(100), TemperatureUnit::fahrenheit, 3) == "180.000");
  CHECK(to_text(Temperature::celsius(-17.8), TemperatureUnit::fahrenheit, 2) == "-0.04");
  CHECK(to_text(Temperature::celsius(10), TemperatureUnit::fahrenheit, 0) == "50");
  CHECK(to_text(TemperatureDifference::celsius(10), TemperatureUnit::fahrenheit, 1) == "18.0");
}

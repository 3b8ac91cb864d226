// The shipped record and the shipped pests, for tests of forecasts.
#pragma once

#include <budclock/rules/load.hpp>
#include <budclock/weather/reader.hpp>

#include <catch2/catch.hpp>
#include <fstream>
#include <string>

namespace budclock {

/// Wooster, Ohio, 1985 to 2014; the maximum of 15 March 1989 is missing.
inline const weather::DailySeries& wooster() {
  static const weather::DailySeries days = [] {
    std::ifstream in{std::string{BUDCLOCK_SOURCE_DIR} + "/examples/weather/wooster_oh_1985-2014.csv", std::ios::binary};
    REQUIRE(in);
    weather::StreamSource source{in};
    weather::DailySeries series;
    weather::read_weather(source, "wooster", {}, [&](auto&& station) { series = std::move(station.days); });
    return series;
  }();
  return days;
}

inline const rules::PestTable& shipped() {
  static const rules::PestTable table = [] {
    Diagnostics diagnostics;
    return rules::load(rules::shipped_files(), diagnostics);
  }();
  return table;
}

}  // namespace budclock

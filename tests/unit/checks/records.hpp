// The shipped table, and the weather records that stand in the repository.
#pragma once

#include <budclock/forecast/evaluate.hpp>
#include <budclock/rules/load.hpp>
#include <budclock/weather/reader.hpp>

#include <catch2/catch.hpp>
#include <fstream>
#include <string>
#include <vector>

namespace records {

inline budclock::Day day(const char* text) { return budclock::parse_iso_day(text).value(); }

inline const budclock::rules::PestTable& shipped() {
  static const budclock::rules::PestTable table = [] {
    budclock::Diagnostics diagnostics;
    return budclock::rules::load(budclock::rules::shipped_files(), diagnostics);
  }();
  return table;
}

struct Record {
  std::string name;
  budclock::weather::DailySeries days;
};

inline Record read(const std::string& name, const std::string& path) {
  std::ifstream in{path, std::ios::binary};
  INFO(path);
  REQUIRE(in);
  budclock::weather::StreamSource source{in};
  Record record{name, {}};
  budclock::weather::read_weather(source, path, {}, [&](auto&& station) { record.days = std::move(station.days); });
  REQUIRE(record.days.size() > 10'000);
  return record;
}

/// Wooster and the stations of tests/data/weather/ohio, 1985 to 2014.
inline const std::vector<Record>& ohio() {
  static const std::vector<Record> all = [] {
    std::vector<Record> found;
    for (const std::string name : {"circleville", "findlay", "hiram", "warren"}) {
      found.push_back(read(name, std::string{BUDCLOCK_TEST_DATA} + "/weather/ohio/" + name + "_oh_1985-2014.csv"));
    }
    found.push_back(read("wooster", std::string{BUDCLOCK_SOURCE_DIR} + "/examples/weather/wooster_oh_1985-2014.csv"));
    return found;
  }();
  return all;
}

/// All pests of the shipped table on one day of a record.
inline budclock::forecast::SiteForecast forecast_on(const Record& record, budclock::Day today) {
  budclock::forecast::Question question{.site = record.name, .pests = {}, .method = {}};
  for (const auto& pest : shipped().pests) question.pests.push_back(&pest);
  return evaluate(question, {budclock::weather::until(record.days, today), today});
}

}  // namespace records

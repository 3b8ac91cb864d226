#include <budclock/weather/station_builder.hpp>

#include "reading.hpp"

#include <catch2/catch.hpp>
#include <fmt/format.h>

using namespace budclock;
using namespace budclock::weather;
using budclock::weather::test::days_text;
using budclock::weather::test::Lines;

namespace {

constexpr auto k_f = TemperatureUnit::fahrenheit;
const Day k_day = *make_day(2014, 4, 16);

DayValue degrees(int value) { return {Temperature::hundredths_fahrenheit(value * 100), Origin::observed}; }

/// Feeds a collector; keeps what it hands on.
struct Collected {
  ProblemList problems{"w.csv"};
  std::vector<std::string> ids;
  std::size_t days = 0;
  StationCollector collector{problems, [this](StationRecord&& record) {
                               ids.push_back(record.id);
                               days += record.days.size();
                             }};

  void add_run(const std::string& id, std::size_t count, int first_day = 0) {
    for (std::size_t i = 0; i < count; ++i) {
      StationBuilder* const builder = collector.builder_of(id, ++line);
      const Day day = k_day + date::days{first_day + static_cast<int>(i)};
      if (builder != nullptr) builder->add(day, degrees(40), degrees(60), line, k_f, problems);
    }
  }
  std::size_t line = 0;
};

}  // namespace

TEST_CASE("days may come in any order") {
  ProblemList problems{"w.csv"};
  for (const std::vector<int>& order : {std::vector{0, 1, 2, 3}, {3, 2, 1, 0}, {2, 0, 3, 1}}) {
    StationBuilder builder{"A"};
    std::size_t line = 0;
    for (const int i : order) builder.add(k_day + date::days{i}, degrees(40 + i), degrees(60), ++line, k_f, problems);
    CHECK(days_text(builder.finish(k_f, problems).days) ==
          Lines{"2014-04-16 60/40", "2014-04-17 60/41", "2014-04-18 60/42", "2014-04-19 60/43"});
  }
  CHECK(problems.take().empty());
}

TEST_CASE("days between rows are absent") {
  ProblemList problems{"w.csv"};
  StationBuilder builder{"A"};
  builder.add(k_day + date::days{3}, degrees(40), degrees(60), 1, k_f, problems);
  builder.add(k_day, degrees(41), degrees(61), 2, k_f, problems);
  CHECK(days_text(builder.finish(k_f, problems).days) ==
        Lines{"2014-04-16 61/41", "2014-04-17 -/-", "2014-04-18 -/-", "2014-04-19 60/40"});
}

TEST_CASE("five centuries can be walked backwards and from both ends without quadratic work") {
  ProblemList problems{"w.csv"};
  StationBuilder builder{"A"};
  const Day first = *make_day(1700, 1, 1);
  const Day last = *make_day(2200, 12, 31);
  for (Day day = last; day >= first; day -= date::days{1}) builder.add(day, degrees(40), degrees(60), 1, k_f, problems);
  StationBuilder both{"B"};
  const Day middle = *make_day(1950, 1, 1);
  for (int i = 0; i < 50'000; ++i) {
    both.add(middle - date::days{i + 1}, degrees(40), degrees(60), 1, k_f, problems);
    both.add(middle + date::days{i}, degrees(40), degrees(60), 1, k_f, problems);
  }
  CHECK(builder.finish(k_f, problems).days.size() == 182'986);
  CHECK(both.finish(k_f, problems).days.size() == 100'000);
  CHECK(problems.take().empty());
}

TEST_CASE("stations are handed on in the order in which they come, each once") {
  Collected collected;
  collected.add_run("B", 2);
  collected.add_run("A", 2);
  collected.add_run("B", 2, 2);
  collected.add_run("C", 1);
  collected.collector.finish();
  CHECK(collected.ids == Lines{"B", "A", "C"});
  CHECK(collected.days == 7);
  CHECK(collected.collector.stations() == 3);
  CHECK(collected.problems.take().empty());
}

TEST_CASE("of a file grouped by station a bounded number of days is held") {
  Collected collected;
  for (int i = 0; i < 40; ++i) collected.add_run(fmt::format("S{}", i), 11'000);
  CHECK(collected.ids.size() == 12);  // 39 stations of 11,000 days, less 300,000 days
  collected.collector.finish();
  CHECK(collected.ids.size() == 40);
  CHECK(collected.days == 440'000);
}

TEST_CASE("a station that comes back after it was handed on is set aside, with one fault for each run of rows") {
  Collected collected;
  for (int i = 0; i < 40; ++i) collected.add_run(fmt::format("S{}", i), 11'000);
  collected.add_run("S0", 3, 11'000);
  collected.add_run("S39", 1, 11'000);
  collected.collector.finish();
  CHECK(collected.days == 440'001);
  const Diagnostics said = collected.problems.take();
  REQUIRE(said.size() == 1);
  CHECK(to_text(said[0]) ==
        "w.csv:440001: station S0 comes back here, long after its other rows; these rows are set aside: sort the file "
        "by station, or read it with --station");
}

TEST_CASE("a file that is not grouped by station is held whole") {
  Collected collected;
  for (int day = 0; day < 400; ++day) {
    for (int i = 0; i < 1'000; ++i) collected.add_run(fmt::format("S{}", i), 1, day);
  }
  CHECK(collected.ids.empty());
  collected.collector.finish();
  CHECK(collected.ids.size() == 1'000);
  CHECK(collected.days == 400'000);
  CHECK(collected.problems.take().empty());
}

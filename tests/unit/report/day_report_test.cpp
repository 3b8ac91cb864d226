// The hours of a day in the field, in words.
#include <budclock/report/day_report.hpp>
#include <budclock/rules/dose.hpp>
#include <budclock/rules/load.hpp>

#include <catch2/catch.hpp>
#include <fstream>
#include <sstream>

using namespace budclock;

namespace {

const rules::PestTable& table() {
  static const rules::PestTable shipped = [] {
    Diagnostics found;
    return rules::load(rules::shipped_files(), found);
  }();
  return shipped;
}

forecast::DayScreen invented_week(rules::DayAction action) {
  std::ifstream file{BUDCLOCK_TEST_DATA "/weather/invented_week_hourly.json"};
  weather::StreamSource source{file};
  weather::ProblemList problems{"week"};
  const auto hours = weather::read_hourly_forecast(source, problems);
  REQUIRE(hours.size() == 163);
  return forecast::screen_days("Gar\x1b[den", {40.78, -81.92}, action, table().day_limits, hours,
                               *parse_iso_day("2026-04-13"));
}

}  // namespace

TEST_CASE("no line of a day in the field is wider than a phone, and none drives a terminal") {
  for (const auto& [name, action] : rules::k_day_action_names) {
    INFO(name);
    std::istringstream text{report::day_text(invented_week(action), {}, table(), {.width = 40, .colour = false})};
    for (std::string line; std::getline(text, line);) {
      INFO(line);
      const bool one_word = line.find_first_of(' ', line.find_first_not_of(' ')) == std::string::npos;
      CHECK((line.size() <= 40 || one_word));
      CHECK(line.find('\x1b') == std::string::npos);
    }
  }
}

TEST_CASE("no day in the field reads as permission or as a dose, in any format") {
  for (const auto& [name, action] : rules::k_day_action_names) {
    INFO(name);
    const forecast::DayScreen week = invented_week(action);
    for (const std::string& text :
         {report::day_text(week, {}, table(), {}), report::day_csv(week, {}), report::day_json(week, {})}) {
      CHECK(rules::find_dose(text).value_or("") == "");
      for (const char* word : {"OK to", "ok to", "safe to", "may spray", "can spray"}) {
        INFO(word);
        CHECK(text.find(word) == std::string::npos);
      }
    }
  }
}

#include <budclock/document/json_tree.hpp>
#include <budclock/report/yearline_report.hpp>

#include "records.hpp"

#include <algorithm>
#include <sstream>

using namespace budclock;

namespace {

const records::Record& wooster() { return records::ohio().back(); }

forecast::YearLine line_on(const char* today) {
  const Day day = records::day(today);
  const forecast::SiteWeather weather{weather::until(wooster().days, day), day};
  return year_line(records::forecast_on(wooster(), day), records::shipped().companions, weather);
}

std::vector<std::string> lines_of(const std::string& text) {
  std::vector<std::string> lines;
  std::istringstream in{text};
  for (std::string line; std::getline(in, line);) lines.push_back(line);
  return lines;
}

}  // namespace

TEST_CASE("the time line in words goes through the year by half-month, each with its own headings in order") {
  const std::string text = report::yearline_text(line_on("2014-04-20"), records::shipped(), {});
  const std::size_t half = text.find("\nApr 16 to Apr 30 (today is Apr 20)\n");
  const std::size_t next = text.find("\nMay 1 to May 15\n");
  REQUIRE(half != std::string::npos);
  REQUIRE(next > half);
  const std::string april = text.substr(half, next - half);
  const std::size_t pests = april.find("\n  Pests\n");
  const std::size_t others = april.find("\n  Other pests\n");
  const std::size_t blooms = april.find("\n  Blooms to check the sums against\n");
  CHECK(pests < others);
  CHECK(others < blooms);
  CHECK(blooms != std::string::npos);
  CHECK(april.find("    Apr 18  Callery pear ('Bradford'): first bloom; passed; 50 degree-days F") !=
        std::string::npos);
  CHECK(text.find("\nWithout a date this year\n") != std::string::npos);
  // Sources may hold a locator longer than a line.
  for (const std::string& line : lines_of(text.substr(0, text.find("\nSources\n")))) CHECK(line.size() <= 80);
}

TEST_CASE("an event is past before today and ahead after it, through the year") {
  for (const char* today : {"2014-03-01", "2014-06-15", "2014-10-01"}) {
    const forecast::YearLine line = line_on(today);
    CHECK(line.events.size() > 80);
    Day before = records::day("1900-01-01");
    for (const forecast::YearEvent& event : line.events) {
      INFO(today << " " << event.of << " " << event.what);
      const Day half = forecast::half_month_of(*event.day);
      CHECK(before <= half);
      before = half;
      if (event.standing == forecast::Standing::passed) CHECK(*event.day <= line.today);
      if (event.standing == forecast::Standing::ahead && event.published != nullptr) {
        CHECK(*event.summary.late > line.today);
      }
    }
  }
}

TEST_CASE("CSV and JSON of the time line hold every event once, in the same order") {
  const forecast::YearLine line = line_on("2014-05-10");
  const std::size_t count = line.events.size() + line.undated.size();
  const std::vector<std::string> rows = lines_of(report::yearline_csv(line));
  REQUIRE(rows.size() == count + 1);
  const auto columns = std::count(rows[0].begin(), rows[0].end(), ',');
  CHECK(columns == 19);

  Diagnostics diagnostics;
  const auto json = document::parse_json(report::yearline_json(line, records::shipped()), "", diagnostics);
  REQUIRE(json);
  const auto& events = json->find("events")->items;
  REQUIRE(events.size() == count);
  for (std::size_t i = 0; i < count; ++i) {
    const std::string start = "wooster,2014-05-10,";
    CHECK(rows[i + 1].starts_with(start));
    const std::string key = "," + events[i].find("of")->text + ",";
    CHECK(rows[i + 1].find(key) != std::string::npos);
    for (const auto& source : events[i].find("sources")->items) {
      CHECK(json->find("sources")->find(source.text) != nullptr);
    }
  }
}

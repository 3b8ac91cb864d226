// The sums beside the calendar: tests/data/rules/calendar_checks.csv names a figure, the days that published sheets
// or common practice give for the same event, and the verdict expected of the comparison, written down before any
// sum was run. The last columns are what thirty years at five Ohio stations then gave: each station's median day, and
// the verdict on the middle station. Where `found` is not `expected`, the expectation was wrong and `remark` says so.
#include "records.hpp"

#include <algorithm>
#include <fmt/format.h>
#include <map>
#include <optional>
#include <sstream>
#include <variant>

using namespace budclock;

namespace {

using Cells = std::map<std::string, std::string>;

/// Cells of one CSV line; quotes around a cell may hold commas.
std::vector<std::string> split(const std::string& line) {
  std::vector<std::string> cells(1);
  bool quoted = false;
  for (const char c : line) {
    if (c == '"') {
      quoted = !quoted;
    } else if (c == ',' && !quoted) {
      cells.emplace_back();
    } else {
      cells.back() += c;
    }
  }
  return cells;
}

std::vector<Cells> checks() {
  std::ifstream in{std::string{BUDCLOCK_TEST_DATA} + "/rules/calendar_checks.csv"};
  std::string line;
  REQUIRE(std::getline(in, line));
  const std::vector<std::string> header = split(line);
  std::vector<Cells> rows;
  while (std::getline(in, line)) {
    const std::vector<std::string> cells = split(line);
    INFO(line);
    REQUIRE(cells.size() == header.size());
    Cells row;
    for (std::size_t i = 0; i < cells.size(); ++i) row[header[i]] = cells[i];
    rows.push_back(std::move(row));
  }
  return rows;
}

/// A figure of the table with the count it was made with.
struct Figure {
  rules::DegreeDayCue cue;
  rules::Count count;
};

Figure figure(const std::string& of, const std::string& id) {
  if (const rules::Pest* pest = records::shipped().find_pest(of)) {
    const rules::Trigger* trigger = find_trigger(*pest, id);
    REQUIRE(trigger);
    const auto cue = std::get<rules::DegreeDayCue>(trigger->cue);
    return {cue, *find_count(*pest, cue.count)};
  }
  const rules::Companion* companion = records::shipped().find_companion(of);
  REQUIRE(companion);
  for (const rules::CompanionEvent& event : companion->events) {
    if (event.id == id) return {event.cue, event.count};
  }
  FAIL("no event " << id << " of " << of);
  return {};
}

/// The median day of the year on which the sum is reached, all years of a record in one; nothing when fewer than half
/// the years reach it. A year whose date rests on days that no other year can fill says nothing and does not count.
std::optional<std::string> median_day(const Figure& figure, const records::Record& record) {
  std::vector<int> days;
  int years = 0;
  for (int year = 1985; year <= 2014; ++year) {
    const Day last = Day{date::year{year} / 12 / 31};
    const forecast::SiteWeather weather{weather::until(record.days, last), last};
    const auto season =
        run_season(rules::formula(figure.count), weather, forecast::season_on(figure.count.start.value, last), {});
    const forecast::Spread spread = first_reached(season, figure.cue.sum);
    if (!spread.known()) continue;
    ++years;
    const auto reached = spread.dates.front();
    if (reached) days.push_back(static_cast<int>((*reached - Day{date::year{year} / 1 / 1}).count()));
  }
  std::sort(days.begin(), days.end());
  const auto middle = static_cast<std::size_t>((years - 1) / 2);  // of an even number, the earlier of the middle two
  if (middle >= days.size()) return std::nullopt;
  return iso(month_day_of(Day{date::year{2013} / 1 / 1} + date::days{days[middle]}));
}

std::string verdict(const std::optional<std::string>& day, const std::string& from, const std::string& to) {
  if (!day) return "not reached";
  return *day < from ? "early" : *day > to ? "late" : "agrees";
}

}  // namespace

TEST_CASE("thirty years at five Ohio stations give the days and verdicts written beside the calendar") {
  int tested = 0;
  for (const Cells& row : checks()) {
    if (row.at("expected") == "calendar only") continue;
    ++tested;
    INFO(row.at("of") << " " << row.at("figure_id") << " " << row.at("from") << " to " << row.at("to"));
    const Figure asked = figure(row.at("of"), row.at("figure_id"));
    CHECK(asked.cue.printed == row.at("printed"));
    std::vector<std::optional<std::string>> medians;
    for (const records::Record& record : records::ohio()) {
      const auto day = median_day(asked, record);
      medians.push_back(day);
      CHECK(record.name + " " + day.value_or("not reached") == record.name + " " + row.at(record.name));
    }
    std::sort(medians.begin(), medians.end(),
              [](const auto& a, const auto& b) { return a.value_or("99-99") < b.value_or("99-99"); });
    CHECK(verdict(medians.at(2), row.at("from"), row.at("to")) == row.at("found"));
  }
  CHECK(tested == 15);
}

TEST_CASE("where an expectation was wrong the table says why") {
  for (const Cells& row : checks()) {
    INFO(row.at("of") << " " << row.at("figure_id"));
    CHECK((row.at("found") == row.at("expected") || !row.at("remark").empty()));
  }
}

TEST_CASE("a stage that only the calendar dates rests on no degree-day figure") {
  const auto site = records::forecast_on(records::ohio().back(), records::day("2014-05-01"));
  int found = 0;
  for (const Cells& row : checks()) {
    if (row.at("expected") != "calendar only") continue;
    for (const auto& pest : site.pests) {
      for (const auto& stage : pest.stages) {
        if (pest.pest->id != row.at("of") || stage.stage->id != row.at("figure_id")) continue;
        CHECK(stage.evidence == forecast::Evidence::calendar);
        ++found;
      }
    }
  }
  CHECK(found == 1);
}

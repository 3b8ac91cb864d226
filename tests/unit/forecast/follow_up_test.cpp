// The visits that actions bring, on weather whose sums can be counted on fingers: ten degree-days a day from New Year.
#include "invented.hpp"

#include <catch2/catch.hpp>

namespace {

using namespace invented;

const char* const k_garden = "made-up garden";

journal::Sighting seen_on(const char* date, const char* pest_id = "pest") {
  journal::Sighting row;
  row.date = day(date);
  row.site = k_garden;
  row.pest = pest_id;
  return row;
}

journal::ActionTaken done_on(const char* date, Action action = Action::oil) {
  journal::ActionTaken row;
  row.date = day(date);
  row.site = k_garden;
  row.pest = "pest";
  row.action = action;
  return row;
}

/// Looked for from Apr 10 (day 100) to May 20 (day 140); galls on May 30 (day 150).
rules::Pest galled() {
  rules::Pest made = pest({by_sum("opens", 1000), by_sum("closes", 1400), by_sum("galls", 1500)},
                          {window("look", WindowKind::look, "opens", "closes", Action::look)});
  made.windows[0].name = "look for nymphs";
  made.follow_up.emplace().success.text = "Flat leaves.";
  return made;
}

PestForecast answer(const rules::Pest& made, const char* today, std::vector<journal::ActionTaken> actions,
                    std::vector<journal::Sighting> sightings = {}) {
  Question question{.site = k_garden, .pests = {&made}, .method = {}};
  question.actions = std::move(actions);
  question.sightings = std::move(sightings);
  return evaluate(question, as_of(today)).pests.front();
}

FollowUp visit(const rules::Pest& made, const char* today, const char* done,
               std::vector<journal::Sighting> sightings = {}) {
  const PestForecast forecast = answer(made, today, {done_on(done)}, std::move(sightings));
  REQUIRE(forecast.follow_ups.size() == 1);
  return forecast.follow_ups.front();
}

/// Counted from New Year without a calendar: the n-th day of the year.
Day nth_day(int year, int n) { return Day{date::year{year} / 1 / 1} + date::days{n - 1}; }

}  // namespace

TEST_CASE("where the page gives no date the visit takes what is left of the next scouting window") {
  const rules::Pest made = galled();
  const FollowUp before = visit(made, "2014-03-20", "2014-03-10");
  CHECK_FALSE(before.page_gives_date);
  CHECK(before.at == "look for nymphs");
  CHECK(before.from == nth_day(2014, 100));
  CHECK(before.until == nth_day(2014, 140));
  CHECK(before.state == VisitState::ahead);
  const FollowUp inside = visit(made, "2014-05-02", "2014-05-01");
  CHECK(inside.from == day("2014-05-02"));
  CHECK(inside.until == day("2014-05-20"));
  CHECK(inside.state == VisitState::due);
}

TEST_CASE("a scouting window with less than a week left after the action leaves the visit to next season") {
  CHECK(visit(galled(), "2014-05-16", "2014-05-13").until == day("2014-05-20"));
  const FollowUp late = visit(galled(), "2014-05-16", "2014-05-14");
  CHECK(late.state == VisitState::not_known);
  CHECK(late.next_season);
  CHECK_FALSE(late.from);
}

TEST_CASE("a visit at a trigger begins on its early bound and is due until a week after the late one") {
  rules::Pest made = galled();
  made.follow_up->trigger = "galls";
  const FollowUp ahead = visit(made, "2014-04-20", "2014-04-15");
  CHECK(ahead.page_gives_date);
  CHECK(ahead.at == "galls");
  CHECK(ahead.from == nth_day(2014, 150));
  CHECK(ahead.until == nth_day(2014, 157));
  CHECK(ahead.date.likely == nth_day(2014, 150));
  CHECK(visit(made, "2014-06-06", "2014-04-15").state == VisitState::due);
  CHECK(visit(made, "2014-06-07", "2014-04-15").state == VisitState::missed);
}

TEST_CASE("doubt in a trigger's date makes its visit as wide") {
  // Nine past years: in 2006 to 2008 every other degree is warmer, so that members differ.
  SiteWeather weather = as_of("2014-03-01", "2004-01-01");
  for (std::size_t i = 0; i < weather.days.size(); ++i) {
    const int year = year_of(weather.days.first + date::days{static_cast<int>(i)});
    if (year < 2014) weather.days.tmax[i].value = Temperature::fahrenheit(60 + (year - 2009) * 2);
  }
  rules::Pest made = galled();
  made.follow_up->trigger = "galls";
  Question question{.site = k_garden, .pests = {&made}, .method = {}};
  question.actions = {done_on("2014-02-20")};
  const PestForecast forecast = evaluate(question, weather).pests.front();
  const FollowUp& visit = forecast.follow_ups.at(0);
  const auto& galls = forecast.stages[0].begins[2].summary;
  REQUIRE(galls.early < galls.late);
  CHECK(visit.from == galls.early);
  CHECK(visit.until == *galls.late + date::days{7});
}

TEST_CASE("a trigger that had passed when the action was done comes again next season") {
  rules::Pest made = galled();
  made.follow_up->trigger = "galls";
  CHECK(visit(made, "2014-06-10", "2014-05-29").from == nth_day(2014, 150));
  CHECK(visit(made, "2014-06-10", "2014-05-30").next_season);
  // Nobody looked since, so it is told in the season after; and no longer once somebody has.
  CHECK(visit(made, "2015-03-01", "2014-05-30").from == nth_day(2015, 150));
  CHECK(answer(made, "2015-03-01", {done_on("2014-05-30")}, {seen_on("2014-06-20")}).follow_ups.empty());
  CHECK(answer(made, "2016-03-01", {done_on("2014-05-30")}).follow_ups.empty());
}

TEST_CASE("a page that puts the visit into the next season gives it no date in this one") {
  rules::Pest made = galled();
  made.follow_up->trigger = "galls";
  made.follow_up->next_season = true;
  CHECK(visit(made, "2014-04-10", "2014-04-01").next_season);
  CHECK_FALSE(visit(made, "2014-06-10", "2014-04-01", {seen_on("2014-06-01")}).settled);
  const FollowUp next = visit(made, "2015-04-10", "2014-04-01", {seen_on("2014-06-01")});
  CHECK(next.from == nth_day(2015, 150));
  CHECK(next.state == VisitState::ahead);
}

TEST_CASE("a page that gives nothing but the season leaves the visit to that season's first scouting window") {
  rules::Pest made = galled();
  made.follow_up->next_season = true;
  CHECK(visit(made, "2014-03-20", "2014-03-10").next_season);
  CHECK(visit(made, "2015-03-20", "2014-03-10").from == nth_day(2015, 100));
}

TEST_CASE("a page's own days and calendar range date the visit") {
  rules::Pest made = galled();
  made.follow_up->days = 14;
  CHECK(visit(made, "2014-04-02", "2014-04-01").from == day("2014-04-15"));
  CHECK(visit(made, "2014-04-02", "2014-04-01").until == day("2014-04-22"));
  CHECK(visit(made, "2015-01-02", "2014-12-28").from == day("2015-01-11"));
  made.follow_up->days.reset();
  made.follow_up->calendar = rules::CalendarCue{date::June / 21, date::June / 30};
  CHECK(visit(made, "2014-04-02", "2014-04-01").from == day("2014-06-21"));
  CHECK(visit(made, "2014-04-02", "2014-04-01").until == day("2014-07-07"));
}

TEST_CASE("a record of the pest from the visit's first day on settles it, an earlier or another's does not") {
  rules::Pest made = galled();
  made.follow_up->trigger = "galls";
  CHECK(visit(made, "2014-06-20", "2014-04-15", {seen_on("2014-05-29")}).state == VisitState::missed);
  CHECK(visit(made, "2014-06-20", "2014-04-15", {seen_on("2014-05-30", "other")}).state == VisitState::missed);
  const FollowUp made_late = visit(made, "2014-06-20", "2014-04-15", {seen_on("2014-06-12"), seen_on("2014-06-10")});
  CHECK(made_late.state == VisitState::settled);
  CHECK(made_late.settled == day("2014-06-10"));
  CHECK(visit(made, "2014-06-11", "2014-04-15", {seen_on("2014-06-12")}).state == VisitState::missed);
}

TEST_CASE("each kind of action on each day brings one visit, whatever the number of rows") {
  const PestForecast forecast = answer(galled(), "2014-04-20",
                                       {done_on("2014-04-12"), done_on("2014-04-05"), done_on("2014-04-12"),
                                        done_on("2014-04-12", Action::prune), done_on("2014-04-21")});
  REQUIRE(forecast.follow_ups.size() == 3);
  CHECK(forecast.follow_ups[0].done == day("2014-04-05"));
  CHECK(forecast.follow_ups[1].action == Action::oil);
  CHECK(forecast.follow_ups[2].action == Action::prune);
}

TEST_CASE("a scouting window that closed without a record is a missed look, where a log is kept") {
  const rules::Pest made = galled();
  const auto missed = [&](const char* today, std::vector<journal::Sighting> rows) {
    return answer(made, today, {}, std::move(rows)).windows[0].missed_look;
  };
  CHECK(missed("2014-05-21", {seen_on("2014-03-01", "other")}));
  CHECK_FALSE(missed("2014-05-20", {seen_on("2014-03-01", "other")}));
  CHECK(missed("2014-05-21", {seen_on("2013-03-01")}));
  CHECK_FALSE(missed("2014-05-21", {}));
  CHECK_FALSE(missed("2014-05-21", {seen_on("2012-03-01")}));
  CHECK_FALSE(missed("2014-05-21", {seen_on("2014-04-10")}));
  CHECK_FALSE(missed("2014-05-21", {seen_on("2014-05-20")}));
  CHECK(missed("2014-05-21", {seen_on("2014-04-09")}));
  // A log that begins after the window has missed nothing.
  CHECK_FALSE(missed("2014-05-25", {seen_on("2014-05-21", "other")}));
}

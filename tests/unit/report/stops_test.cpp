#include <budclock/report/stops.hpp>

#include "built_site.hpp"

#include <catch2/catch.hpp>
#include <map>

using namespace budclock;
using namespace budclock::report;
using forecast::WindowState;
using rules::WindowKind;

namespace {

/// A stop without lines; the planner does not look at them but for their evidence.
Stop stop(const std::string& site, double east, const char* from, const char* by) {
  Stop made;
  made.site = site;
  made.place = {40, -82 + east};
  made.from = day(from);
  if (*by != '\0') made.by = day(by);
  return made;
}

/// "A: 04-10/1/1" for each stop that fits, "B: left" for others.
std::vector<std::string> planned(std::vector<Stop> stops, const Crews& crews) {
  std::vector<std::string> texts;
  for (const Stop& each : plan_stops(std::move(stops), k_today, crews).stops) {
    texts.push_back(each.site + ": " +
                    (each.day
                         ? iso(*each.day).substr(5) + "/" + std::to_string(each.crew) + "/" + std::to_string(each.order)
                         : "left"));
  }
  return texts;
}

using Texts = std::vector<std::string>;

/// Two stops a day and crew, close to each other.
const Crews k_two_a_day{.count = 1, .hours = 2.5, .days = 2, .stop_hours = 1, .km_per_hour = 1000, .area_km = 10};

}  // namespace

TEST_CASE("what ends first is visited first, and what finds no room is left") {
  const std::vector<Stop> stops{stop("late", 0, "2012-04-10", "2012-04-20"),
                                stop("today", 0, "2012-04-10", "2012-04-10"),
                                stop("soon", 0, "2012-04-10", "2012-04-11"),
                                stop("soon too", 0, "2012-04-10", "2012-04-11"), stop("no end", 0, "2012-04-10", "")};
  CHECK(planned(stops, k_two_a_day) ==
        Texts{"today: 04-10/1/1", "soon: 04-10/1/2", "soon too: 04-11/1/1", "late: 04-11/1/2", "no end: left"});
}

TEST_CASE("no stop is put before it is due or after its end") {
  const std::vector<Stop> stops{stop("tomorrow", 0, "2012-04-11", "2012-04-12"),
                                stop("over", 0, "2012-04-10", "2012-04-09")};
  CHECK(planned(stops, k_two_a_day) == Texts{"tomorrow: 04-11/1/1", "over: left"});
}

TEST_CASE("a confirmed action comes before what ends earlier") {
  std::vector<Stop> stops{stop("ends", 0, "2012-04-10", "2012-04-10"),
                          stop("confirmed", 0, "2012-04-10", "2012-04-12")};
  stops[1].confirmed = true;
  CHECK(planned(stops, k_two_a_day).at(0) == "confirmed: 04-10/1/1");
}

TEST_CASE("a day goes on in the area of its first stop before it goes elsewhere") {
  // One degree of longitude at 40 degrees north is 85 km.
  const std::vector<Stop> stops{stop("first", 0, "2012-04-10", "2012-04-11"),
                                stop("far", 1, "2012-04-10", "2012-04-12"),
                                stop("near", 0.05, "2012-04-10", "2012-04-13")};
  Crews crews = k_two_a_day;
  CHECK(planned(stops, crews) == Texts{"first: 04-10/1/1", "near: 04-10/1/2", "far: 04-11/1/1"});
  crews.area_km = 1;
  CHECK(planned(stops, crews) == Texts{"first: 04-10/1/1", "far: 04-10/1/2", "near: 04-11/1/1"});
}

TEST_CASE("the way between stops takes time, and two crews share the stops") {
  const std::vector<Stop> stops{stop("a first", 0, "2012-04-10", "2012-04-10"),
                                stop("far", 1, "2012-04-10", "2012-04-10")};
  Crews crews = k_two_a_day;
  crews.km_per_hour = 40;  // 85 km: more than two hours
  CHECK(planned(stops, crews) == Texts{"a first: 04-10/1/1", "far: left"});
  crews.count = 2;
  CHECK(planned(stops, crews) == Texts{"a first: 04-10/1/1", "far: 04-10/2/1"});
  const StopPlan plan = plan_stops(stops, k_today, {.hours = 8});
  CHECK(plan.stops[1].km == Approx(85.2).margin(0.1));
}

TEST_CASE("a site is a stop when something is due within the days that is not to be left alone") {
  Built built;
  built.add(WindowKind::abstain, WindowState::open, "2012-04-01", "2012-04-30");
  const auto at = [&](int days) { return stop_at(site_digest(built.site, {}), {40, -82}, k_today, days); };
  CHECK_FALSE(at(5));
  built.add(WindowKind::look, WindowState::ahead, "2012-04-13", "2012-04-16");
  CHECK_FALSE(at(3));
  REQUIRE(at(4));
  CHECK(at(4)->from == day("2012-04-13"));
  CHECK(at(4)->by == day("2012-04-16"));
  CHECK(at(4)->lines.size() == 1);
  built.site.weather.too_old = true;
  built.site.weather.last_observed = day("2012-01-01");
  CHECK_FALSE(at(4));
}

TEST_CASE("a plan on paper says what does not fit, what to bring, and what it takes for granted") {
  Built built;
  built.add(WindowKind::act, WindowState::open, "2012-04-01", "2012-04-12");
  const auto one = stop_at(site_digest(built.site, {}), {40, -82}, k_today, 5);
  REQUIRE(one);
  Stop other = *one;
  other.site = "=Elm";
  const StopPlan plan = plan_stops({*one, other}, k_today, {.hours = 1, .days = 1});
  const std::string text = as_text(stops_document(plan), {});
  CHECK(
      text.starts_with("Stops from 2012-04-10, 1 day for 1 crew: 2 stops, room for 1; 1 does not fit, 0 of them close "
                       "within these days\n"
                       "\nDOES NOT FIT\n  Mill Lane, by Apr 12: there is time after\n"));
  CHECK(text.find("  1. =Elm, by Apr 12\n    - Act only if found: test psyllid: window-0, until Apr 12: only if you") !=
        std::string::npos);
  CHECK(text.find("sprayer, the label and the protective gear it names") != std::string::npos);
  CHECK(text.find("1 h at a stop (--stop-hours)") != std::string::npos);
  const std::string csv = stops_csv(plan, {});
  CHECK(csv.find("2012-04-10,1,1,'=Elm,40.0000,-82.0000,0.0,2012-04-10,2012-04-12,no,") != std::string::npos);
  CHECK(csv.find("\n,,,Mill Lane,") != std::string::npos);
  const std::string calendar = stops_calendar(plan);
  CHECK(calendar.find("SUMMARY:Crew 1\\, stop 1: =Elm") != std::string::npos);
  CHECK(calendar.find("DTSTART;VALUE=DATE:20120410\r\nDTEND;VALUE=DATE:20120411") != std::string::npos);
  CHECK(calendar.find("Mill Lane") == std::string::npos);
}

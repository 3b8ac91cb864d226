// The visits that actions bring, and missed looks, in every report of a site and of all.
#include <budclock/report/calendar.hpp>
#include <budclock/report/digest.hpp>
#include <budclock/report/stops.hpp>
#include <budclock/report/when_report.hpp>
#include <budclock/report/words.hpp>
#include <budclock/rules/load.hpp>

#include "built_site.hpp"

#include <catch2/catch.hpp>

using namespace budclock;
using namespace budclock::report;
using forecast::FollowUp;
using forecast::VisitState;
using forecast::WindowState;
using rules::WindowKind;

namespace {

FollowUp visit(VisitState state, const char* from, const char* until) {
  FollowUp made{.action = rules::Action::oil, .done = day("2012-03-01"), .at = "galls"};
  made.page_gives_date = true;
  made.state = state;
  if (*from != '\0') made.from = day(from);
  if (*until != '\0') made.until = day(until);
  return made;
}

/// A site with one visit after oil, and nothing else.
struct Visited : Built {
  explicit Visited(FollowUp made) {
    pest.follow_up.emplace().success.text = "Flat leaves.";
    site.pests[0].follow_ups.push_back(std::move(made));
  }
};

bool holds(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

std::string calendar_of(const Built& built) { return calendar({&built.site, 1}); }

std::string page_of(const Built& built) {
  Digest digest;
  digest.today = k_today;
  digest.sites = {site_digest(built.site, {})};
  return as_text(digest_document(digest, {}), {.width = 400, .colour = false});
}

}  // namespace

TEST_CASE("a visit is told with what it follows, when it is due and what success looks like") {
  const Visited ahead{visit(VisitState::ahead, "2012-04-20", "2012-05-12")};
  CHECK(visit_text(ahead.pest, ahead.site.pests[0].follow_ups[0], k_today) ==
        "Come back after horticultural oil on Mar 1: due from Apr 20 (in 10 days) until May 12. Dated by: galls. "
        "Success: Flat leaves.");
  const Visited missed{visit(VisitState::missed, "2012-03-20", "2012-04-01")};
  CHECK(visit_text(missed.pest, missed.site.pests[0].follow_ups[0], k_today) ==
        "Come back after horticultural oil on Mar 1: missed: follow-up due by Apr 1, 9 days ago. Look now. Dated by: "
        "galls. Success: Flat leaves.");
  FollowUp window = visit(VisitState::not_known, "", "");
  window.page_gives_date = false;
  window.next_season = true;
  window.at = "";
  CHECK(visit_text(missed.pest, window, k_today) ==
        "Come back after horticultural oil on Mar 1: due next season, which has no dates yet. Its page gives no date: "
        "the next scouting window counts. Success: Flat leaves.");
  FollowUp settled = visit(VisitState::settled, "2012-03-20", "2012-04-01");
  settled.settled = day("2012-03-25");
  CHECK(visit_text(missed.pest, settled, k_today) == "Come back after horticultural oil on Mar 1: made Mar 25.");
}

TEST_CASE("a digest tells a visit that is due, that begins within 14 days or that was missed, and no other") {
  const auto lines = [](FollowUp made) { return site_digest(Visited{std::move(made)}.site, {}).visits; };
  CHECK(lines(visit(VisitState::due, "2012-04-01", "2012-05-12")).at(0).due == Due::now);
  CHECK(lines(visit(VisitState::ahead, "2012-04-24", "")).at(0).due == Due::soon);
  CHECK(lines(visit(VisitState::ahead, "2012-04-25", "")).empty());
  CHECK(lines(visit(VisitState::missed, "2012-01-01", "2012-01-09")).at(0).kind == VisitKind::missed_follow_up);
  CHECK(lines(visit(VisitState::settled, "2012-01-01", "2012-01-09")).empty());
  CHECK(lines(visit(VisitState::not_known, "", "")).empty());
}

TEST_CASE("a missed look is told for 14 days, and sends nobody") {
  Built built;
  built.add(WindowKind::look, WindowState::closed, "2012-03-01", "2012-03-27").missed_look = true;
  const SiteDigest digest = site_digest(built.site, {});
  REQUIRE(digest.visits.size() == 1);
  CHECK(digest.visits[0].text == "Missed look: window-0: closed Mar 27, and nothing was recorded while it was open.");
  CHECK_FALSE(stop_at(digest, {40, -82}, k_today, 5));
  CHECK(holds(page_of(built), "Follow-up visits, and what was missed\n  Mill Lane\n    - test psyllid: Missed look"));
  built.site.pests[0].windows[0].until = day("2012-03-26");
  CHECK(site_digest(built.site, {}).visits.empty());
}

TEST_CASE("a follow-up is a first stop and a stop, one that was missed without a last day") {
  const Visited due{visit(VisitState::due, "2012-04-01", "2012-04-12")};
  CHECK(holds(page_of(due), "FIRST STOPS\n  - by Apr 12: Mill Lane: follow-up: test psyllid after horticultural oil"));
  const auto stop = stop_at(site_digest(due.site, {}), {40, -82}, k_today, 5);
  REQUIRE(stop);
  CHECK(stop->from == k_today);
  CHECK(stop->by == day("2012-04-12"));
  const Visited missed{visit(VisitState::missed, "2012-03-01", "2012-03-12")};
  const auto late = stop_at(site_digest(missed.site, {}), {40, -82}, k_today, 5);
  REQUIRE(late);
  CHECK_FALSE(late->by);
  const Visited ahead{visit(VisitState::ahead, "2012-04-13", "2012-04-20")};
  CHECK_FALSE(stop_at(site_digest(ahead.site, {}), {40, -82}, k_today, 3));
  CHECK(stop_at(site_digest(ahead.site, {}), {40, -82}, k_today, 4)->from == day("2012-04-13"));
  const StopPlan plan = plan_stops({*stop}, k_today, {});
  CHECK(holds(as_text(stops_document(plan), {.width = 400, .colour = false}),
              "- test psyllid: Come back after horticultural oil on Mar 1: due now until Apr 12."));
  CHECK(holds(stops_calendar(plan), "SUMMARY:Crew 1\\, stop 1: Mill Lane"));
}

TEST_CASE("a visit is an event over its days, and keeps its identity when they move") {
  const std::string moved = calendar_of(Visited{visit(VisitState::ahead, "2012-04-22", "2012-05-12")});
  const std::string text = calendar_of(Visited{visit(VisitState::ahead, "2012-04-20", "2012-05-11")});
  CHECK(holds(text, "SUMMARY:Follow-up: Mill Lane: test psyllid\\, after horticultural oil"));
  CHECK(holds(text, "DTSTART;VALUE=DATE:20120420"));
  CHECK(holds(text, "DTEND;VALUE=DATE:20120512"));
  const auto uid = [](const std::string& calendar_text) {
    return calendar_text.substr(calendar_text.find("UID:"), 40);
  };
  CHECK(uid(text) == uid(moved));
  const std::string missed = calendar_of(Visited{visit(VisitState::missed, "2012-03-20", "2012-04-01")});
  CHECK(holds(missed, "SUMMARY:Missed follow-up: Mill Lane"));
  const Visited settled{visit(VisitState::settled, "2012-03-20", "2012-04-01")};
  CHECK_FALSE(holds(calendar_of(settled), "BEGIN:VEVENT"));
}

TEST_CASE("a table has a row for a visit, and marks what was missed") {
  Visited visited{visit(VisitState::missed, "2012-03-20", "2012-04-01")};
  visited.add(WindowKind::look, WindowState::closed, "2012-03-01", "2012-03-27").missed_look = true;
  const std::string text = when_csv({&visited.site, 1}, TemperatureUnit::fahrenheit);
  CHECK(holds(text, "Mill Lane,2012-04-10,test-psyllid,,follow-up,oil,Flat leaves.,missed,2012-03-20,2012-04-01,"));
  CHECK(holds(text, ",2012-03-01,yes,,\n"));
  CHECK(holds(text, ",,yes,,\n"));
  const auto cells = [&](std::size_t from) {
    bool quoted = false;
    int count = 1;
    for (std::size_t at = from; text[at] != '\n'; ++at) {
      if (text[at] == '"') quoted = !quoted;
      if (text[at] == ',' && !quoted) ++count;
    }
    return count;
  };
  for (std::size_t at = 0; at < text.size(); at = text.find('\n', at) + 1) CHECK(cells(at) == cells(0));
}

TEST_CASE("a digest keeps its visits when it is read again") {
  Visited visited{visit(VisitState::due, "2012-04-01", "2012-04-12")};
  Digest digest;
  digest.today = k_today;
  digest.sites = {site_digest(visited.site, {})};
  rules::PestTable table;
  table.pests = {visited.pest};
  const std::string text = digest_json(digest, table);
  Diagnostics faults;
  const auto again = read_digest(text, "digest.json", table, faults);
  REQUIRE(again);
  CHECK(digest_json(*again, table) == text);
  CHECK(again->sites[0].visits.at(0).until == day("2012-04-12"));
  CHECK(holds(digest_csv(digest),
              "Mill Lane,2012-04-10,follow-up,now,test-psyllid,test psyllid,,visit,,"
              "horticultural oil on Mar 1,2012-04-01,2012-04-12,2,"));
}

TEST_CASE("a visit is new on the first night it is told, and a night without it has changed") {
  const Visited visited{visit(VisitState::due, "2012-04-01", "2012-04-12")};
  Digest digest;
  digest.today = k_today;
  digest.sites = {site_digest(visited.site, {})};
  const SiteState now = site_state(digest.sites[0]);
  const auto compare_with = [&](const SiteState& before) {
    Diagnostics none;
    const auto older =
        WrittenState::read(state_head(k_today - date::days{1}, {}) + state_line("Mill Lane", before), "state", none);
    REQUIRE(older);
    compare(digest.sites[0], *older, now, k_today);
    compare(digest, *older);
  };
  compare_with({});
  CHECK(digest.sites[0].visits[0].is_new);
  compare_with(now);
  CHECK_FALSE(digest.sites[0].visits[0].is_new);
  CHECK_FALSE(digest.changed);
  digest.sites[0].visits.clear();
  compare_with(now);
  CHECK(digest.changed);
}

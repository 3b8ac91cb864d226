#include <budclock/report/digest.hpp>
#include <budclock/report/words.hpp>

#include "built_site.hpp"

#include <catch2/catch.hpp>
#include <map>
#include <utility>

using namespace budclock;
using namespace budclock::report;
using forecast::WindowForecast;
using forecast::WindowState;
using rules::Action;
using rules::WindowKind;

namespace {

std::vector<std::string> lines_of(const Built& built) {
  std::vector<std::string> texts;
  for (const DigestLine& line : site_digest(built.site, {}).lines) {
    texts.push_back(line.window->id + ": " + std::string{name(line.group)} + ", " + std::string{name(line.due)});
  }
  return texts;
}

std::string only_line_of(const Built& built) {
  const auto all = lines_of(built);
  return all.size() == 1 ? all[0] : std::to_string(all.size()) + " lines";
}

std::string placed(WindowKind kind, WindowState state, const char* from, const char* until) {
  Built built;
  built.add(kind, state, from, until);
  return only_line_of(built);
}

Digest digest_of(const Built& built) { return {k_today, {site_digest(built.site, {})}, {}, {}, {}, true}; }

/// Compares the digest's sites, and then the digest, with a state of the day before.
void compare_with(Digest& digest, const std::map<std::string, SiteState>& before) {
  std::string text = state_head(day("2012-04-09"), {});
  for (const auto& [name, site] : before) text += state_line(name, site);
  Diagnostics none;
  const auto older = WrittenState::read(text, "state", none);
  REQUIRE(older);
  for (SiteDigest& site : digest.sites) compare(site, *older, site_state(site), digest.today);
  compare(digest, *older);
}

/// The digest compared with a state of the day before that held `groups`.
Digest compared(const Built& built, std::map<std::string, std::string> groups, std::set<std::string> problems = {},
                Diagnostics problems_now = {}) {
  Digest digest = digest_of(built);
  digest.sites[0].problems = std::move(problems_now);
  SiteState older;
  older.groups = std::move(groups);
  older.problems = std::move(problems);
  compare_with(digest, {{"Mill Lane", older}});
  return digest;
}

}  // namespace

TEST_CASE("a look stands under look while it is open or opens within 14 days") {
  CHECK(placed(WindowKind::look, WindowState::open, "2012-04-01", "2012-05-01") == "window-0: look, now");
  CHECK(placed(WindowKind::look, WindowState::ahead, "2012-04-24", "2012-06-01") == "window-0: look, next 14 days");
  CHECK(placed(WindowKind::look, WindowState::ahead, "2012-04-25", "2012-06-01") == "0 lines");
  CHECK(placed(WindowKind::look, WindowState::closed, "2012-04-01", "2012-04-09") == "0 lines");
  CHECK(placed(WindowKind::look, WindowState::not_known, "", "") == "0 lines");
}

TEST_CASE("an action stands under act if confirmed while it is open or opens within 14 days") {
  CHECK(placed(WindowKind::act, WindowState::open, "2012-04-01", "2012-05-01") == "window-0: act if confirmed, now");
  CHECK(placed(WindowKind::act, WindowState::ahead, "2012-04-24", "2012-06-01") ==
        "window-0: act if confirmed, next 14 days");
  CHECK(placed(WindowKind::act, WindowState::ahead, "2012-04-25", "2012-06-01") == "0 lines");
}

TEST_CASE("the last week of a look or an action, and what opens and ends within 14 days, are last days") {
  for (const WindowKind kind : {WindowKind::look, WindowKind::act}) {
    CHECK(placed(kind, WindowState::last_days, "2012-04-01", "2012-04-12") == "window-0: last days, now");
    CHECK(placed(kind, WindowState::ahead, "2012-04-12", "2012-04-24") == "window-0: last days, next 14 days");
    CHECK(placed(kind, WindowState::ahead, "2012-04-12", "2012-04-25").find("last days") == std::string::npos);
  }
}

TEST_CASE("a ban that stands or begins within 14 days is left alone, and one without dates beside another line") {
  CHECK(placed(WindowKind::abstain, WindowState::open, "2012-04-01", "2012-06-01") == "window-0: leave alone, now");
  CHECK(placed(WindowKind::abstain, WindowState::last_days, "2012-04-01", "2012-04-11") ==
        "window-0: leave alone, now");
  CHECK(placed(WindowKind::abstain, WindowState::ahead, "2012-04-20", "2012-06-01") ==
        "window-0: leave alone, next 14 days");
  CHECK(placed(WindowKind::abstain, WindowState::not_known, "", "") == "0 lines");
  Built built;
  built.add(WindowKind::abstain, WindowState::not_known, "", "");
  built.add(WindowKind::look, WindowState::open, "2012-04-01", "2012-06-01");
  CHECK(lines_of(built) == std::vector<std::string>{"window-0: leave alone, now", "window-1: look, now"});
}

TEST_CASE("an action that ended within the last 14 days is too late, and later it is not told any more") {
  CHECK(placed(WindowKind::act, WindowState::closed, "2012-03-01", "2012-03-27") == "window-0: leave alone, now");
  CHECK(placed(WindowKind::act, WindowState::closed, "2012-03-01", "2012-03-26") == "0 lines");
}

TEST_CASE("an action for which the sources leave no time is left alone while it would be near") {
  const auto placed_between = [](const char* opens, const char* closes) {
    Built built;
    WindowForecast& window = built.add(WindowKind::act, WindowState::none_left, "", "");
    window.opens = forecast::certain(day(opens), 3);
    window.closes = forecast::certain(day(closes), 3);
    return only_line_of(built);
  };
  CHECK(placed_between("2012-04-08", "2012-04-20") == "window-0: leave alone, now");
  CHECK(placed_between("2012-04-20", "2012-04-18") == "window-0: leave alone, next 14 days");
  CHECK(placed_between("2012-04-25", "2012-04-20") == "0 lines");
  CHECK(placed_between("2012-04-08", "2012-04-06") == "0 lines");
}

TEST_CASE("an action that is barred is left alone, with the ban as the reason") {
  Built built;
  built.add(WindowKind::act, WindowState::open, "2012-04-01", "2012-05-01");
  const WindowForecast& ban = built.add(WindowKind::abstain, WindowState::not_known, "", "");
  built.site.pests[0].windows[0].barred_by = ban.window;
  const SiteDigest digest = site_digest(built.site, {});
  REQUIRE(digest.lines.size() == 2);
  CHECK(digest.lines[1].window->id == "window-0");
  CHECK(digest.lines[1].group == DigestGroup::leave);
  CHECK(digest.lines[1].text == "window-1. The reason.");
}

TEST_CASE(
    "an action of which the site leaves no kind is left alone with the fact, one with a kind left names the rest") {
  Built built;
  WindowForecast& action = built.add(WindowKind::act, WindowState::open, "2012-04-01", "2012-05-01");
  built.windows.back().actions = {rules::Action::oil, rules::Action::soap};
  action.bars = {{"blue", {rules::Action::oil}, true, "blue spruce", "oil strips the bloom", {}, {}}};
  action.warnings = {{"water", {rules::Action::soap}, false, "water at 15 ft", "let nothing run off", {}, {}}};
  SiteDigest digest = site_digest(built.site, {});
  REQUIRE(digest.lines.size() == 1);
  CHECK(digest.lines[0].group == DigestGroup::act);
  CHECK(digest.lines[0].actions == std::vector{rules::Action::soap});
  CHECK(digest.lines[0].text.ends_with(
      "Not at this site: horticultural oil (blue spruce: oil strips the bloom). Mind: water at 15 ft"));
  action.bars.push_back({"x", {rules::Action::soap}, true, "ruled out for every hour", "wind over 10 mph", {}, {}});
  digest = site_digest(built.site, {});
  REQUIRE(digest.lines.size() == 1);
  CHECK(digest.lines[0].group == DigestGroup::leave);
  CHECK(digest.lines[0].not_here == "blue spruce; ruled out for every hour");
  CHECK(digest.lines[0].actions.empty());
  CHECK(!may_be_done(digest.lines[0]));
}

TEST_CASE("an action that begins after the ban has ended stands under act, one that begins inside is left alone") {
  const auto group = [](const char* ban_until, WindowState state) {
    Built built;
    built.add(WindowKind::act, WindowState::ahead, "2012-04-20", "2012-06-01");
    const WindowForecast& ban = built.add(WindowKind::abstain, state, "2012-03-01", ban_until);
    built.site.pests[0].windows[0].barred_by = ban.window;
    for (const DigestLine& line : site_digest(built.site, {}).lines) {
      if (line.window->id == "window-0") return line.group;
    }
    return DigestGroup::look;
  };
  CHECK(group("2012-04-19", WindowState::open) == DigestGroup::act);
  CHECK(group("2012-04-20", WindowState::open) == DigestGroup::leave);
  CHECK(group("", WindowState::open) == DigestGroup::leave);
  CHECK(group("", WindowState::not_known) == DigestGroup::leave);
}

TEST_CASE("an action is left alone when what must not be there was found") {
  Built built;
  WindowForecast& window = built.add(WindowKind::act, WindowState::open, "2012-04-01", "2012-05-01");
  const auto demand = [&](bool wants_seen) {
    return journal::Demand{
        &built.pest.observations[1], wants_seen, journal::DemandState::contradicted, day("2012-04-08"), {}};
  };
  window.gate.demands = {demand(false)};
  const SiteDigest found = site_digest(built.site, {});
  CHECK(found.lines.at(0).group == DigestGroup::leave);
  CHECK(found.lines.at(0).text == "not with what was found: cupped leaves (found Apr 8)");
  // What must be there and was not found may still come.
  window.gate.demands = {demand(true)};
  CHECK(only_line_of(built) == "window-0: act if confirmed, now");
}

TEST_CASE("an action without dates is shown when what it asks for was found") {
  CHECK(placed(WindowKind::act, WindowState::not_known, "", "") == "0 lines");
  Built built;
  built.add(WindowKind::act, WindowState::not_known, "", "").gate_met = true;
  CHECK(only_line_of(built) == "window-0: act if confirmed, now");
}

TEST_CASE("lines go by group, then by what ends first, with a confirmed action in front") {
  Built built;
  built.add(WindowKind::look, WindowState::open, "2012-04-01", "2012-05-01");
  built.add(WindowKind::act, WindowState::closed, "2012-03-01", "2012-04-01");
  built.add(WindowKind::abstain, WindowState::open, "2012-04-01", "2012-06-01");
  built.add(WindowKind::act, WindowState::open, "2012-04-01", "2012-05-02");
  WindowForecast& offered = built.add(WindowKind::act, WindowState::open, "2012-04-01", "2012-05-03");
  offered.offered = true;
  offered.gate_until = day("2012-05-09");
  built.add(WindowKind::look, WindowState::last_days, "2012-04-01", "2012-04-12");
  CHECK(lines_of(built) == std::vector<std::string>{"window-5: last days, now", "window-4: act if confirmed, now",
                                                    "window-3: act if confirmed, now", "window-2: leave alone, now",
                                                    "window-1: leave alone, now", "window-0: look, now"});
}

TEST_CASE("weather that is too old is a problem of the site, and notes are none") {
  Built built;
  built.site.weather.too_old = true;
  built.site.weather.last_observed = day("2012-03-01");
  const SiteDigest digest = site_digest(built.site, {{Severity::note, {"a", 1, 0}, "a note", ""}});
  CHECK(digest.failed);
  REQUIRE(digest.problems.size() == 1);
  CHECK(to_text(digest.problems[0]) ==
        "the weather ends 2012-03-01, 40 days before today: nothing new can be said from it: add the missing days");
}

TEST_CASE("there is news when a line or a problem stands") {
  Built built;
  CHECK_FALSE(digest_of(built).has_news());
  CHECK(Digest{k_today, {}, {{Severity::fault, {}, "x", ""}}, {}, {}, true}.has_news());
  CHECK(Digest{k_today, {site_digest(built.site, {{Severity::fault, {}, "x", ""}})}, {}, {}, {}, true}.has_news());
  built.add(WindowKind::look, WindowState::open, "2012-04-01", "2012-05-01");
  CHECK(digest_of(built).has_news());
}

TEST_CASE("a line is new where it stood in another group or in none on the day that is compared with") {
  Built built;
  built.add(WindowKind::look, WindowState::open, "2012-04-01", "2012-05-01");
  const auto is_new = [&](std::map<std::string, std::string> groups) {
    const Digest digest = compared(built, std::move(groups));
    CHECK(digest.changed == digest.sites[0].lines[0].is_new);
    return digest.sites[0].lines[0].is_new;
  };
  CHECK_FALSE(is_new({{"test-psyllid/window-0", "look, now"}}));
  CHECK(is_new({{"test-psyllid/window-0", "look, next 14 days"}}));
  CHECK(is_new({{"test-psyllid/window-1", "look, now"}}));
  CHECK(as_text(digest_document(compared(built, {}), {}), {}).find("    - NEW: until May 1: test psyllid") !=
        std::string::npos);
}

TEST_CASE("a line that is gone, another number of problems and another number of sites are changes") {
  Built built;
  CHECK_FALSE(compared(built, {}).changed);
  CHECK(compared(built, {{"test-psyllid/window-0", "look, now"}}).changed);
  CHECK(compared(built, {}, {"w.csv:7:3: no number: correct it"}).changed);
  Digest digest = digest_of(built);
  const SiteState same = site_state(digest.sites[0]);
  compare_with(digest, {{"Mill Lane", same}});
  CHECK_FALSE(digest.changed);
  compare_with(digest, {{"Mill Lane", same}, {"Gorge View", {}}});
  CHECK(digest.changed);
  compare_with(digest, {});
  CHECK(digest.changed);
}

TEST_CASE("values set aside are told once, and then named as told before") {
  const Built built;
  const Diagnostic broken{Severity::fault, {"w.csv", 7, 3}, "no number", "correct it"};
  const Digest told = compared(built, {}, {"w.csv:7:3: no number: correct it"}, {broken});
  CHECK(told.sites[0].told_before);
  CHECK_FALSE(told.changed);
  CHECK_FALSE(told.has_new_problems());
  CHECK_FALSE(told.has_news());
  const std::string text = as_text(digest_document(told, {}), {});
  INFO(text);
  CHECK(text.find("w.csv") == std::string::npos);
  CHECK(text.find("Told before, and still set aside: Mill Lane.") != std::string::npos);

  const Digest fresh = compared(built, {}, {"w.csv:6:3: no number: correct it"}, {broken});
  CHECK_FALSE(fresh.sites[0].told_before);
  CHECK(fresh.changed);
  CHECK(fresh.has_new_problems());
  CHECK(as_text(digest_document(fresh, {}), {}).find("w.csv:7:3: no number") != std::string::npos);
}

TEST_CASE("an error is told anew each day") {
  const Built built;
  const Diagnostic missing{Severity::error, {"w.csv"}, "cannot be opened", ""};
  const Digest digest = compared(built, {}, {to_text(missing)}, {missing});
  CHECK_FALSE(digest.sites[0].told_before);
  CHECK(digest.has_new_problems());
}

TEST_CASE("of joined parts, problems are told before where each part told all of its own") {
  const auto part = [](std::uint32_t number, bool told) {
    Digest digest{k_today};
    digest.part = number;
    digest.parts = 2;
    digest.problems = {{Severity::fault, {"log.csv", number}, "no date", ""}};
    digest.told_before = told;
    return digest;
  };
  CHECK(joined({part(1, true), part(2, true)}).told_before);
  CHECK_FALSE(joined({part(1, true), part(2, false)}).told_before);
  CHECK_FALSE(joined({part(1, true)}).told_before);
}

TEST_CASE("the page names first stops and bans before all else, and failed sites before others") {
  Built built;
  built.add(WindowKind::act, WindowState::last_days, "2012-04-01", "2012-04-12");
  built.add(WindowKind::abstain, WindowState::open, "2012-04-01", "2012-06-01");
  Digest digest = digest_of(built);
  digest.sites[0].problems.push_back({Severity::fault, {"w.csv", 7, 3}, "no number", "correct it"});
  digest.sites.push_back({"Gorge View", {}, {}, {{Severity::error, {"none.csv", 0, 0}, "not there", ""}}, true});
  const std::string text = as_text(digest_document(digest, {}), {.width = 60});
  INFO(text);
  CHECK(
      text.starts_with("Pests on 2012-04-10: 2 sites, 1 failed\n"
                       "\n"
                       "FIRST STOPS\n"
                       "  - Nothing is confirmed: look first, everywhere.\n"
                       "  - by Apr 12: Mill Lane: act only if found: test psyllid\n"
                       "\n"
                       "NOT TODAY\n"
                       "  - test psyllid on testwood: no horticultural oil: at Mill\n"
                       "    Lane\n"
                       "\n"
                       "PROBLEMS\n"
                       "  ! Gorge View: failed: none.csv: not there\n"
                       "  ! Mill Lane: set aside: w.csv:7:3: no number: correct it\n"
                       "\n"
                       "NOW\n"
                       "Last days (a week or less)\n"
                       "  Mill Lane\n"
                       "    - until Apr 12: test psyllid: window-0: only if you find\n"));
}

TEST_CASE("a confirmed action ends with what was found, and is the first stop") {
  Built built;
  WindowForecast& window = built.add(WindowKind::act, WindowState::open, "2012-04-01", "2012-05-01");
  window.offered = window.gate_met = true;
  window.gate_until = day("2012-04-20");
  CHECK(site_digest(built.site, {}).lines[0].until == day("2012-04-20"));
  window.gate_until = day("2012-05-10");
  CHECK(site_digest(built.site, {}).lines[0].until == day("2012-05-01"));
  built.add(WindowKind::look, WindowState::last_days, "2012-04-01", "2012-04-11");
  CHECK(as_text(digest_document(digest_of(built), {}), {})
            .find("FIRST STOPS\n"
                  "  - by May 1: Mill Lane: test psyllid, CONFIRMED\n"
                  "  - by Apr 11: Mill Lane: look: test psyllid\n") != std::string::npos);
}

TEST_CASE("a name that could drive a terminal or run as a formula cannot") {
  Built built;
  built.site.site = "=1+1\x1b[31m";
  built.add(WindowKind::look, WindowState::open, "2012-04-01", "2012-05-01");
  const Digest digest = digest_of(built);
  CHECK(as_text(digest_document(digest, {}), {}).find('\x1b') == std::string::npos);
  CHECK(digest_csv(digest).find("\n'=1+1") != std::string::npos);
}

TEST_CASE("a row of the table has the days, how many are left and what to do; a problem is a row too") {
  Built built;
  built.add(WindowKind::act, WindowState::open, "2012-04-01", "2012-05-01");
  Digest digest = digest_of(built);
  digest.sites[0].problems.push_back({Severity::fault, {"w.csv", 7, 3}, "no number", "correct it"});
  CHECK(digest_csv(digest) ==
        "site,today,group,due,pest,pest_name,host,kind,window,name,from,until,days_left,actions,confirmed,text,new,"
        "not_at_site\n"
        "Mill Lane,2012-04-10,problem,now,,,,,,,,,,,,w.csv:7:3: no number: correct it,,\n"
        "Mill Lane,2012-04-10,act if confirmed,now,test-psyllid,test psyllid,,act,window-0,window-0,2012-04-01,"
        "2012-05-01,21,horticultural oil,no,only if you find live nymphs. Not if you find cupped leaves,,\n");
}

TEST_CASE("with a semicolon between cells a comma needs no quotes, and a decimal point becomes the office's mark") {
  CsvText csv{{';', ','}};
  csv.text("a, b").text("c; d").number("1.5").plain("2012-04-10").end_row();
  CHECK(csv.str() == "a, b;\"c; d\";1,5;2012-04-10\n");
}

TEST_CASE("where the weather is too old nobody is sent to treat, yet looks and bans stand") {
  Built built;
  built.site.weather.too_old = true;
  built.site.weather.last_observed = day("2012-03-01");
  built.add(WindowKind::act, WindowState::open, "2012-04-01", "2012-04-30");
  built.add(WindowKind::look, WindowState::open, "2012-04-01", "2012-04-30");
  built.add(WindowKind::abstain, WindowState::open, "2012-04-01", "2012-04-30");
  CHECK(lines_of(built) == std::vector<std::string>{"window-2: leave alone, now", "window-1: look, now"});
}

TEST_CASE("a page names what must never be done about a pest that may be treated now, and on which plants a ban is") {
  Built built;
  built.pest.do_not = {{"No oil on blue testwood.", {}}};
  built.add(WindowKind::abstain, WindowState::open, "2012-04-01", "2012-04-30");
  const auto page = [&] { return as_text(digest_document(digest_of(built), {}), {}); };
  CHECK(page().find("No oil on blue testwood") == std::string::npos);
  CHECK(page().find("test psyllid on testwood: no horticultural oil: at Mill Lane") != std::string::npos);
  built.add(WindowKind::act, WindowState::open, "2012-04-01", "2012-04-30");
  CHECK(page().find("No oil on blue testwood: at Mill Lane") != std::string::npos);
  CHECK(page().find("by Apr 30: Mill Lane: act only if found: test psyllid") != std::string::npos);
  CHECK(page().find("Nothing is confirmed") != std::string::npos);
}

TEST_CASE("an action whose gate is met before the stage that it waits for says which to record") {
  Built built;
  rules::Stage hatch;
  hatch.id = "egg-hatch";
  hatch.name = "egg hatch";
  hatch.begins.emplace_back().id = "hatch-figure";
  hatch.begins[0].use = rules::Use::date;
  built.pest.stages = {hatch};
  auto& window = built.add(WindowKind::act, WindowState::ahead, "2012-04-14", "2012-04-30");
  window.gate_met = true;
  window.opened_by = &built.pest.stages[0].begins[0];
  const std::string waits =
      "Not open yet: it waits for egg hatch. If that is what was found, record the stage too: "
      "--stage egg-hatch";
  CHECK(window_text(built.pest, window, k_today).find(waits) != std::string::npos);
  CHECK(site_digest(built.site, {}).lines.at(0).text.find(waits) != std::string::npos);
  window.opening_seen = day("2012-04-09");
  CHECK(window_text(built.pest, window, k_today).find("it waits for") == std::string::npos);
}

TEST_CASE("a line is new when its action is confirmed, and when it is no longer") {
  Built built;
  WindowForecast& window = built.add(WindowKind::act, WindowState::open, "2012-04-01", "2012-04-30");
  CHECK_FALSE(compared(built, {{"test-psyllid/window-0", "act if confirmed, now"}}).sites[0].lines[0].is_new);
  window.offered = window.gate_met = true;
  window.gate_until = day("2012-04-20");
  CHECK(compared(built, {{"test-psyllid/window-0", "act if confirmed, now"}}).changed);
  CHECK_FALSE(compared(built, {{"test-psyllid/window-0", "act if confirmed, now, confirmed"}}).changed);
}

TEST_CASE("a part that is not there is told, one that is there twice counts once") {
  Built built;
  built.add(WindowKind::look, WindowState::open, "2012-04-01", "2012-04-30");
  Digest one = digest_of(built);
  one.part = 1;
  one.parts = 3;
  Digest three = one;
  three.part = 3;
  three.sites[0].site = "Gorge View";
  const Digest whole = joined({three, one, one});
  CHECK(whole.sites.size() == 2);
  REQUIRE(whole.problems.size() == 1);
  CHECK(whole.problems[0].message.starts_with("part 2 of 3 is not here"));
  CHECK(whole.parts == 1);
}

TEST_CASE("a digest that is read says nothing that none could have written") {
  Built built;
  WindowForecast& window = built.add(WindowKind::act, WindowState::open, "2012-04-01", "2012-04-30");
  window.offered = window.gate_met = true;
  window.gate_until = day("2012-04-20");
  rules::PestTable table;
  table.pests.push_back(built.pest);
  table.pests[0].windows.assign(built.windows.begin(), built.windows.end());
  const std::string text = digest_json(digest_of(built), table);
  const auto faults = [&](const std::string& from, const std::string& to) {
    std::string changed = text;
    if (!from.empty()) changed.replace(changed.find(from), from.size(), to);
    Diagnostics found;
    const bool read = read_digest(changed, "d.json", table, found).has_value();
    CHECK(read == found.empty());
    return found.empty() ? std::string{} : found[0].message;
  };
  CHECK(faults("", "").empty());
  CHECK(faults("\"until\": \"2012-04-20\"", "\"until\": null").starts_with("what is confirmed is an action"));
  CHECK(faults("\"group\": \"act if confirmed\"", "\"group\": \"leave alone\"").starts_with("what is confirmed"));
  CHECK(faults("\"Mill Lane\"", "\"Mill \\u001b[31m\"").starts_with("a control character stands here"));
  CHECK(faults("\"window-0\"", "\"window-9\"").starts_with("this pest or window is not known"));
}

// Every gate of the shipped table: an action is offered when the last observation is recorded, and withdrawn when any
// one is removed, too old or contradicted.
#include <budclock/report/words.hpp>

#include "records.hpp"

#include <algorithm>
#include <type_traits>
#include <variant>

using namespace budclock;
using forecast::WindowForecast;
using journal::Sighting;

namespace {

Sighting row(const rules::Pest& pest, Day date) {
  Sighting sighting;
  sighting.date = date;
  sighting.site = "wooster";
  sighting.pest = pest.id;
  return sighting;
}

/// A row for each observation that the gate asks for.
std::vector<Sighting> full_gate(const rules::Pest& pest, const rules::Gate& gate, Day date) {
  std::vector<Sighting> rows;
  for (const std::string& id : gate.seen) {
    rows.push_back(row(pest, date));
    rows.back().saw = {id};
  }
  for (const std::string& id : gate.absent) {
    rows.push_back(row(pest, date));
    rows.back().not_saw = {id};
  }
  return rows;
}

/// The last seven years up to the end of 2012: enough for a window, and quick.
const weather::DailySeries& seven_years() {
  static const weather::DailySeries days = [] {
    const weather::DailySeries& all = records::ohio().back().days;
    const auto from = all.index_of(records::day("2006-01-01")).value();
    const auto to = all.index_of(records::day("2013-01-01")).value();
    const auto part = [&](const auto& values) {
      using Values = std::decay_t<decltype(values)>;
      return Values(values.begin() + static_cast<std::ptrdiff_t>(from),
                    values.begin() + static_cast<std::ptrdiff_t>(to));
    };
    weather::DailySeries cut = all;
    cut.first = records::day("2006-01-01");
    cut.tmin = part(all.tmin);
    cut.tmax = part(all.tmax);
    return cut;
  }();
  return days;
}

/// Where the window opens so long after a stage: that stage, found three weeks ago.
std::vector<Sighting> stage_before(const rules::Pest& pest, const rules::Window& window, Day today) {
  std::vector<Sighting> rows;
  for (const std::string& id : window.opens.triggers) {
    const auto& cue = rules::find_trigger(pest, id)->cue;
    if (!std::holds_alternative<rules::AfterStageCue>(cue)) continue;
    rows.push_back(row(pest, today - date::days{21}));
    rows.back().stage = std::get<rules::AfterStageCue>(cue).stage;
  }
  return rows;
}

WindowForecast window_on(const rules::Pest& pest, const rules::Window& window, Day today, std::vector<Sighting> log,
                         const std::vector<rules::SiteRestriction>& restrictions = {},
                         const std::vector<journal::ActionTaken>& actions = {}) {
  const auto before = stage_before(pest, window, today);
  log.insert(log.begin(), before.begin(), before.end());
  forecast::Question question{.site = "wooster", .pests = {&pest}, .method = {}, .sightings = std::move(log)};
  question.restrictions[{pest.id, window.host}] = restrictions;
  question.actions = actions;
  const auto site = forecast::evaluate(question, {weather::until(seven_years(), today), today});
  for (const WindowForecast& each : site.pests.front().windows) {
    if (each.window->id == window.id) return each;
  }
  FAIL("no such window");
  return {};
}

bool is_inside(const WindowForecast& window, Day today) {
  return window.from && *window.from <= today && (!window.until || today <= *window.until);
}

/// Offered means, on any day: inside the window, gate met, nothing bars it, and the words say so.
void check_offer(const rules::Pest& pest, const WindowForecast& window, Day today) {
  const std::string said = report::window_text(pest, window, today);
  INFO(said);
  CHECK(window.offered == said.starts_with("Act: the gate is met"));
  if (!window.offered) return;
  CHECK(window.gate_met);
  CHECK(window.barred_by == nullptr);
  CHECK(is_inside(window, today));
}

journal::ActionTaken done(const rules::Pest& pest, rules::Action action, Day date) {
  journal::ActionTaken taken;
  taken.site = "wooster";
  taken.pest = pest.id;
  taken.action = action;
  taken.date = date;
  return taken;
}

/// What was done is not offered again before what the gate asks for is found anew.
void check_done_once(const rules::Pest& pest, const rules::Window& window, Day today) {
  const auto full = full_gate(pest, window.gate, today);
  for (const rules::Action kind : window.actions) {
    const WindowForecast after = window_on(pest, window, today, full, {}, {done(pest, kind, today)});
    CHECK_FALSE(after.offered);
    REQUIRE(after.done);
    CHECK(after.done->action == kind);
    CHECK(report::window_text(pest, after, today).starts_with("Leave alone: done "));
    const WindowForecast found_again =
        window_on(pest, window, today, full, {}, {done(pest, kind, today - date::days{1})});
    CHECK(found_again.offered == !window.gate.seen.empty());
  }
  auto elsewhere = done(pest, window.actions.front(), today);
  elsewhere.site = "another";
  const auto last_year = done(pest, window.actions.front(), today - date::days{366});
  CHECK(window_on(pest, window, today, full, {}, {elsewhere, last_year}).offered);
}

/// A find on another of the pest's hosts does not open the gate of a window for one host.
void check_host(const rules::Pest& pest, const rules::Window& window, Day today) {
  auto log = full_gate(pest, window.gate, today);
  for (Sighting& each : log) each.hosts = {"another host"};
  CHECK(window_on(pest, window, today, log).offered == window.host.empty());
  for (Sighting& each : log) each.hosts = {"another host", window.host};
  CHECK(window_on(pest, window, today, log).offered);
}

/// With the full gate the action is offered on `today`; with anything less it is not.
void check_each_observation(const rules::Pest& pest, const rules::Window& window, Day today) {
  const auto full = full_gate(pest, window.gate, today);
  std::vector<Sighting> log;
  for (const Sighting& next : full) {
    CHECK_FALSE(window_on(pest, window, today, log).offered);
    log.push_back(next);
  }
  CHECK(window_on(pest, window, today, log).offered);
  for (std::size_t i = 0; i < full.size(); ++i) {
    const std::string id = full[i].saw.empty() ? full[i].not_saw.front() : full[i].saw.front();
    INFO("without " << id);
    auto removed = full;
    removed.erase(removed.begin() + static_cast<std::ptrdiff_t>(i));
    CHECK_FALSE(window_on(pest, window, today, removed).offered);

    auto contradicted = full;
    contradicted.push_back(full[i]);
    std::swap(contradicted.back().saw, contradicted.back().not_saw);
    CHECK_FALSE(window_on(pest, window, today, contradicted).offered);

    const auto valid_days = rules::find_observation(pest, id)->valid_days;
    if (!valid_days) continue;
    auto aged = full;
    aged[i].date = today - date::days{*valid_days + 1};
    CHECK_FALSE(window_on(pest, window, today, aged).offered);
    aged[i].date = today - date::days{*valid_days};
    if (year_of(aged[i].date) == year_of(today)) CHECK(window_on(pest, window, today, aged).gate_met);
  }
}

}  // namespace

TEST_CASE("the last observation of each gate offers the action once, and none may be missing, old or contradicted") {
  int gates = 0;
  for (const rules::Pest& pest : records::shipped().pests) {
    for (const rules::Window& window : pest.windows) {
      if (window.kind != rules::WindowKind::act) continue;
      INFO(pest.id << " " << window.id);
      ++gates;
      std::optional<Day> offered;
      for (Day today = records::day("2012-01-02"); today <= records::day("2012-12-31"); today += date::days{3}) {
        const auto forecast = window_on(pest, window, today, full_gate(pest, window.gate, today));
        CHECK(forecast.gate_met);
        check_offer(pest, forecast, today);
        if (forecast.offered && !offered) offered = today;
      }
      CHECK(offered);
      if (!offered) continue;
      check_each_observation(pest, window, *offered);
      check_done_once(pest, window, *offered);
      check_host(pest, window, *offered);
    }
  }
  CHECK(gates >= 20);
}

TEST_CASE("inside a dated window the full gate offers the action, unless a ban stands") {
  int inside = 0;
  for (const rules::Pest& pest : records::shipped().pests) {
    for (const rules::Window& window : pest.windows) {
      if (window.kind != rules::WindowKind::act) continue;
      for (Day today = records::day("2012-01-03"); today <= records::day("2012-12-31"); today += date::days{15}) {
        const WindowForecast before = window_on(pest, window, today, {});
        if (!before.until || !is_inside(before, today)) continue;
        INFO(pest.id << " " << window.id << " " << iso(today));
        const auto forecast = window_on(pest, window, today, full_gate(pest, window.gate, today));
        ++inside;
        CHECK(forecast.offered == (forecast.barred_by == nullptr));
        CHECK(forecast.offered);
      }
    }
  }
  CHECK(inside > 10);
}

TEST_CASE("what a site bars is never offered there: kind by kind, and not at all when none is left") {
  int offered = 0;
  for (const rules::Pest& pest : records::shipped().pests) {
    for (const rules::Window& window : pest.windows) {
      if (window.kind != rules::WindowKind::act) continue;
      const rules::SiteRestriction all{"all", window.actions, true, "fact", "text", {}, {}};
      rules::SiteRestriction one = all;
      one.actions = {window.actions.front()};
      rules::SiteRestriction warning = all;
      warning.bars = false;
      for (Day today = records::day("2012-01-03"); today <= records::day("2012-12-31"); today += date::days{15}) {
        const auto log = full_gate(pest, window.gate, today);
        if (!window_on(pest, window, today, log).offered) continue;
        INFO(pest.id << " " << window.id << " " << iso(today));
        ++offered;
        const auto barred = window_on(pest, window, today, log, {all});
        CHECK_FALSE(barred.offered);
        CHECK(forecast::kinds_left(barred).empty());
        CHECK(report::window_text(pest, barred, today).starts_with("Not at this site: "));
        const auto narrowed = window_on(pest, window, today, log, {one, warning});
        CHECK(narrowed.offered == (window.actions.size() > 1));
        CHECK(forecast::kinds_left(narrowed).size() == window.actions.size() - 1);
        CHECK(narrowed.warnings.size() == (window.actions.size() > 1 ? 1 : 0));
        const auto warned = window_on(pest, window, today, log, {warning});
        CHECK(warned.offered);
        CHECK(warned.warnings.size() == 1);
      }
    }
  }
  CHECK(offered > 10);
}

TEST_CASE("what passes says nothing of a window that opens later") {
  const rules::Pest& pest = *records::shipped().find_pest("boxwood-psyllid");
  const auto window = std::find_if(pest.windows.begin(), pest.windows.end(),
                                   [](const rules::Window& each) { return each.id == "treat-nymphs"; });
  const Day today = records::day("2012-02-01");
  const auto bars = [&](Day until) {
    return window_on(pest, *window, today, {}, {{"bloom", window->actions, true, "fact", "text", {}, until}})
        .bars.size();
  };
  const WindowForecast ahead = window_on(pest, *window, today, {});
  REQUIRE(ahead.state == forecast::WindowState::ahead);
  CHECK(bars(*ahead.from - date::days{1}) == 0);
  CHECK(bars(*ahead.from) == 1);
}

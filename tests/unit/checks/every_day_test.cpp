// What no day, pest or record may break, checked over the shipped table and real weather.
#include <budclock/report/words.hpp>

#include "records.hpp"

#include <set>

using namespace budclock;
using forecast::PestForecast;
using forecast::WindowForecast;
using forecast::WindowState;
using rules::WindowKind;

namespace {

const std::set<std::string> k_conifer_pests{"balsam-woolly-adelgid", "cooley-spruce-gall-adelgid",
                                            "eastern-spruce-gall-adelgid", "hemlock-woolly-adelgid",
                                            "pine-bark-adelgid"};

bool has_come(const WindowForecast& window) {
  return window.state == WindowState::open || window.state == WindowState::last_days;
}

/// An open window to act is offered only under its gate, and the words say so.
void check_gate(const PestForecast& pest, const WindowForecast& window, Day today) {
  if (window.window->kind != WindowKind::act || !has_come(window)) return;
  CHECK_FALSE(window.window->gate.empty());
  const std::string said = report::window_text(*pest.pest, window, today);
  const std::string gate = report::gate_text(*pest.pest, window.window->gate);
  INFO(said);
  CHECK(said.find("only if you find") != std::string::npos);
  CHECK(said.find(gate) != std::string::npos);
}

/// Growth on conifers has not hardened before mid-September: whatever opens after midsummer waits for it.
void check_autumn(const PestForecast& pest, const WindowForecast& window, Day today) {
  const bool acts = window.window->kind == WindowKind::act;
  if (!acts || !k_conifer_pests.contains(pest.pest->id) || !window.from) return;
  const int year = year_of(*window.from);
  const bool autumn = *window.from >= Day{date::year{year} / 8 / 1};
  CHECK((!autumn || *window.from >= Day{date::year{year} / 9 / 15}));
  (void)today;
}

void check_order(const WindowForecast& window) {
  if (window.from && window.until) CHECK(*window.from <= *window.until);
}

bool share_a_stage(const rules::Window& a, const rules::Window& b) {
  for (const std::string& stage : a.stages) {
    if (std::find(b.stages.begin(), b.stages.end(), stage) != b.stages.end()) return true;
  }
  return false;
}

/// Whoever may act has been told to look no later: some look at the same stages opens first.
void check_look_first(const PestForecast& pest, const WindowForecast& act) {
  if (act.window->kind != WindowKind::act || !act.from) return;
  std::optional<Day> first_look;
  for (const WindowForecast& look : pest.windows) {
    const bool same_host =
        look.window->host.empty() || act.window->host.empty() || look.window->host == act.window->host;
    if (look.window->kind != WindowKind::look || !look.from || !same_host) continue;
    if (share_a_stage(*look.window, *act.window)) first_look = std::min(first_look.value_or(*look.from), *look.from);
  }
  if (first_look) CHECK(*first_look <= *act.from);
}

void check_day(const records::Record& record, Day today) {
  for (const PestForecast& pest : records::forecast_on(record, today).pests) {
    for (const WindowForecast& window : pest.windows) {
      INFO(record.name << " " << iso(today) << " " << pest.pest->id << " " << window.window->id);
      check_gate(pest, window, today);
      check_autumn(pest, window, today);
      check_order(window);
      check_look_first(pest, window);
    }
  }
}

}  // namespace

TEST_CASE("every day of a year at Wooster, no action stands without its gate, its season and a look before it") {
  for (Day today = records::day("2012-01-01"); today <= records::day("2012-12-31"); today += date::days{1}) {
    check_day(records::ohio().back(), today);
  }
}

TEST_CASE("nor on sampled days of other years at every shipped record") {
  int year = 1990;
  for (const records::Record& record : records::ohio()) {
    year += 4;
    for (Day today = Day{date::year{year} / 1 / 3}; year_of(today) <= year + 1; today += date::days{11}) {
      check_day(record, today);
    }
  }
}

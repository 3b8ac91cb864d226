#include <budclock/sites/pest_names.hpp>

#include "follow_ups.hpp"
#include "pest_evaluator.hpp"

#include <algorithm>
#include <cstdlib>

namespace budclock::forecast {
namespace {

using rules::Direction;
using rules::WindowKind;

/// A calendar window that is over shows its next season once that is this near.
constexpr date::days k_next_season{60};

bool is_calendar(const TriggerForecast& forecast) {
  return std::holds_alternative<rules::CalendarCue>(forecast.trigger->cue);
}

/// Drops the members in which the window closes before it opens.
void keep_members_with_window(Spread& opens, Spread& closes) {
  std::size_t kept = 0;
  for (std::size_t m = 0; m < opens.dates.size(); ++m) {
    const bool has_window = opens.dates[m] && (!closes.dates[m] || *opens.dates[m] <= *closes.dates[m]);
    if (!has_window) continue;
    opens.dates[kept] = opens.dates[m];
    closes.dates[kept] = closes.dates[m];
    ++kept;
  }
  opens.dates.resize(kept);
  closes.dates.resize(kept);
}

void add_years(Spread& spread, int years) {
  for (auto& date : spread.dates) {
    if (date) date = in_year(month_day_of(*date), year_of(*date) + years);
  }
}

}  // namespace

/// The day on which what the trigger speaks of was seen.
std::optional<Day> PestEvaluator::seen_on(const rules::Trigger* trigger) const {
  return trigger == nullptr ? std::nullopt : triggers_.at(trigger->id).seen;
}

/// A calendar range gives its first day to an edge that takes the earliest and its last day to one that takes the
/// latest. A sum learned at the site never dates an action later than the published one, and makes no look or ban
/// shorter.
Spread PestEvaluator::edge_date(const TriggerForecast& forecast, const rules::Edge& edge, const rules::Window& window,
                                Sight sight) const {
  if (forecast.seen && sight == Sight::counts) return certain(*forecast.seen, members_);
  if (const auto* calendar = std::get_if<rules::CalendarCue>(&forecast.trigger->cue)) {
    const auto [from, to] = calendar_days(*calendar, today());
    return certain(edge.take == Direction::latest ? to : from, members_);
  }
  if (!forecast.learned.known() || !forecast.spread.known()) return forecast.spread;
  const bool later = window.kind != WindowKind::act && &edge == &window.closes;
  return later ? latest({forecast.spread, forecast.learned}) : earliest({forecast.spread, forecast.learned});
}

/// The dates of one side of a window in each member. What only a scout can see, and nobody saw, is left to the gate.
/// Where a trigger that counts has no date, an action has none, and for the rest the known dates stand only where the
/// missing one could not change them.
PestEvaluator::EdgeDates PestEvaluator::edge(const rules::Edge& edge, const rules::Window& window, Sight sight) const {
  std::vector<std::pair<Spread, const rules::Trigger*>> dated;
  Spread missing;
  for (const std::string& id : edge.triggers) {
    const TriggerForecast& forecast = triggers_.at(id);
    if (is_only_a_scouts(forecast) && (!forecast.seen || sight == Sight::left_out)) continue;
    Spread spread = edge_date(forecast, edge, window, sight);
    if (spread.known()) {
      dated.emplace_back(std::move(spread), forecast.trigger);
    } else {
      missing = spread;
    }
  }
  if (dated.empty()) {
    if (!missing.unknown.empty()) return {missing};
    return {unknown("a scout sees it on the plant"), nullptr, true};
  }

  std::vector<Spread> spreads;
  for (const auto& [spread, trigger] : dated) spreads.push_back(spread);
  EdgeDates combined{edge.take == Direction::earliest ? earliest(spreads) : latest(spreads)};
  if (!missing.unknown.empty()) {
    const bool has_opened =
        &edge == &window.opens && edge.take == Direction::earliest && share_reached_by(combined.spread, today()) == 1;
    if (window.kind == WindowKind::act || !has_opened) return {missing};
  }
  std::size_t most = 0;
  for (const auto& [spread, trigger] : dated) {
    std::size_t decides = 0;
    for (std::size_t m = 0; m < members_; ++m) decides += spread.dates[m] == combined.spread.dates[m] ? 1U : 0U;
    if (decides > most) {
      most = decides;
      combined.decided_by = trigger;
    }
  }
  return combined;
}

/// Where an action that may have opened ends only by what a scout sees, its gate is its end: nothing is known beyond
/// the last day on which what was found counts.
void PestEvaluator::set_edges(const rules::Window& window, Sight sight, WindowForecast& forecast) const {
  EdgeDates opens = edge(window.opens, window, sight);
  EdgeDates closes = edge(window.closes, window, sight);
  const auto opens_early = summarize(opens.spread).early;
  const bool may_be_open = opens_early && *opens_early <= today();
  if (closes.only_a_scout_sees && window.kind == WindowKind::act && forecast.gate_until && may_be_open) {
    closes.spread = certain(*forecast.gate_until, members_);
  }
  forecast.opens = std::move(opens.spread);
  forecast.closes = std::move(closes.spread);
  forecast.opened_by = opens.decided_by;
  forecast.closed_by = closes.decided_by;
  const bool counts = sight == Sight::counts;
  forecast.opening_seen = counts ? seen_on(opens.decided_by) : std::nullopt;
  forecast.closing_seen = counts ? seen_on(closes.decided_by) : std::nullopt;
}

bool PestEvaluator::has_fixed_dates(const rules::Window& window) const {
  const auto is_fixed = [&](const rules::Edge& side) {
    bool calendar = false;
    for (const std::string& id : side.triggers) {
      const TriggerForecast& forecast = triggers_.at(id);
      if (!is_calendar(forecast) && !is_only_a_scouts(forecast)) return false;
      calendar = calendar || is_calendar(forecast);
    }
    return calendar;
  };
  return is_fixed(window.opens) && is_fixed(window.closes);
}

/// A window of calendar dates only: one that closes before it opens runs over New Year, and one that is over shows
/// its next season when that is near. What was seen this season says nothing of the next.
void PestEvaluator::set_fixed_season(WindowForecast& forecast) const {
  if (!has_fixed_dates(*forecast.window) || !forecast.opens.known() || !forecast.closes.known()) return;
  const auto opens = [](const WindowForecast& window) { return *window.opens.dates.front(); };
  const auto closes = [](const WindowForecast& window) { return *window.closes.dates.front(); };
  const bool seen = forecast.opening_seen || forecast.closing_seen;
  WindowForecast calendar = forecast;
  if (seen) set_edges(*forecast.window, Sight::left_out, calendar);
  if (!calendar.opens.known() || !calendar.closes.known()) return;
  if (closes(calendar) < opens(calendar)) {
    if (today() <= closes(calendar)) {
      add_years(calendar.opens, -1);
    } else {
      add_years(calendar.closes, 1);
    }
  }
  const Day next = in_year(month_day_of(opens(calendar)), year_of(opens(calendar)) + 1);
  const bool over = closes(calendar) < today() && closes(forecast) < today();
  if (over && next - today() <= k_next_season) {
    add_years(calendar.opens, 1);
    add_years(calendar.closes, 1);
  } else if (seen) {
    return;
  }
  forecast = std::move(calendar);
}

void PestEvaluator::set_gate(WindowForecast& forecast) const {
  const rules::Gate& gate = forecast.window->gate;
  if (gate.empty()) return;
  const auto done = last_done(*forecast.window);
  const journal::GateContext context{forecast.window->host, done ? std::optional{done->day} : std::nullopt};
  forecast.gate = journal::gate_state(pest_, gate, question_.sightings, question_.site, today(), context);
  forecast.gate_met = forecast.gate.met();
  forecast.gate_until = forecast.gate.met_until();
}

WindowForecast PestEvaluator::window(const rules::Window& window) const {
  WindowForecast forecast;
  forecast.window = &window;
  set_gate(forecast);
  set_edges(window, Sight::counts, forecast);
  set_fixed_season(forecast);

  const auto side_evidence = [&](const rules::Edge& side) {
    std::vector<const TriggerForecast*> used;
    for (const std::string& id : side.triggers) {
      if (triggers_.at(id).spread.known()) used.push_back(&triggers_.at(id));
    }
    return evidence_of(used);
  };
  forecast.evidence = std::max(side_evidence(window.opens), side_evidence(window.closes));

  Spread opens_kept = forecast.opens;
  Spread closes_kept = forecast.closes;
  if (opens_kept.known() && closes_kept.known()) {
    const auto all = static_cast<double>(opens_kept.dates.size());
    keep_members_with_window(opens_kept, closes_kept);
    forecast.share_with_window = static_cast<double>(opens_kept.dates.size()) / all;
    if (opens_kept.dates.empty()) {
      forecast.state = WindowState::none_left;
      return forecast;
    }
  }
  forecast.opens_summary = summarize(opens_kept);
  forecast.closes_summary = summarize(closes_kept);
  forecast.from = forecast.opens_summary.early;
  forecast.until = window.kind == WindowKind::act ? forecast.closes_summary.early : forecast.closes_summary.late;
  forecast.state = state_on(today(), forecast);
  return forecast;
}

PestForecast PestEvaluator::evaluate() {
  PestForecast forecast;
  forecast.pest = &pest_;
  for (const rules::Stage& entry : pest_.stages) forecast.stages.push_back(stage(entry));
  for (const rules::Window& entry : pest_.windows) {
    if (sites::may_grow(question_.hosts, pest_, entry.host)) forecast.windows.push_back(window(entry));
  }
  keep_clear_of_bans(forecast.windows, today());
  set_offers(forecast.windows);
  set_missed_looks(forecast, question_, today());
  forecast.follow_ups = follow_ups(forecast, question_, today());
  return forecast;
}

}  // namespace budclock::forecast

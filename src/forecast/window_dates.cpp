#include "pest_evaluator.hpp"

#include <algorithm>
#include <cstdlib>

namespace budclock::forecast {
namespace {

using rules::Direction;
using rules::WindowKind;

constexpr date::days k_last_days{7};
/// A calendar window that is over shows its next season once that is this near.
constexpr date::days k_next_season{60};

bool is_calendar(const TriggerForecast& forecast) {
  return std::holds_alternative<rules::CalendarCue>(forecast.trigger->cue);
}

/// A cue that has no date of its own: the gate asks for it.
bool only_a_scout_sees(const TriggerForecast& forecast) {
  return std::holds_alternative<rules::PlantCue>(forecast.trigger->cue) && !forecast.degree_days;
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

/// What is over is closed whatever its opening; an action without a known end is never open.
WindowState state_on(Day today, const WindowForecast& forecast) {
  if (forecast.until && today > *forecast.until) return WindowState::closed;
  if (!forecast.from) return WindowState::not_known;
  if (today < *forecast.from) return WindowState::ahead;
  if (!forecast.until) {
    return forecast.window->kind == WindowKind::act ? WindowState::not_known : WindowState::open;
  }
  return *forecast.until - today < k_last_days ? WindowState::last_days : WindowState::open;
}

void add_years(Spread& spread, int years) {
  for (auto& date : spread.dates) {
    if (date) date = in_year(month_day_of(*date), year_of(*date) + years);
  }
}

bool bars(const WindowForecast& ban, const WindowForecast& action) {
  const rules::Window& barred = *action.window;
  if (!ban.window->host.empty() && ban.window->host != barred.host) return false;
  return std::any_of(barred.actions.begin(), barred.actions.end(), [&](rules::Action kind) {
    const auto& kinds = ban.window->actions;
    return std::find(kinds.begin(), kinds.end(), kind) != kinds.end();
  });
}

/// On no day may the same kind of action be both offered and barred: the ban wins.
void keep_clear_of_bans(std::vector<WindowForecast>& windows, Day today) {
  for (WindowForecast& action : windows) {
    if (action.window->kind != WindowKind::act || !action.from) continue;
    for (const WindowForecast& ban : windows) {
      if (ban.window->kind != WindowKind::abstain || !ban.from || !bars(ban, action)) continue;
      const bool starts_inside = *action.from >= *ban.from && ban.until && *action.from <= *ban.until;
      if (starts_inside) action.from = *ban.until + date::days{1};
      const bool runs_into = *action.from < *ban.from && action.until && *action.until >= *ban.from;
      if (runs_into) action.until = *ban.from - date::days{1};
    }
    const bool nothing_left = action.until && *action.from > *action.until;
    action.state = nothing_left ? WindowState::none_left : state_on(today, action);
  }
}

}  // namespace

/// The dates of one side of a window in each member. A calendar range gives its first day to an edge that takes the
/// earliest and its last day to one that takes the latest. What only a scout can see is left to the gate. Where a
/// trigger that counts has no date, an action has none, and for the rest the known dates stand only where the missing
/// one could not change them.
PestEvaluator::EdgeDates PestEvaluator::edge(const rules::Edge& edge, WindowKind kind, bool opens) const {
  std::vector<std::pair<Spread, const rules::Trigger*>> dated;
  Spread missing;
  for (const std::string& id : edge.triggers) {
    const TriggerForecast& forecast = triggers_.at(id);
    if (only_a_scout_sees(forecast)) continue;
    Spread spread = forecast.spread;
    if (const auto* calendar = std::get_if<rules::CalendarCue>(&forecast.trigger->cue)) {
      const auto [from, to] = calendar_days(*calendar, today());
      spread = certain(edge.take == Direction::latest ? to : from, members_);
    }
    if (spread.known()) {
      dated.emplace_back(std::move(spread), forecast.trigger);
    } else {
      missing = spread;
    }
  }
  if (dated.empty()) return {missing.unknown.empty() ? unknown("a scout sees it on the plant") : missing};

  std::vector<Spread> spreads;
  for (const auto& [spread, trigger] : dated) spreads.push_back(spread);
  EdgeDates combined{edge.take == Direction::earliest ? earliest(spreads) : latest(spreads)};
  if (!missing.unknown.empty()) {
    const bool has_opened =
        opens && edge.take == Direction::earliest && share_reached_by(combined.spread, today()) == 1;
    if (kind == WindowKind::act || !has_opened) return {missing};
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

/// A window of calendar dates only: one that closes before it opens runs over New Year, and one that is over shows
/// its next season when that is near.
bool PestEvaluator::set_fixed_season(const rules::Window& window, WindowForecast& forecast) const {
  for (const auto* side : {&window.opens, &window.closes}) {
    for (const std::string& id : side->triggers) {
      if (!is_calendar(triggers_.at(id)) && !only_a_scout_sees(triggers_.at(id))) return false;
    }
  }
  if (!forecast.opens.known() || !forecast.closes.known()) return false;
  const auto opens = [&] { return *forecast.opens.dates.front(); };
  const auto closes = [&] { return *forecast.closes.dates.front(); };
  if (closes() < opens()) {
    if (today() <= closes()) {
      add_years(forecast.opens, -1);
    } else {
      add_years(forecast.closes, 1);
    }
  }
  if (closes() < today() && in_year(month_day_of(opens()), year_of(opens()) + 1) - today() <= k_next_season) {
    add_years(forecast.opens, 1);
    add_years(forecast.closes, 1);
  }
  return true;
}

WindowForecast PestEvaluator::window(const rules::Window& window) const {
  WindowForecast forecast;
  forecast.window = &window;
  EdgeDates opens = edge(window.opens, window.kind, true);
  EdgeDates closes = edge(window.closes, window.kind, false);
  forecast.opens = std::move(opens.spread);
  forecast.closes = std::move(closes.spread);
  forecast.opened_by = opens.decided_by;
  forecast.closed_by = closes.decided_by;
  set_fixed_season(window, forecast);

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
  for (const rules::Window& entry : pest_.windows) forecast.windows.push_back(window(entry));
  keep_clear_of_bans(forecast.windows, today());
  return forecast;
}

}  // namespace budclock::forecast

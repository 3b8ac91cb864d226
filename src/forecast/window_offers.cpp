// Which actions may be offered: bans, gates, and the day itself.
#include "pest_evaluator.hpp"

#include <algorithm>

namespace budclock::forecast {
namespace {

using rules::WindowKind;

constexpr date::days k_last_days{7};

bool bars(const WindowForecast& ban, const WindowForecast& action) {
  const rules::Window& barred = *action.window;
  if (!ban.window->host.empty() && ban.window->host != barred.host) return false;
  return std::any_of(barred.actions.begin(), barred.actions.end(), [&](rules::Action kind) {
    const auto& kinds = ban.window->actions;
    return std::find(kinds.begin(), kinds.end(), kind) != kinds.end();
  });
}

bool is_open(const WindowForecast& window) {
  return window.state == WindowState::open || window.state == WindowState::last_days;
}

/// The gate has it on record that the observation is not there.
bool is_found_absent(const journal::GateState& gate, const std::string& observation) {
  return std::any_of(gate.demands.begin(), gate.demands.end(), [&](const journal::Demand& demand) {
    return !demand.wants_seen && demand.state == journal::DemandState::met && demand.observation->id == observation;
  });
}

}  // namespace

bool is_only_a_scouts(const TriggerForecast& forecast) {
  return std::holds_alternative<rules::PlantCue>(forecast.trigger->cue) && !forecast.degree_days;
}

WindowState state_on(Day today, const WindowForecast& forecast) {
  if (forecast.until && today > *forecast.until) return WindowState::closed;
  if (!forecast.from) return WindowState::not_known;
  if (today < *forecast.from) return WindowState::ahead;
  if (!forecast.until) {
    return forecast.window->kind == WindowKind::act ? WindowState::not_known : WindowState::open;
  }
  return *forecast.until - today < k_last_days ? WindowState::last_days : WindowState::open;
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

/// Whether a ban bars an action today. One whose dates are not known does, for what may be barred is not offered;
/// unless it begins by what a scout sees, and the action's own gate has it that none of that is there.
bool PestEvaluator::is_barred(const WindowForecast& action, const WindowForecast& ban) const {
  if (ban.window->kind != WindowKind::abstain || !bars(ban, action)) return false;
  if (is_open(ban)) return true;
  if (ban.state != WindowState::not_known) return false;
  const auto& begins = ban.window->opens.triggers;
  return !std::all_of(begins.begin(), begins.end(), [&](const std::string& id) {
    const TriggerForecast& cue = triggers_.at(id);
    return is_only_a_scouts(cue) && !cue.seen &&
           is_found_absent(action.gate, std::get<rules::PlantCue>(cue.trigger->cue).observation);
  });
}

/// An action is offered inside its window, with its gate met, where no ban stands against it, on weather that is not
/// too old.
void PestEvaluator::set_offers(std::vector<WindowForecast>& windows) const {
  for (WindowForecast& action : windows) {
    if (action.window->kind != WindowKind::act) continue;
    for (const WindowForecast& ban : windows) {
      if (is_barred(action, ban)) action.barred_by = ban.window;
    }
    action.offered = action.gate_met && is_open(action) && action.barred_by == nullptr && !too_old_;
  }
}

}  // namespace budclock::forecast

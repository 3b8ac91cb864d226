// Which actions may be offered: bans, gates, and the day itself.
#include "pest_evaluator.hpp"

#include <algorithm>
#include <utility>

namespace budclock::forecast {
namespace {

using rules::WindowKind;

constexpr date::days k_last_days{7};

bool bars(const WindowForecast& ban, const WindowForecast& action) {
  const rules::Window& barred = *action.window;
  if (!ban.window->host.empty() && ban.window->host != barred.host) return false;
  return std::any_of(barred.actions.begin(), barred.actions.end(),
                     [&](rules::Action kind) { return contains(ban.window->actions, kind); });
}

/// Narrows a restriction to the kinds of action that are there, in their order.
void keep_kinds(rules::SiteRestriction& restriction, const std::vector<rules::Action>& kinds) {
  std::vector<rules::Action> kept = kinds;
  std::erase_if(kept, [&](rules::Action kind) { return !contains(restriction.actions, kind); });
  restriction.actions = std::move(kept);
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

bool is_open(const WindowForecast& window) {
  return window.state == WindowState::open || window.state == WindowState::last_days;
}

bool is_over(const WindowForecast& window) {
  return window.state == WindowState::closed || window.state == WindowState::none_left;
}

std::vector<rules::Action> kinds_left(const WindowForecast& window) {
  std::vector<rules::Action> left = window.window->actions;
  std::erase_if(left, [&](rules::Action kind) {
    return std::any_of(window.bars.begin(), window.bars.end(),
                       [&](const rules::SiteRestriction& bar) { return contains(bar.actions, kind); });
  });
  return left;
}

bool is_barred_at_site(const WindowForecast& window) { return !window.bars.empty() && kinds_left(window).empty(); }

const rules::Window* ban_on(const WindowForecast& action, const std::vector<WindowForecast>& windows) {
  if (action.barred_by == nullptr || action.state != WindowState::ahead) return action.barred_by;
  for (const WindowForecast& ban : windows) {
    if (ban.window->kind != WindowKind::abstain || !bars(ban, action)) continue;
    const bool ends_before = ban.until && *ban.until < *action.from;
    const bool stands = is_open(ban) || ban.state == WindowState::not_known;
    if (stands && !ends_before) return ban.window;
  }
  return nullptr;
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

/// What is known of the site that bars some kinds of an action, or warns of those left. What passes is not held against
/// a window that opens later.
void PestEvaluator::restrict_to_site(WindowForecast& action) const {
  const auto found = question_.restrictions.find({pest_.id, action.window->host});
  if (found == question_.restrictions.end() || is_over(action)) return;
  for (rules::SiteRestriction restriction : found->second) {
    const bool passes_before =
        restriction.until && action.state == WindowState::ahead && *action.from > *restriction.until;
    keep_kinds(restriction, action.window->actions);
    if (passes_before || restriction.actions.empty()) continue;
    (restriction.bars ? action.bars : action.warnings).push_back(std::move(restriction));
  }
  const std::vector<rules::Action> left = kinds_left(action);
  for (rules::SiteRestriction& warning : action.warnings) keep_kinds(warning, left);
  std::erase_if(action.warnings, [](const rules::SiteRestriction& warning) { return warning.actions.empty(); });
}

/// The last of the window's kinds of action that was taken at the site this calendar year.
std::optional<Done> PestEvaluator::last_done(const rules::Window& window) const {
  std::optional<Done> last;
  for (const journal::ActionTaken& row : question_.actions) {
    if (row.site != question_.site || row.pest != pest_.id || !contains(window.actions, row.action)) continue;
    if (row.date > today() || year_of(row.date) != year_of(today())) continue;
    if (!last || row.date >= last->day) last = Done{row.action, row.date};
  }
  return last;
}

/// What was done before the window opens is not its action; finds of before it do not count all the same.
void PestEvaluator::set_done(WindowForecast& action) const {
  const auto done = last_done(*action.window);
  if (!done || (action.from && done->day < *action.from)) return;
  const bool found_again = std::any_of(
      action.gate.demands.begin(), action.gate.demands.end(),
      [&](const journal::Demand& demand) { return demand.wants_seen && demand.stated && *demand.stated > done->day; });
  if (!found_again) action.done = done;
}

/// An action is offered inside its window, with its gate met, where it has not been taken, where no ban stands against
/// it, on weather that is not too old.
void PestEvaluator::set_offers(std::vector<WindowForecast>& windows) const {
  for (WindowForecast& action : windows) {
    if (action.window->kind != WindowKind::act) continue;
    restrict_to_site(action);
    set_done(action);
    for (const WindowForecast& ban : windows) {
      if (is_barred(action, ban)) action.barred_by = ban.window;
    }
    action.offered = action.gate_met && is_open(action) && action.barred_by == nullptr && !action.done &&
                     !is_barred_at_site(action) && !too_old_;
  }
}

}  // namespace budclock::forecast

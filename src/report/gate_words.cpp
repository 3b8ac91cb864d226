// The words for what the scouting log says of a gate.
#include <budclock/report/layout.hpp>
#include <budclock/report/words.hpp>

#include <algorithm>
#include <fmt/format.h>
#include <vector>

namespace budclock::report {
namespace {

using journal::Demand;
using journal::DemandState;

/// "live nymphs on the new leaves", or "no boxwood in flower" for what must be absent.
std::string wanted(const Demand& demand) {
  return demand.wants_seen ? demand.observation->text : "no " + demand.observation->text;
}

std::string missing(const Demand& demand, Day today) {
  const std::string stated = demand.stated ? day_text(*demand.stated, today) : "";
  switch (demand.state) {
    case DemandState::not_recorded:
      return wanted(demand) + " (not recorded)";
    case DemandState::contradicted:
      return fmt::format("{} ({} {})", wanted(demand), demand.wants_seen ? "not found" : "found", stated);
    case DemandState::aged:
      return fmt::format("{} ({}, which no longer counts)", wanted(demand), stated);
    case DemandState::acted_on:
      return fmt::format("{} (found {}, before what was done; look again)", wanted(demand), stated);
    case DemandState::met:
      break;
  }
  return {};
}

}  // namespace

std::string_view word(DemandState state) {
  switch (state) {
    case DemandState::met:
      return "met";
    case DemandState::not_recorded:
      return "not recorded";
    case DemandState::contradicted:
      return "contradicted";
    case DemandState::aged:
      return "too old";
    case DemandState::acted_on:
      return "acted on";
  }
  return "";
}

std::string found_days_text(const journal::GateState& gate, Day today) {
  std::optional<Day> first;
  std::optional<Day> last;
  for (const Demand& demand : gate.demands) {
    if (demand.state != DemandState::met) continue;
    first = std::min(first.value_or(*demand.stated), *demand.stated);
    last = std::max(last.value_or(*demand.stated), *demand.stated);
  }
  if (!first) return {};
  return first == last ? day_text(*first, today)
                       : fmt::format("{} to {}", day_text(*first, today), day_text(*last, today));
}

std::string gate_record_text(const journal::GateState& gate, Day today) {
  if (const auto until = gate.met_until()) {
    return fmt::format("What was found {} meets the gate and counts until {}", found_days_text(gate, today),
                       day_text(*until, today));
  }
  std::vector<std::string> met;
  std::vector<std::string> lacking;
  bool recorded = false;
  for (const Demand& demand : gate.demands) {
    recorded = recorded || demand.stated;
    if (demand.state == DemandState::met) {
      met.push_back(fmt::format("{} ({}, counts until {})", wanted(demand), day_text(*demand.stated, today),
                                day_text(*demand.counts_until, today)));
    } else {
      lacking.push_back(missing(demand, today));
    }
  }
  if (!recorded) return {};
  std::string text = met.empty() ? "" : fmt::format("Recorded: {}. ", fmt::join(met, "; "));
  return text + fmt::format("Still missing: {}", fmt::join(lacking, "; "));
}

std::string gate_missing_text(const journal::GateState& gate, Day today) {
  std::vector<std::string> lacking;
  for (const Demand& demand : gate.demands) {
    if (demand.state != DemandState::met) lacking.push_back(missing(demand, today));
  }
  return fmt::format("{}", fmt::join(lacking, "; "));
}

std::string waits_text(const rules::Pest& pest, const forecast::WindowForecast& window) {
  const bool waits = window.gate_met && window.state == forecast::WindowState::ahead && window.opened_by != nullptr;
  if (!waits || window.opening_seen) return {};
  for (const rules::Stage& stage : pest.stages) {
    for (const rules::Trigger& trigger : stage.begins) {
      if (trigger.id != window.opened_by->id || trigger.use != rules::Use::date) continue;
      return fmt::format("Not open yet: it waits for {}. If that is what was found, record the stage too: --stage {}",
                         stage.name, stage.id);
    }
  }
  return {};
}

bool is_held_back(const forecast::SiteForecast& site, const forecast::WindowForecast& window) {
  if (window.window->kind != rules::WindowKind::act) return false;
  if (site.weather.too_old || window.done || forecast::is_barred_at_site(window)) return true;
  if (window.barred_by != nullptr && window.state != forecast::WindowState::ahead) return true;
  return std::any_of(window.gate.demands.begin(), window.gate.demands.end(), [](const journal::Demand& demand) {
    return !demand.wants_seen && demand.state == journal::DemandState::contradicted;
  });
}

std::string done_text(const forecast::Done& done, Day today) {
  return fmt::format("done {} ({}): not again unless it is found after that day", day_text(done.day, today),
                     word(done.action));
}

std::optional<Day> last_day(const forecast::WindowForecast& window) {
  if (!window.offered || !window.gate_until) return window.until;
  return std::min(window.until.value_or(*window.gate_until), *window.gate_until);
}

}  // namespace budclock::report

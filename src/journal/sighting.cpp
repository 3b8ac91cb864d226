#include <budclock/journal/sighting.hpp>

#include <algorithm>

namespace budclock::journal {
namespace {

bool holds(const std::vector<std::string>& ids, const std::string& id) {
  return std::find(ids.begin(), ids.end(), id) != ids.end();
}

/// What a row says of an observation: seen, not seen, or nothing.
std::optional<bool> says_seen(const Sighting& row, const std::string& observation, bool wants_seen) {
  if (holds(row.saw, observation)) return true;
  if (holds(row.not_saw, observation)) return false;
  // No pest, so nothing of it to act on, even if it was seen before; that says nothing of what must be absent.
  if (row.not_found && row.stage.empty() && wants_seen) return false;
  return std::nullopt;
}

Demand demand(const rules::Pest& pest, const std::string& id, bool wants_seen, const std::vector<Sighting>& log,
              std::string_view site, Day today, const GateContext& context) {
  Demand demand{rules::find_observation(pest, id), wants_seen};
  bool agrees = false;
  for (const Sighting& row : log) {
    if (row.site != site || row.pest != pest.id || row.date > today || year_of(row.date) != year_of(today)) continue;
    if (!context.host.empty() && !row.hosts.empty() && !holds(row.hosts, context.host)) continue;
    const auto seen = says_seen(row, id, wants_seen);
    if (!seen || (demand.stated && row.date < *demand.stated)) continue;
    demand.stated = row.date;
    agrees = *seen == wants_seen;
  }
  if (!demand.stated) return demand;
  if (!agrees) {
    demand.state = DemandState::contradicted;
    return demand;
  }
  const Day year_end = date::year{year_of(today)} / date::December / 31;
  demand.counts_until = year_end;
  if (demand.observation != nullptr && demand.observation->valid_days) {
    demand.counts_until = std::min(year_end, *demand.stated + date::days{*demand.observation->valid_days});
  }
  demand.state = today <= *demand.counts_until ? DemandState::met : DemandState::aged;
  if (wants_seen && context.acted && *demand.stated <= *context.acted) demand.state = DemandState::acted_on;
  return demand;
}

}  // namespace

std::optional<StageFound> stage_found(const std::vector<Sighting>& log, std::string_view site, std::string_view pest,
                                      std::string_view stage, int season, Day today) {
  const auto speaks_of_it = [&](const Sighting& row) {
    return row.site == site && row.pest == pest && year_of(row.date) == season && row.date <= today;
  };
  std::optional<StageFound> found;
  for (const Sighting& row : log) {
    if (!speaks_of_it(row) || row.stage != stage || row.not_found) continue;
    if (!found || row.date < found->first) found = StageFound{row.date, std::nullopt};
  }
  if (!found) return found;
  const auto found_on_first = [&](const std::string& plant) {
    return std::any_of(log.begin(), log.end(), [&](const Sighting& row) {
      const bool found_it = !row.not_found && row.stage == stage && row.plant == plant;
      return speaks_of_it(row) && found_it && row.date == found->first;
    });
  };
  for (const Sighting& row : log) {
    const bool in_vain = row.not_found && (row.stage == stage || row.stage.empty());
    if (!speaks_of_it(row) || !in_vain || row.date > found->first) continue;
    if (row.date == found->first) {
      found->contradicted = found->contradicted || found_on_first(row.plant);
      continue;
    }
    if (!found->last_not_found || row.date > *found->last_not_found) found->last_not_found = row.date;
  }
  return found;
}

std::optional<Day> first_seen(const std::vector<Sighting>& log, std::string_view site, std::string_view pest,
                              const std::string& observation, int season, Day today) {
  std::optional<Day> first;
  for (const Sighting& row : log) {
    const bool counts = row.site == site && row.pest == pest && year_of(row.date) == season && row.date <= today;
    if (counts && holds(row.saw, observation)) first = std::min(first.value_or(row.date), row.date);
  }
  return first;
}

bool GateState::met() const {
  return std::all_of(demands.begin(), demands.end(), [](const Demand& d) { return d.state == DemandState::met; });
}

std::optional<Day> GateState::met_until() const {
  if (demands.empty() || !met()) return std::nullopt;
  const auto first = std::min_element(demands.begin(), demands.end(), [](const Demand& a, const Demand& b) {
    return *a.counts_until < *b.counts_until;
  });
  return first->counts_until;
}

GateState gate_state(const rules::Pest& pest, const rules::Gate& gate, const std::vector<Sighting>& log,
                     std::string_view site, Day today, const GateContext& context) {
  GateState state;
  for (const std::string& id : gate.seen) state.demands.push_back(demand(pest, id, true, log, site, today, context));
  for (const std::string& id : gate.absent) {
    state.demands.push_back(demand(pest, id, false, log, site, today, context));
  }
  return state;
}

}  // namespace budclock::journal

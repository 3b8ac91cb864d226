// What the facts of a site make of a kind of action for a day in the field.
#pragma once

#include <budclock/rules/pest.hpp>
#include <budclock/sites/site.hpp>

#include <vector>

namespace budclock::sites {

/// A rule that applies at the site, with the pests for which it does.
struct DayFact {
  rules::SiteRestriction rule;  ///< its actions: only those that windows of these pests list
  std::vector<const rules::Pest*> pests{};
};

/// What is barred and what is warned of at one site for one kind of action.
struct DayFacts {
  /// The pests of the site that the action could be used against, in table order: those with a window to act, on a
  /// plant that grows there, that lists it. All of the site's when there are none, for what is done all the same.
  std::vector<const rules::Pest*> pests{};
  bool is_listed = false;                    ///< some window to act of a pest of the site lists the action
  std::vector<const rules::Pest*> barred{};  ///< of `pests` those for which the site bars all that is listed
  std::vector<DayFact> facts{};              ///< bars first

  bool bars_all() const { return !pests.empty() && barred.size() == pests.size(); }
};

/// Holds `action` against the facts of the site on `today`. The table outlives what comes back.
DayFacts day_facts(const Site& site, const rules::PestTable& table, rules::DayAction action, Day today);

}  // namespace budclock::sites

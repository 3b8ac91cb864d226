// Which kinds of action a fact of a site bars or warns of (data/site_safety.json).
#pragma once

#include <budclock/core/date.hpp>
#include <budclock/rules/action.hpp>
#include <budclock/rules/citation.hpp>

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace budclock::rules {

/// What is known of a site that a rule may speak of. A host is a plant that the pest lives on.
enum class SiteFact : std::uint8_t {
  host_in_bloom,
  other_in_bloom,  ///< another plant, lawn weeds too
  host_due_to_bloom,
  other_due_to_bloom,
  hives,               ///< bee hives near
  water,               ///< water near
  oil_sensitive_host,  ///< the site names the host among its blue or oil-sensitive plants
  host_is,             ///< the host is one of the rule's plants
  predators,           ///< predators were released
  people,              ///< children or pets
  state,               ///< the site lies in one of the rule's states
  soil_unfit,          ///< frozen, saturated or dry
  drought,
};

struct SiteRule {
  std::string id;
  SiteFact fact = SiteFact::people;
  std::vector<Action> actions;
  bool bars = false;  ///< else it warns
  std::string text;   ///< what follows from the fact
  Citation citation;
  std::vector<std::string> pests;   ///< ids of those it concerns; empty: all
  std::vector<std::string> plants;  ///< of host_is: names
  std::vector<std::string> states;  ///< of state: two-letter postal codes
  std::optional<double> within_ft;  ///< of water: nearer than this, or near without a distance
};

/// A rule that applies at a site to a window, with the reason in words; or what the hours of a forecast rule out.
struct SiteRestriction {
  std::string id;
  std::vector<Action> actions;
  bool bars = false;
  std::string fact;  ///< "water at 15 ft"
  std::string text;  ///< "no soil drench so near to water"
  Citation citation;
  /// What passes, as bloom, counts for windows that are open or open by then; nothing: for all.
  std::optional<Day> until{};
};

/// The postal codes of the states of the United States, the District of Columbia and Puerto Rico, with their names.
struct State {
  std::string_view code;
  std::string_view name;
};
const std::vector<State>& states();

}  // namespace budclock::rules

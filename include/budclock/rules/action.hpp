// Kinds of action, and what they ask of whoever does them.
#pragma once

#include <cstdint>
#include <vector>

namespace budclock::rules {

/// Kinds of action; never a product, never a dose.
enum class Action : std::uint8_t {
  look,
  prune,            ///< cut out galls or tips
  pick,             ///< pick and destroy leaves
  contact,          ///< a labelled contact insecticide
  soap,             ///< insecticidal soap
  oil,              ///< horticultural oil
  soil_systemic,    ///< a systemic taken up by the roots
  trunk_systemic,   ///< a systemic on or in the trunk
  foliar_systemic,  ///< a systemic on the leaves
  quarantine,       ///< do not move plants
};

bool contains(const std::vector<Action>& kinds, Action kind);

/// True for an action with a pesticide, for which the product's label decides.
bool is_pesticide(Action action);

}  // namespace budclock::rules

#include <budclock/rules/action.hpp>

#include <algorithm>

namespace budclock::rules {

bool contains(const std::vector<Action>& kinds, Action kind) {
  return std::find(kinds.begin(), kinds.end(), kind) != kinds.end();
}

bool is_pesticide(Action action) {
  switch (action) {
    case Action::contact:
    case Action::soap:
    case Action::oil:
    case Action::soil_systemic:
    case Action::trunk_systemic:
    case Action::foliar_systemic:
      return true;
    case Action::look:
    case Action::prune:
    case Action::pick:
    case Action::quarantine:
      break;
  }
  return false;
}

}  // namespace budclock::rules

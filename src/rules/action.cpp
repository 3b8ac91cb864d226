#include <budclock/rules/action.hpp>

namespace budclock::rules {

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

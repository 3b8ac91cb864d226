// What a kind of action asks of whoever does it.
#pragma once

#include <budclock/rules/pest.hpp>

namespace budclock::rules {

/// True for an action with a pesticide, for which the product's label decides.
bool is_pesticide(Action action);

}  // namespace budclock::rules

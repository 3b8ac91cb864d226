// One line to the message stream.
#pragma once

#include "environment.hpp"

#include <string>

namespace budclock::cli {

/// "budclock: message", with control characters shown as \xNN: what was typed may stand in it.
void complain(const std::string& message, Environment& environment);

}  // namespace budclock::cli

// What is told on the message stream, and what it makes of the exit status.
#pragma once

#include <budclock/core/diagnostic.hpp>

#include "environment.hpp"
#include "exit_status.hpp"

#include <string>

namespace budclock::cli {

/// "budclock: message", with control characters shown as \xNN: what was typed may stand in it.
void complain(const std::string& message, Environment& environment);

/// Prints diagnostics to the message stream, one a line. Notes only when `notes` is true.
void print(const Diagnostics& diagnostics, Environment& environment, bool notes = true);

/// What is told when memory runs out, where nothing can be made to say more.
inline constexpr const char* k_no_memory =
    "budclock: there is not enough memory: let other programs end, or ask for less at once\n";

/// What the diagnostics of an answered question make of the exit status.
ExitStatus answered_with(const Diagnostics& diagnostics);

}  // namespace budclock::cli

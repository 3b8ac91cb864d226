// The whole program but for the process around it, so that tests can call it.
#pragma once

#include "environment.hpp"
#include "exit_status.hpp"

#include <string>
#include <vector>

namespace budclock::cli {

/// Runs one command line (without the program's name). Results go to `environment.out`, messages to `err`.
ExitStatus run(const std::vector<std::string>& arguments, Environment& environment);

/// For std::set_terminate: where memory runs out within a destructor (the JSON library's needs some), the program ends
/// with a message and a documented exit status there, too. Another exception aborts.
[[noreturn]] void end_without_memory();

}  // namespace budclock::cli

// The whole program but for the process around it, so that tests can call it.
#pragma once

#include "environment.hpp"
#include "exit_status.hpp"

#include <string>
#include <vector>

namespace budclock::cli {

/// Runs one command line (without the program's name). Results go to `environment.out`, messages to `err`.
ExitStatus run(const std::vector<std::string>& arguments, Environment& environment);

}  // namespace budclock::cli

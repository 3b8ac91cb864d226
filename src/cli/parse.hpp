// From arguments to options. The only place that knows the command-line library.
#pragma once

#include "options.hpp"

#include <string>
#include <vector>

namespace budclock::cli {

/// `arguments` without the program's name.
Command parse(const std::vector<std::string>& arguments);

}  // namespace budclock::cli

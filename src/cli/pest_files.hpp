// The pest table: what is shipped, and what a user adds or replaces.
#pragma once

#include <budclock/core/diagnostic.hpp>
#include <budclock/rules/pest.hpp>

#include "environment.hpp"

#include <optional>
#include <string>

namespace budclock::cli {

/// Loads the pest table and prints what is wrong with it: the shipped one, with the *.json files of `folder` (in order
/// of their names) added to it or in place of its entries; an empty name adds nothing. Nothing comes back when the
/// folder cannot be read or holds no such file. A file with a fault contributes nothing and is among `faults`, the
/// others stand.
std::optional<rules::PestTable> load_pests(const std::string& folder, Environment& environment, Diagnostics& faults);

}  // namespace budclock::cli

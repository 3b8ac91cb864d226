// The pest table: what is shipped, and what a user adds or replaces.
#pragma once

#include <budclock/core/diagnostic.hpp>
#include <budclock/rules/pest.hpp>

#include "environment.hpp"

#include <optional>
#include <string>
#include <vector>

namespace budclock::cli {

/// Loads the pest table and prints what is wrong with it: the shipped one, with the *.json files of `folder` (in order
/// of their names) added to it or in place of its entries; an empty name adds nothing. Nothing comes back when the
/// folder cannot be read or holds no such file. A file with a fault contributes nothing and is among `faults`, the
/// others stand.
std::optional<rules::PestTable> load_pests(const std::string& folder, Environment& environment, Diagnostics& faults);

/// The pests that a command line names, and those of the plants it names; all without either. Nothing after complaints
/// about names that fit none.
std::optional<std::vector<const rules::Pest*>> pests_asked(const rules::PestTable& table,
                                                           const std::vector<std::string>& names,
                                                           const std::vector<std::string>& hosts,
                                                           Environment& environment);

}  // namespace budclock::cli

// Which pests a command line means.
#pragma once

#include <budclock/rules/pest.hpp>

#include <string>
#include <vector>

namespace budclock::sites {

struct PestChoice {
  std::vector<const rules::Pest*> pests;  ///< in table order
  std::vector<std::string> problems;      ///< a name that fits no pest, with the nearest one
};

/// The entries of lists that are parted by commas, without blanks around them.
std::vector<std::string> list_entries(const std::vector<std::string>& lists);

/// Names match as in `pests_named`, or else by words that stand in a name ("boxwood", "hemlock woolly"); `hosts` adds
/// the pests of those plants, as in `pests_on`. Entries may hold several, parted by commas. Without names and hosts
/// all pests are meant.
PestChoice choose_pests(const rules::PestTable& table, const std::vector<std::string>& names,
                        const std::vector<std::string>& hosts = {});

}  // namespace budclock::sites

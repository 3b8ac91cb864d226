// Which rows of a log a command line asks for.
#pragma once

#include <budclock/core/date.hpp>
#include <budclock/rules/pest.hpp>

#include "environment.hpp"
#include "practice_files.hpp"

#include <algorithm>
#include <optional>
#include <string>
#include <vector>

namespace budclock::cli {

struct LogFilter {
  std::vector<std::string> sites;         ///< as the log names them; empty: all
  std::vector<const rules::Pest*> pests;  ///< only these
  std::optional<Day> from, to;

  /// Of a sighting or an action.
  template <class Row>
  bool takes(const Row& row) const {
    const bool site = sites.empty() || std::find(sites.begin(), sites.end(), row.site) != sites.end();
    const bool pest =
        std::any_of(pests.begin(), pests.end(), [&](const rules::Pest* each) { return each->id == row.pest; });
    return site && pest && (!from || row.date >= *from) && (!to || row.date <= *to);
  }
};

/// Puts the names of sites as the sites file has them; false after a complaint about one that it does not have.
bool match_sites(const SitesFile& file, std::vector<std::string>& names, Environment& environment);

}  // namespace budclock::cli

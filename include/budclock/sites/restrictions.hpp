// What the facts of a site make of an action there.
#pragma once

#include <budclock/rules/pest.hpp>
#include <budclock/sites/pest_names.hpp>
#include <budclock/sites/site.hpp>

#include <map>
#include <string>
#include <vector>

namespace budclock::sites {

/// What the rules of a table make of the facts of one site on `today`. The site and the table outlive it.
class Restrictions {
 public:
  Restrictions(const Site& site, const rules::PestTable& table, Day today);

  /// The rules that apply to actions against the pest on `host` (empty: on any of its hosts that grow there), bans
  /// first. A fact of only some of these plants warns where it would bar for all of them. Facts noted after `today` are
  /// passed over. What passes counts k_passing_days ahead.
  std::vector<rules::SiteRestriction> on(const rules::Pest& pest, const std::string& host) const;

 private:
  const Site& site_;
  const rules::PestTable& table_;
  Day today_;
  std::map<std::string, PlantHosts> plants_;  ///< by name: those that the site has or its facts speak of
};

/// A bloom or a drought says nothing of a window that opens later than this (common practice).
inline constexpr date::days k_passing_days{14};

}  // namespace budclock::sites

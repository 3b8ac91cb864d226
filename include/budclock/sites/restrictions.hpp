// What the facts of a site make of an action there.
#pragma once

#include <budclock/rules/pest.hpp>
#include <budclock/sites/site.hpp>

#include <string>
#include <vector>

namespace budclock::sites {

/// The rules of the table that apply at the site on `today` to actions against the pest on `host` (empty: on any of its
/// hosts that grow there), bans first. A fact of only some of these plants warns where it would bar for all of them.
/// Facts noted after `today` are passed over. What passes counts k_passing_days ahead.
std::vector<rules::SiteRestriction> restrictions_at(const Site& site, const rules::Pest& pest, const std::string& host,
                                                    const rules::PestTable& table, Day today);

/// A bloom or a drought says nothing of a window that opens later than this (common practice).
inline constexpr date::days k_passing_days{14};

}  // namespace budclock::sites

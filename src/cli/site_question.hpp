// What is asked of a site of a sites file, the same for every command.
#pragma once

#include <budclock/forecast/evaluate.hpp>
#include <budclock/journal/sighting.hpp>
#include <budclock/rules/pest.hpp>
#include <budclock/sites/site.hpp>

#include <vector>

namespace budclock::cli {

/// The pests of `asked` that concern the site; none: it cannot be answered.
std::vector<const rules::Pest*> pests_asked_at(const sites::Site& site, const rules::PestTable& table,
                                               const std::vector<const rules::Pest*>& asked);

/// Adds which hosts of the question's pests grow at the site, and what its facts bar or warn of on `today`.
void add_site_facts(const sites::Site& site, const rules::PestTable& table, Day today, forecast::Question& question);

/// The pests that concern the site, its place, what was seen and done there,
/// and what its facts bar or warn of on `today`; those that are not stated are a note.
forecast::Question question_of(const sites::Site& site, const rules::PestTable& table,
                               const std::vector<const rules::Pest*>& asked, const std::vector<journal::Sighting>& log,
                               const std::vector<journal::ActionTaken>& actions, Day today);

}  // namespace budclock::cli

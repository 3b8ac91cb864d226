#include "site_doubts.hpp"

#include <budclock/sites/pest_names.hpp>

#include <algorithm>
#include <fmt/format.h>

namespace budclock::cli {

bool note_missing_plant(const sites::Site& site, const rules::PestTable& table, const rules::Pest& pest,
                        Diagnostics& notes) {
  sites::Site all = site;
  all.mute.clear();  // a pest that is left out has its plants all the same
  const auto concerned = sites::pests_of(all, table);
  if (std::find(concerned.begin(), concerned.end(), &pest) != concerned.end()) return false;
  notes.push_back({Severity::note, site.place,
                   fmt::format("{} has no plant of the {}; recorded all the same", site.name, pest.name),
                   "add the plant to the site, or correct the row"});
  return true;
}

}  // namespace budclock::cli

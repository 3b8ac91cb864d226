#include "site_question.hpp"

#include <budclock/sites/pest_choice.hpp>
#include <budclock/sites/pest_names.hpp>
#include <budclock/sites/restrictions.hpp>

#include <algorithm>
#include <fmt/format.h>
#include <iterator>
#include <utility>

namespace budclock::cli {

forecast::Question question_of(const sites::Site& site, const rules::PestTable& table,
                               const std::vector<const rules::Pest*>& asked, const std::vector<journal::Sighting>& log,
                               const std::vector<journal::ActionTaken>& actions, Day today) {
  forecast::Question question;
  question.site = printable(site.name);
  question.pests = sites::pests_of(site, table);
  std::erase_if(question.pests,
                [&](const rules::Pest* pest) { return std::find(asked.begin(), asked.end(), pest) == asked.end(); });
  for (const rules::Pest* pest : question.pests) {
    auto hosts = sites::hosts_at(site, *pest, table);
    if (!hosts.empty()) question.hosts[pest->id] = std::move(hosts);
  }
  question.place = forecast::Coordinates{site.latitude, site.longitude};
  question.regions = &table.regions;
  std::copy_if(log.begin(), log.end(), std::back_inserter(question.sightings),
               [&](const journal::Sighting& row) { return row.site == site.name; });
  std::copy_if(actions.begin(), actions.end(), std::back_inserter(question.actions),
               [&](const journal::ActionTaken& row) { return row.site == site.name; });
  for (const rules::Pest* pest : question.pests) {
    for (const rules::Window& window : pest->windows) {
      if (window.kind != rules::WindowKind::act) continue;
      auto& restrictions = question.restrictions[{pest->id, window.host}];
      if (restrictions.empty()) restrictions = sites::restrictions_at(site, *pest, window.host, table, today);
    }
  }
  if (const auto missing = sites::not_stated(site.safety, today); !missing.empty()) {
    question.site_notes.push_back(
        fmt::format("Not stated for this site: {}. None of it is taken as safe: ask and look before anything is done.",
                    fmt::join(missing, ", ")));
  }
  return question;
}

}  // namespace budclock::cli

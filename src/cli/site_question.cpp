#include "site_question.hpp"

#include <budclock/sites/pest_choice.hpp>
#include <budclock/sites/pest_names.hpp>
#include <budclock/sites/restrictions.hpp>

#include <algorithm>
#include <fmt/format.h>
#include <iterator>
#include <utility>

namespace budclock::cli {

std::vector<const rules::Pest*> pests_asked_at(const sites::Site& site, const rules::PestTable& table,
                                               const std::vector<const rules::Pest*>& asked) {
  auto pests = sites::pests_of(site, table);
  std::erase_if(pests,
                [&](const rules::Pest* pest) { return std::find(asked.begin(), asked.end(), pest) == asked.end(); });
  return pests;
}

void add_site_facts(const sites::Site& site, const rules::PestTable& table, Day today, forecast::Question& question) {
  question.hosts = sites::hosts_at(site, table);
  const sites::Restrictions restrictions{site, table, today};
  for (const rules::Pest* pest : question.pests) {
    for (const rules::Window& window : pest->windows) {
      if (window.kind != rules::WindowKind::act) continue;
      const auto [on_host, is_new] = question.restrictions.try_emplace({pest->id, window.host});
      if (is_new) on_host->second = restrictions.on(*pest, window.host);
    }
  }
}

forecast::Question question_of(const sites::Site& site, const rules::PestTable& table,
                               const std::vector<const rules::Pest*>& asked, const std::vector<journal::Sighting>& log,
                               const std::vector<journal::ActionTaken>& actions, Day today) {
  forecast::Question question;
  question.site = printable(site.name);
  question.pests = pests_asked_at(site, table, asked);
  question.place = forecast::Coordinates{site.latitude, site.longitude};
  question.regions = &table.regions;
  std::copy_if(log.begin(), log.end(), std::back_inserter(question.sightings),
               [&](const journal::Sighting& row) { return row.site == site.name; });
  std::copy_if(actions.begin(), actions.end(), std::back_inserter(question.actions),
               [&](const journal::ActionTaken& row) { return row.site == site.name; });
  add_site_facts(site, table, today, question);
  if (const auto missing = sites::not_stated(site.safety, today); !missing.empty()) {
    question.site_notes.push_back(
        fmt::format("Not stated for this site: {}. None of it is taken as safe: ask and look before anything is done.",
                    fmt::join(missing, ", ")));
  }
  return question;
}

}  // namespace budclock::cli

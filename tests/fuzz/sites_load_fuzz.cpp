// Any bytes as a sites file: no crash, no hang, and what comes out keeps its promises.
#include <budclock/core/utf8.hpp>
#include <budclock/rules/pest.hpp>
#include <budclock/sites/file_name.hpp>
#include <budclock/sites/load.hpp>
#include <budclock/sites/pest_names.hpp>
#include <budclock/sites/restrictions.hpp>

#include "fuzz.hpp"

#include <cstdlib>

using namespace budclock;

namespace {

const Day k_today{date::year{2026} / 4 / 20};

void demand(bool held) {
  if (!held) std::abort();
}

rules::PestTable pests() {
  rules::PestTable table;
  table.pests.resize(2);
  table.pests[0].id = "test-psyllid";
  table.pests[0].name = "test psyllid";
  table.pests[0].hosts = {{"testwood", "Arbor ficta", {"fictwood"}}, {"fir", "", {}}};
  table.pests[1].id = "other-psyllid";
  table.pests[1].name = "other psyllid";
  table.pests[1].hosts = {{"Douglas-fir", "", {}}};
  table.bee_plants = {"clover"};
  table.day_limits.resize(2);
  table.day_limits[0].id = "wind";
  table.day_limits[0].measure = rules::Measure::wind;
  table.day_limits[1].id = "soil-state";
  table.day_limits[1].measure = rules::Measure::soil;
  for (int fact = 0; fact <= static_cast<int>(rules::SiteFact::drought); ++fact) {
    rules::SiteRule rule{"rule", static_cast<rules::SiteFact>(fact), {rules::Action::oil}, true, "text", {}, {}, {}, {},
                         {}};
    rule.plants = {"testwood"};
    rule.states = {"ME", "OH"};
    rule.within_ft = 75;
    table.site_rules.push_back(std::move(rule));
  }
  return table;
}

void check_site(const sites::Site& site, const rules::PestTable& table) {
  demand(!site.name.empty() && printable(site.name) == site.name);
  demand(site.latitude >= -90 && site.latitude <= 90 && site.longitude >= -180 && site.longitude <= 180);
  demand(!site.weather.sources.empty());
  for (const auto& source : site.weather.sources) demand(!source.files.empty());
  const std::string file = sites::safe_file_name(site.name);
  demand(!file.empty() && file.size() <= 82 && file.find('/') == std::string::npos && file.front() != '.');
  demand(sites::pests_of(site, table).size() <= table.pests.size());
  for (const auto& near : {site.safety.water, site.safety.hives}) {
    demand(!near || !near->feet || (*near->feet >= 0 && !near->distance.empty()));
  }
  for (const auto& names : {site.safety.in_bloom, site.safety.due_to_bloom, site.safety.predators}) {
    if (!names) continue;
    for (const sites::DatedName& each : *names) demand(!each.name.empty() && printable(each.name) == each.name);
  }
  demand(rules::with_own(table.day_limits, site.limits).size() == table.day_limits.size());
  for (const rules::Pest& pest : table.pests) {
    for (const auto& each : sites::Restrictions{site, table, k_today}.on(pest, "")) {
      demand(!each.fact.empty() && printable(each.fact) == each.fact);
    }
  }
}

}  // namespace

int fuzz_one(const std::uint8_t* data, std::size_t size) {
  const std::string_view text{reinterpret_cast<const char*>(data), size};
  static const rules::PestTable table = pests();
  Diagnostics diagnostics;
  const sites::SiteList list = sites::load_sites(text, "sites", table, diagnostics, k_today);
  demand(list.sites.empty() || !any_at_least(diagnostics, Severity::error));
  demand(list.set_aside.empty() || any_at_least(diagnostics, Severity::fault));
  for (const Diagnostic& diagnostic : diagnostics) {
    demand(!diagnostic.message.empty() && !diagnostic.remedy.empty());
    demand(find_invalid_utf8(to_text(diagnostic)) == std::string_view::npos);
  }
  for (const sites::Site& site : list.sites) {
    check_site(site, table);
    demand(sites::find_site(list.sites, site.name) == &site);
  }
  return 0;
}

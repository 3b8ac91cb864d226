// Any bytes as a sites file: no crash, no hang, and what comes out keeps its promises.
#include <budclock/core/utf8.hpp>
#include <budclock/rules/pest.hpp>
#include <budclock/sites/file_name.hpp>
#include <budclock/sites/load.hpp>
#include <budclock/sites/pest_names.hpp>

#include "fuzz.hpp"

#include <cstdlib>

using namespace budclock;

namespace {

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
}

}  // namespace

int fuzz_one(const std::uint8_t* data, std::size_t size) {
  const std::string_view text{reinterpret_cast<const char*>(data), size};
  static const rules::PestTable table = pests();
  Diagnostics diagnostics;
  const sites::SiteList list = sites::load_sites(text, "sites", table, diagnostics);
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

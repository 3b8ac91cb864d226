// Pests by the names and hosts that people write.
#pragma once

#include <budclock/rules/pest.hpp>
#include <budclock/sites/site.hpp>

#include <map>
#include <string>
#include <string_view>
#include <vector>

namespace budclock::sites {

/// The pests of that id, common, scientific or other name, without regard to case and hyphens; in table order. A name
/// can belong to several.
std::vector<const rules::Pest*> pests_named(const rules::PestTable& table, std::string_view name);

/// "did you mean "boxwood psyllid"?", or what to do.
std::string suggest_pest(const rules::PestTable& table, std::string_view name);

/// The pests that live on a plant as people name it: "boxwood hedge", "hemlocks", "Tsuga canadensis", "pine".
/// A "Douglas fir" is no fir.
std::vector<const rules::Pest*> pests_on(const rules::PestTable& table, std::string_view plant);

/// What a plant is to the pests of a table.
struct PlantHosts {
  std::vector<const rules::Pest*> pests{};  ///< as `pests_on`
  /// Those that it is, and those that it may be: "pine", an eastern white pine.
  std::vector<const rules::Host*> hosts{};
};
PlantHosts hosts_of(const rules::PestTable& table, std::string_view plant);

/// The names of the pest's hosts that a plant is or may be; none when its name tells of none.
std::vector<std::string> hosts_on(const rules::PestTable& table, const rules::Pest& pest, std::string_view plant);

/// The pests that concern a site: those on its plants and those it watches, without those it mutes; in table order.
/// All but the muted ones when it names neither plants nor pests to watch.
std::vector<const rules::Pest*> pests_of(const Site& site, const rules::PestTable& table);

/// Why no pest concerns a site, in words that name its plants when they are the reason.
std::string why_no_pest(const Site& site, const rules::PestTable& table);

/// The names of each pest's hosts that grow at the site, by the pest's id. A pest is not there when they are not known:
/// the site names no plant of it, or watches it whatever its plants.
std::map<std::string, std::vector<std::string>> hosts_at(const Site& site, const rules::PestTable& table);

/// Whether a host of the pest (empty: any) may grow at the site for which `hosts_at` gave `hosts`.
bool may_grow(const std::map<std::string, std::vector<std::string>>& hosts, const rules::Pest& pest,
              const std::string& host);

/// The host that a plant's name, or a word or run of words in it, most likely misspells: "boxwod hedge", boxwood. Empty
/// when a pest lives on the plant or nothing is near.
std::string misspelt_host(const rules::PestTable& table, std::string_view plant);

}  // namespace budclock::sites

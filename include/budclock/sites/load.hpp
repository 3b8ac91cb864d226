// From a sites file to sites.
#pragma once

#include <budclock/core/diagnostic.hpp>
#include <budclock/rules/pest.hpp>
#include <budclock/sites/site.hpp>

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace budclock::sites {

/// A site that could not be used; the diagnostics say why.
struct SiteSetAside {
  std::string name;  ///< empty when the name itself is at fault
  Place place;
};

struct SiteList {
  std::vector<Site> sites;  ///< in file order
  std::vector<SiteSetAside> set_aside;
};

/// Loads a sites file: JSON when its first mark is a brace or bracket, else CSV with one row a site. `file_name`
/// stands in the diagnostics. A site with a fault is set aside as a whole (a forecast without its offset would be
/// wrong), the others stand; a file that is no sites file at all gives an error and no site. A plant that looks like
/// a misspelt host of a pest is a note. Neither this nor anything else in this folder opens a file.
///
/// Nothing can have been noted after `last`; without it any day goes.
///
/// Columns of the CSV: name, latitude, longitude (required), elevation_m, weather, station, units, date_order,
/// date_column, tmax_column, tmin_column, offset_c, offset_f, station_elevation_m, read_time, gaps, forecasts, plants,
/// watch, mute, the safety facts state, water, in_bloom, due_to_bloom, hives, oil_sensitive, predators,
/// children_or_pets, soil and drought, limits, and any contact_...; in lists several entries are separated by
/// semicolons. A row has one weather source, whose files are all read the same way. A row that cannot be split into
/// cells is a site set aside, named by its line.
SiteList load_sites(std::string_view text, std::string_view file_name, const rules::PestTable& pests,
                    Diagnostics& diagnostics, std::optional<Day> last = {});

/// The site of that name, upper and lower case taken as equal; null when there is none.
const Site* find_site(const std::vector<Site>& sites, std::string_view name);

/// "did you mean "Mill Lane"?", or the names there are.
std::string suggest_site(const std::vector<Site>& sites, std::string_view name);

}  // namespace budclock::sites

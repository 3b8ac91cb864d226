#include "check_practice.hpp"

#include <budclock/forecast/distance.hpp>
#include <budclock/sites/hand_table.hpp>
#include <budclock/sites/pest_names.hpp>

#include <algorithm>
#include <fmt/format.h>
#include <limits>
#include <utility>

namespace budclock::cli {
namespace {

/// The header line has these columns; what else it has does not matter.
bool has_columns(std::string_view text, const std::vector<std::string_view>& wanted) {
  Diagnostics ignored;
  const sites::HandTable table = sites::read_hand_table(text, "", {wanted, wanted, ""}, ignored);
  return !table.header.empty();
}

/// The first lines, of which one is the header if any is.
std::string_view first_lines(std::string_view text) { return text.substr(0, k_enough_to_tell); }

double kilometres_to_nearest(forecast::Coordinates place, const rules::PestTable& pests) {
  double nearest = std::numeric_limits<double>::infinity();
  for (const rules::Region& region : pests.regions) {
    nearest = std::min(nearest, forecast::kilometres_between(place, {region.latitude, region.longitude}));
  }
  return nearest;
}

/// Farther than this from every region of the table a place is most likely mistyped: the Pacific shore is 1,500 km from
/// the Rocky Mountains, and a sign that is lost moves a place by 10,000. Common practice.
constexpr double k_mistyped_km = 2'500;

/// A note when the site lies far from all that the table knows, with the likeliest slip.
void note_far_place(const sites::Site& site, const rules::PestTable& pests, Diagnostics& diagnostics) {
  const double distance = kilometres_to_nearest({site.latitude, site.longitude}, pests);
  if (pests.regions.empty() || distance <= k_mistyped_km) return;
  const auto is_near = [&](forecast::Coordinates place) {
    return kilometres_to_nearest(place, pests) <= k_mistyped_km;
  };
  const char* remedy = is_near({site.latitude, -site.longitude})  ? "is the longitude west (negative)?"
                       : is_near({site.longitude, site.latitude}) ? "are latitude and longitude swapped?"
                                                                  : "are latitude and longitude right?";
  diagnostics.push_back(
      {Severity::note, site.place,
       fmt::format("{} lies {:.0f} km from the nearest place that any figure here is from", site.name, distance),
       remedy});
}

void note_no_pest(const sites::Site& site, const rules::PestTable& pests, Diagnostics& diagnostics) {
  if (!sites::pests_of(site, pests).empty()) return;
  diagnostics.push_back({Severity::note, site.place, fmt::format("{}: {}", site.name, sites::why_no_pest(site, pests)),
                         "name its plants, or pests to watch"});
}

}  // namespace

PracticeFile practice_file(std::string_view text) {
  const std::size_t first = text.find_first_not_of("\xEF\xBB\xBF \t\r\n");
  if (first == std::string_view::npos) return PracticeFile::neither;
  if (text[first] == '{' || text[first] == '[') {
    const bool sites =
        text.find("\"budclock/sites/") != std::string_view::npos || text.find("\"sites\"") != std::string_view::npos;
    return sites ? PracticeFile::sites : PracticeFile::neither;
  }
  const std::string_view lines = first_lines(text);
  if (has_columns(lines, {"date", "site", "pest", "action"})) return PracticeFile::actions;
  if (has_columns(lines, {"date", "site", "pest"})) return PracticeFile::log;
  // Tables of weather name their station and its place too, but they have dates.
  if (has_columns(lines, {"name", "latitude", "longitude"}) && !has_columns(lines, {"date"})) {
    return PracticeFile::sites;
  }
  return PracticeFile::neither;
}

Diagnostics check_sites_text(std::string_view text, std::string_view file_name, const rules::PestTable& pests,
                             std::optional<Day> last) {
  Diagnostics diagnostics;
  const sites::SiteList list = sites::load_sites(text, file_name, pests, diagnostics, last);
  for (const sites::Site& site : list.sites) {
    note_far_place(site, pests, diagnostics);
    note_no_pest(site, pests, diagnostics);
  }
  std::stable_sort(diagnostics.begin(), diagnostics.end(), [](const Diagnostic& a, const Diagnostic& b) {
    return std::pair{a.place.line, a.place.column} < std::pair{b.place.line, b.place.column};
  });
  return diagnostics;
}

Diagnostics check_log_text(std::string_view text, std::string_view file_name, const journal::LogContext& context) {
  Diagnostics diagnostics;
  journal::read_log(text, file_name, context, diagnostics);
  return diagnostics;
}

Diagnostics check_actions_text(std::string_view text, std::string_view file_name, const journal::LogContext& context) {
  Diagnostics diagnostics;
  journal::read_actions(text, file_name, context, diagnostics);
  return diagnostics;
}

}  // namespace budclock::cli

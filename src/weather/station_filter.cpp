#include <budclock/weather/station_filter.hpp>

#include <algorithm>
#include <fmt/format.h>

namespace budclock::weather {

void StationFilter::remember(std::string_view id) {
  if (id == last_other_) return;
  last_other_ = id;
  if (others_.size() > k_most_named) return;
  if (std::find(others_.begin(), others_.end(), id) == others_.end()) others_.emplace_back(id);
}

bool StationFilter::report_if_unknown(ProblemList& problems) const {
  if (kept_any_ || others_.empty()) return false;
  const std::size_t shown = std::min(others_.size(), k_most_named);
  std::string ids;
  for (std::size_t i = 0; i < shown; ++i) ids += (i > 0 ? ", " : "") + others_[i];
  if (others_.size() > shown) ids += ", ...";
  problems.add(Severity::error, 0, 0, fmt::format("no row is of station \"{}\"", wanted_), "the file has " + ids);
  return true;
}

}  // namespace budclock::weather

#include <budclock/forecast/spread.hpp>

#include <algorithm>
#include <cmath>
#include <functional>
#include <utility>

namespace budclock::forecast {
namespace {

/// Orders dates with "never" last.
bool comes_before(const std::optional<Day>& a, const std::optional<Day>& b) {
  if (!a) return false;
  return !b || *a < *b;
}

template <class Picks>
Spread member_by_member(const std::vector<Spread>& spreads, Picks picks) {
  Spread combined = spreads.front();
  for (const Spread& spread : spreads) {
    for (std::size_t m = 0; m < combined.dates.size(); ++m) {
      if (picks(spread.dates[m], combined.dates[m])) combined.dates[m] = spread.dates[m];
    }
  }
  return combined;
}

}  // namespace

Spread certain(Day day, std::size_t members) {
  return {std::vector<std::optional<Day>>(std::max<std::size_t>(members, 1), day), {}};
}

Spread unknown(std::string why) { return {{}, std::move(why)}; }

double share_reached(const Spread& spread) {
  if (!spread.known()) return 0;
  const auto reached =
      std::count_if(spread.dates.begin(), spread.dates.end(), [](const auto& date) { return date.has_value(); });
  return static_cast<double>(reached) / static_cast<double>(spread.dates.size());
}

double share_reached_by(const Spread& spread, Day day) {
  if (!spread.known()) return 0;
  const auto reached =
      std::count_if(spread.dates.begin(), spread.dates.end(), [day](const auto& date) { return date && *date <= day; });
  return static_cast<double>(reached) / static_cast<double>(spread.dates.size());
}

TenthPlaces tenth_places(std::size_t members) {
  const auto count = static_cast<double>(members);
  const auto place = [&](double rank) { return static_cast<std::size_t>(std::clamp(rank, 1.0, count)) - 1; };
  return {place(std::floor(0.1 * (count + 1))), place(std::ceil(0.5 * count)), place(std::ceil(0.9 * (count + 1)))};
}

Summary summarize(const Spread& spread) {
  Summary summary;
  if (!spread.known()) return summary;
  auto sorted = spread.dates;
  std::sort(sorted.begin(), sorted.end(), comes_before);
  const TenthPlaces places = tenth_places(sorted.size());
  summary.early = sorted[places.low];
  summary.likely = sorted[places.middle];
  summary.late = sorted[places.high];
  summary.members = sorted.size();
  summary.share = share_reached(spread);
  summary.spread_out = sorted.front() != sorted.back();
  return summary;
}

Spread earliest(const std::vector<Spread>& spreads) { return member_by_member(spreads, comes_before); }

Spread latest(const std::vector<Spread>& spreads) {
  return member_by_member(spreads, [](const auto& a, const auto& b) { return comes_before(b, a); });
}

Spread pooled(const std::vector<Spread>& spreads) {
  Spread pool;
  for (const Spread& spread : spreads) pool.dates.insert(pool.dates.end(), spread.dates.begin(), spread.dates.end());
  return pool;
}

}  // namespace budclock::forecast

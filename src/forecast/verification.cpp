#include <budclock/forecast/verification.hpp>

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <random>
#include <utility>

namespace budclock::forecast {
namespace {

constexpr std::size_t k_draws = 1000;
constexpr std::uint64_t k_seed = 20140416;

double mean_error(const std::vector<double>& members, double observed) {
  double sum = 0;
  for (const double member : members) sum += std::abs(member - observed);
  return sum / static_cast<double>(members.size());
}

/// Sum of |a - b| over all ordered pairs.
double pair_sum(std::vector<double> members) {
  std::sort(members.begin(), members.end());
  double sum = 0;
  const auto count = static_cast<double>(members.size());
  for (std::size_t i = 0; i < members.size(); ++i) sum += (2 * static_cast<double>(i) - count + 1) * members[i];
  return 2 * sum;
}

/// Score and reference of all cases of one year.
struct YearSums {
  double score = 0;
  double reference = 0;
};

std::vector<std::vector<YearSums>> by_stratum(const std::vector<ScoredCase>& cases) {
  std::map<std::pair<int, int>, YearSums> years;
  for (const ScoredCase& each : cases) {
    YearSums& sums = years[{each.stratum, each.year}];
    sums.score += each.score;
    sums.reference += each.reference;
  }
  std::map<int, std::vector<YearSums>> strata;
  for (const auto& [key, sums] : years) strata[key.first].push_back(sums);
  std::vector<std::vector<YearSums>> lists;
  for (auto& [stratum, list] : strata) lists.push_back(std::move(list));
  return lists;
}

/// An index below `count`. The standard's own distributions differ between machines.
std::size_t draw(std::mt19937_64& engine, std::size_t count) {
  const double share = static_cast<double>(engine() >> 11U) * 0x1.0p-53;
  return static_cast<std::size_t>(share * static_cast<double>(count));
}

}  // namespace

double crps(const std::vector<double>& members, double observed) {
  const auto count = static_cast<double>(members.size());
  return mean_error(members, observed) - pair_sum(members) / (2 * count * count);
}

double fair_crps(const std::vector<double>& members, double observed) {
  const auto count = static_cast<double>(members.size());
  if (members.size() < 2) return mean_error(members, observed);
  return mean_error(members, observed) - pair_sum(members) / (2 * count * (count - 1));
}

PitRange pit_range(const std::vector<double>& members, double observed) {
  double before = 0;
  double tied = 0;
  for (const double member : members) {
    if (member < observed) ++before;
    if (member == observed) ++tied;
  }
  const double places = static_cast<double>(members.size()) + 1;
  return {before / places, (before + tied + 1) / places};
}

double randomised_pit(PitRange range, double uniform) { return range.low + uniform * (range.high - range.low); }

double share_inside(PitRange range, double from, double to) {
  const double overlap = std::min(range.high, to) - std::max(range.low, from);
  return std::max(overlap, 0.0) / (range.high - range.low);
}

void RankHistogram::add(PitRange range) {
  for (std::size_t bin = 0; bin < k_bins; ++bin) {
    const auto width = static_cast<double>(k_bins);
    counts_[bin] += share_inside(range, static_cast<double>(bin) / width, static_cast<double>(bin + 1) / width);
  }
}

double skill(double score, double reference) {
  if (reference != 0) return 1 - score / reference;
  return score == 0 ? 0 : -std::numeric_limits<double>::infinity();
}

SkillRange bootstrap_skill(const std::vector<ScoredCase>& cases) {
  if (cases.empty()) return {};
  const auto strata = by_stratum(cases);
  YearSums all;
  for (const ScoredCase& each : cases) {
    all.score += each.score;
    all.reference += each.reference;
  }
  std::mt19937_64 engine{k_seed};
  std::vector<double> skills;
  for (std::size_t i = 0; i < k_draws; ++i) {
    YearSums sums;
    for (const auto& years : strata) {
      for (std::size_t n = 0; n < years.size(); ++n) {
        const YearSums& year = years[draw(engine, years.size())];
        sums.score += year.score;
        sums.reference += year.reference;
      }
    }
    skills.push_back(skill(sums.score, sums.reference));
  }
  std::sort(skills.begin(), skills.end());
  return {skill(all.score, all.reference), skills[k_draws / 20], skills[k_draws - k_draws / 20 - 1]};
}

}  // namespace budclock::forecast

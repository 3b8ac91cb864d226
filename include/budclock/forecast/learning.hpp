// What a site's own finds say about a published sum: by how much it comes earlier or later there.
//
// The published sum is taken as the mean of many sites, this site's as one of them, and each year's sum at this site as
// scattered about the site's (normal-normal shrinkage; the weights as in Efron & Morris 1975, J. Am. Stat. Assoc.
// 70:311-319). A few seasons move the sum a little, many seasons more, and never far: predictions got worse where
// parameters followed years unlike the next (Viswanathan et al. 2022, Biogeosciences 19:2187). A find lies between two
// visits; its sum is taken at the middle and its scatter grows by the variance of a uniform interval, width^2/12.
#pragma once

#include <budclock/core/date.hpp>
#include <budclock/core/temperature.hpp>
#include <budclock/forecast/season.hpp>
#include <budclock/forecast/spread.hpp>
#include <budclock/journal/sighting.hpp>

#include <cstddef>
#include <optional>
#include <string_view>
#include <vector>

namespace budclock::forecast {

/// A published sum and its scatter. All numbers in degree-days of one unit, above zero.
struct ThresholdPrior {
  double published = 0;
  double between_sites = 0;  ///< standard deviation of sites' sums about the published one
  double between_years = 0;  ///< standard deviation of years' sums at one site
};

/// The prior of a sum with a published standard deviation, which is taken for that of the years. Sites differ by 10 %
/// of the sum (common practice: no source separates sites from years), and by no more than the published scatter.
ThresholdPrior threshold_prior(double published, double published_scatter);

/// What stands in for a scatter that no source prints, in scores of past seasons only: 15 % of the sum, as codling
/// moth's 96 +/- 14.4 (Jones, Doerr & Brunner 2008, J. Econ. Entomol. 101:1651-1657). No forecast rests on it.
double scatter_in_place(double published);

/// A season in which an event was seen to fall between two visits.
struct SeenBetween {
  Day last_not_found{};
  Day first_found{};
};

/// Only a find with a visit in vain at most so long before it tells when the event was: a crew that comes late finds
/// what happened long ago.
inline constexpr date::days k_longest_between_visits{14};
bool teaches(const SeenBetween& seen);

/// A site's finds of a stage in the calendar years from first_year through last_year, one a year. A find without a
/// visit in vain before it, or that another row of the day contradicts, is kept as one that does not teach, to be
/// counted.
std::vector<SeenBetween> finds_of(const std::vector<journal::Sighting>& log, std::string_view site,
                                  std::string_view pest, std::string_view stage, int first_year, int last_year);

/// The sum at an event seen between two visits: the middle, and how far apart the sums at the two visits are.
struct SeenSum {
  double middle = 0;
  double width = 0;
};

/// In degree-days F. Nothing when the visits do not teach, lie outside the season's known days, or days are missing.
std::optional<SeenSum> seen_sum(const Season& season, const SeenBetween& seen);

struct LearnedThreshold {
  double sum = 0;         ///< of this site, shrunk towards the published one
  double deviation = 0;   ///< standard deviation of what is known of it
  double predictive = 0;  ///< standard deviation of the next season's sum
  double weight = 0;      ///< of the site's own seasons against the published sum, 0 to 1
  std::size_t seasons = 0;
  bool held_back = false;  ///< it would have moved farther than two standard deviations between sites
};

/// Without seasons: the published sum and its scatter.
LearnedThreshold learn(const ThresholdPrior& prior, const std::vector<SeenSum>& seen);

/// What the finds of past seasons say of a published sum at a site. Degree-days F.
struct LocalSum {
  double published = 0;
  std::optional<double> scatter{};  ///< published; nothing: the source prints none
  std::size_t seasons = 0;          ///< past ones that teach
  std::size_t set_aside = 0;        ///< past ones with a find that does not: see `teaches`; or weather is missing
  /// The log alone, 0 without seasons: the middle sums' mean, lowest and highest.
  double mean = 0, lowest = 0, highest = 0;
  /// Shrunk towards the published sum; nothing without a published scatter, from which alone it can be told how far a
  /// site may lie off.
  std::optional<LearnedThreshold> learned{};
};

/// From the finds of a site in seasons other than that of `today`. `record` counts as the figure does.
LocalSum local_sum(const DegreeDayRecord& record, MonthDay start, Day today, double published,
                   std::optional<double> scatter, const std::vector<SeenBetween>& finds);

/// When an uncertain sum is reached: the dates of the season's members at each of `k_threshold_slices` equal slices of
/// the normal distribution, all together. So weather and threshold spread are one; `deviation` 0 is the weather alone.
/// Sums and deviation in degree-days F; slices at or below zero count as reached when the season begins.
inline constexpr std::size_t k_threshold_slices = 9;
Spread first_reached_about(const Season& season, double sum, double deviation);

}  // namespace budclock::forecast

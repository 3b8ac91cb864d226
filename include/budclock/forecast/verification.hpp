// Scores of forecast dates: how far off, how honest the spread, how much better than a rival.
//
// Dates are numbers of days from any common origin. An event that is not reached (in a member or in truth) is given
// the day after its season's last day before it comes here, so that "not this season" is a date later than all others
// and stays in every denominator: the CRPS is then the integral up to the end of the season.
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <vector>

namespace budclock::forecast {

/// Continuous ranked probability score of an ensemble, in days: the integral of (F(x) - 1{x >= observed})^2 over x, F
/// giving each member 1/M (Hersbach 2000, Wea. Forecasting 15:559-570). 0 is best; of a single date it is the absolute
/// error. There must be a member.
double crps(const std::vector<double>& members, double observed);

/// The same without the penalty of a small ensemble, for comparing ensembles of different size: the mean difference of
/// pairs is divided by M(M-1) in place of M^2 (Ferro 2014, Q. J. R. Meteorol. Soc. 140:1917-1923). Can be below zero.
/// One member: its absolute error.
double fair_crps(const std::vector<double>& members, double observed);

/// Where truth lies among M members, as a share of the M+1 places between them: the randomised probability integral
/// transform is uniform between `low` and `high`, which are apart by the tied places and one more. Uniform on 0..1 in
/// the long run when truth is like another member (Hamill 2001, Mon. Wea. Rev. 129:550-560, with ties at random).
struct PitRange {
  double low = 0;
  double high = 1;
};
PitRange pit_range(const std::vector<double>& members, double observed);

/// The transform itself, for a `uniform` number in 0..1.
double randomised_pit(PitRange range, double uniform);

/// The probability that the randomised transform lies in from..to: the mean over all draws, so no draw is needed.
double share_inside(PitRange range, double from, double to);

/// The transform's share in each tenth: how often truth fell among the earliest tenth of the forecast, and so on.
/// Flat: the spread is right; high ends: too narrow; a dome: too wide; a slope: biased.
class RankHistogram {
 public:
  static constexpr std::size_t k_bins = 10;
  void add(PitRange range);
  const std::array<double, k_bins>& counts() const { return counts_; }

 private:
  std::array<double, k_bins> counts_{};
};

/// 1 - score/reference: 1 is perfect, 0 no better than the reference. 0 when both are 0; a reference of 0 that is
/// missed gives minus infinity.
double skill(double score, double reference);

/// The score of one forecast beside its rival's, and the year whose weather both met.
struct ScoredCase {
  int year = 0;
  int stratum = 0;  ///< cases of one stratum are drawn among themselves; records of different spans are strata
  double score = 0;
  double reference = 0;
};

/// A skill and the middle nine tenths of what other years might have shown.
struct SkillRange {
  double skill = 0;
  double low = 0;
  double high = 0;
};

/// The skill of the sums of all cases, and its 5 % and 95 % quantiles when years are drawn anew with replacement, as
/// many in each stratum as it has (Efron & Tibshirani 1993, An Introduction to the Bootstrap, chapter 13: percentile
/// interval). All cases of a year go together, for one year's weather meets all of them. 1000 draws by std::mt19937_64
/// from a fixed seed: the same cases give the same range on every machine. No case: all zero.
SkillRange bootstrap_skill(const std::vector<ScoredCase>& cases);

}  // namespace budclock::forecast

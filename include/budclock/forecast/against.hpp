// Forecasts against what scouts saw: the published sum, and the sum that the site's own other seasons teach.
#pragma once

#include <budclock/forecast/hindcast.hpp>
#include <budclock/forecast/learning.hpp>

#include <cstddef>
#include <vector>

namespace budclock::forecast {

/// Fewer seasons seen between two visits tell nothing.
inline constexpr std::size_t k_seasons_against = 3;

/// Means over forecasts at one lead, in days. Truth is the middle of the days on which the event may have been.
struct AgainstScores {
  int lead = 0;
  std::size_t forecasts = 0;
  double calendar_error = 0;   ///< of the mean date of the other seasons seen
  double covered_weather = 0;  ///< share of truth in the middle 8 tenths of the published sum's dates, weather alone
  /// With the doubt in the sum as well.
  struct OfSum {
    double bias = 0, error = 0, covered = 0, width = 0;
  };
  OfSum published{};
  OfSum learned{};  ///< by the other seasons' finds, the season's own left out
};

/// One figure against the finds of its stage.
struct FigureAgainst {
  Figure figure{};
  ThresholdPrior prior{};              ///< degree-days F
  LearnedThreshold learned{};          ///< from all seasons that teach, degree-days F
  std::size_t set_aside = 0;           ///< finds that do not teach: no visit in vain near before, or weather missing
  std::vector<AgainstScores> leads{};  ///< none when fewer than k_seasons_against teach
};

/// Forecasts are issued so many days before the mean date of the other seasons seen, from the weather of all other
/// years of the record, where the find was still to come; dates up to the day of issue are then left out. `seen` holds
/// one entry a season.
FigureAgainst against(const Figure& figure, const std::vector<SeenBetween>& seen, const weather::DailySeries& record,
                      const std::vector<int>& leads);

}  // namespace budclock::forecast

// How a season's degree-days have gone so far, and the ways they may go on: each past year's continuation is one.
//
// Each past year of the record is taken as a possible future from today's state (Day 1985, J. Water Resour. Plan.
// Manage. 111:157-170). Degree-days are continued, never normal temperatures put through the threshold, which dates
// spring events late (J. Agric. Meteorol. 2023, 79(2):69-76).
#pragma once

#include <budclock/core/date.hpp>
#include <budclock/core/temperature.hpp>
#include <budclock/degree_day/formula.hpp>
#include <budclock/forecast/degree_day_record.hpp>
#include <budclock/forecast/spread.hpp>
#include <budclock/weather/daily_series.hpp>

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace budclock::forecast {

/// The first and last day of the season that matters on `today` for a sum that starts on `start`.
/// Starts from January to June belong to today's calendar year, and the season ends with it; later starts (the
/// southern hemisphere's, or an autumn count) to the latest one not after today, for a year.
struct SeasonDays {
  Day first{};
  Day last{};
};
SeasonDays season_on(MonthDay start, Day today);

/// The weather of one site as the forecast sees it: cut at today, forecast days appended.
struct SiteWeather {
  weather::DailySeries days{};
  Day today{};
  std::vector<std::string> notes{};  ///< how the series was made, for the report
  /// A mean year in weather::k_normals_year, for places with fewer past years than odds need; empty: none.
  weather::DailySeries normals{};

  /// The last day not after today on which both extremes were observed, here or at a neighbour.
  std::optional<Day> last_observed() const;
  /// The last day with both extremes, forecast days included.
  std::optional<Day> last_known() const;
};

/// Years (as shifts, -1 = last year) whose weather can stand for the days after the last known one, to `season_last`:
/// at least nine days in ten of them are there. The same for all sums of a season, so that their members align.
std::vector<int> member_shifts(const SiteWeather& weather, Day season_last);

/// Which other years of a record may continue a season.
enum class OtherYears : std::uint8_t {
  past,  ///< as on the day itself
  all,   ///< later ones too: a past season, replayed with its own year left out
};

/// The same for a record of which nothing of the season is looked at after `seen_until`.
std::vector<int> member_shifts(const CompleteDays& complete, Day seen_until, Day season_last, OtherYears which);

/// A day of a season that rests on no observation.
struct FilledDay {
  Day day{};
  std::optional<weather::Origin> fill;  ///< neighbour or line; nothing: each past year's own degree-days of that date
  DegreeDays amount;                    ///< mean over the members
};

/// Running sums through one season.
struct Season {
  SeasonDays days{};
  std::vector<int> shifts{};                       ///< one for each member
  std::vector<std::vector<DegreeDays>> members{};  ///< running sum at the end of each day; one row without any shift
  std::size_t known_days = 0;                      ///< days from the first through the last known one
  std::size_t missing_days = 0;                    ///< of them, days without both extremes
  std::vector<FilledDay> filled{};                 ///< of the known days, those not observed (nor forecast)
  std::optional<Day> first_unfilled{};             ///< the first day that nothing could fill: sums lack it
  bool on_normals = false;                         ///< the members are not years but a mean year's
  bool has_future = false;                         ///< members go on to the last day; else they stop with the weather
};

Season run_season(const degree_day::Formula& formula, const SiteWeather& weather, SeasonDays days,
                  const std::vector<int>& shifts);

/// The one way in which a season is made, for today's forecast and for past seasons replayed: its own days through
/// `seen_until`, later ones from the years that `shifts` name. The season's own days after that are not looked at.
Season run_season(const DegreeDayRecord& record, SeasonDays days, Day seen_until, const std::vector<int>& shifts);

/// The same where climate normals stand for the years that the record lacks: k_normals_members ways to go on.
Season run_season_on_normals(const DegreeDayRecord& record, SeasonDays days, Day seen_until,
                             const weather::DailySeries& normals);

/// How much of a sum is filled.
struct FilledPart {
  std::size_t neighbour_days = 0;
  std::size_t line_days = 0;
  std::size_t past_year_days = 0;
  DegreeDays amount;  ///< of these days
  double share = 0;   ///< of the whole sum, 0 to 1

  std::size_t days() const { return neighbour_days + line_days + past_year_days; }
  /// More than a fifth of the sum is filled (common practice).
  bool doubtful() const { return share > 0.2; }
};
FilledPart filled_by(const Season& season, Day day);

/// What the degree-days of one day rest on.
enum class DayBasis : std::uint8_t {
  observed,
  forecast,     ///< of the short-range forecast
  neighbour,    ///< filled from another station
  line,         ///< filled by a straight line
  past_years,   ///< missing: the same date's degree-days in each other year
  not_known,    ///< missing, and nothing to fill it with: the sum lacks it
  other_years,  ///< after the weather: the median of the other years' continuations
  normals,      ///< after the weather, or missing: as in a normal year
};

struct DaySum {
  Day day{};
  DegreeDays sum;  ///< at the end of the day, since the season's start
  DayBasis basis = DayBasis::observed;
};

/// The sums of the ten days around `day`: five before it and four after. Days outside the season are left out, and
/// those after the weather when no other year goes on.
std::vector<DaySum> sums_around(const Season& season, const weather::DailySeries& weather, Day day);

/// When the sum is first reached. A sum of an intermediate cutoff can fall again; the first time counts.
Spread first_reached(const Season& season, DegreeDays sum);

/// When so many degree-days have come together after another event, member by member.
Spread first_reached_after(const Season& season, const Spread& event, DegreeDays sum);

/// The sum at the end of that day: the median over members (they differ only where days are missing). Before the
/// season 0; after the weather of a season without future, the last sum.
DegreeDays sum_on(const Season& season, Day day);

}  // namespace budclock::forecast

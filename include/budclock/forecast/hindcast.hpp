// Past seasons of a record forecast as `when` would have, and scored against what came.
//
// Each season is forecast from the other years of the record, its own left out (before it and after it: leave one
// out). A forecast is issued so many days before the mean date of the other years, and only where the event was still
// to come. Its rivals know the same: the record's calendar, and the sum so far extended by the record's mean warmth.
#pragma once

#include <budclock/forecast/season.hpp>
#include <budclock/forecast/spread.hpp>
#include <budclock/forecast/verification.hpp>
#include <budclock/rules/pest.hpp>

#include <array>
#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace budclock::forecast {

/// When so many degree-days have come together since a start date.
struct SumEvent {
  degree_day::Formula formula{};
  MonthDay start{};
  DegreeDays sum{};
};

/// A published figure that says so.
struct Figure {
  const rules::Pest* pest = nullptr;
  const rules::Stage* stage = nullptr;
  const rules::Trigger* trigger = nullptr;
  SumEvent event{};
  std::optional<DegreeDays> scatter{};  ///< published with it
};

/// The degree-day figures of those pests on which something rests: not those that are only shown, and not those that
/// count on from another stage. The pests must outlive them.
std::vector<Figure> figures_of(const std::vector<const rules::Pest*>& pests);

/// With fewer whole seasons nothing is scored: one to forecast and nine others, which odds need (k_members_for_odds).
inline constexpr std::size_t k_seasons_for_hindcast = k_members_for_odds + 1;

/// One season's truth and a forecast of it, in days since the season's first day; "not this season" is the day after
/// its last one.
struct ReplayedForecast {
  int year = 0;  ///< in which the season begins
  SeasonDays days{};
  Day issued{};
  double truth = 0;
  bool never = false;                      ///< the event was not reached
  std::vector<double> members{};           ///< the forecast
  double early = 0, likely = 0, late = 0;  ///< as `summarize` has them
  std::vector<double> members_known{};     ///< the forecast when the days ahead are known; empty unless asked for
  double likely_known = 0;
  double calendar_mean = 0;        ///< of the other years' dates, those reached
  std::vector<double> calendar{};  ///< the other years' dates that lie after the day of issue
  double increment = 0;            ///< by the sum so far and the mean warmth of each coming date
  /// That date with the errors it has in the other seasons, those after the day of issue: the rival with a spread.
  std::vector<double> increment_dates{};
};

/// Of a set of forecasts at one lead, in days.
struct Scores {
  std::size_t forecasts = 0;
  std::size_t never = 0;  ///< of them, seasons that never got there
  double bias = 0;        ///< mean of likely - truth: above zero is late
  double error = 0;       ///< mean absolute error of the likely date
  double covered = 0;     ///< share of truth in the middle 8 tenths, by the randomised transform
  double held = 0;        ///< share of truth from early through late, as printed
  double width = 0;       ///< mean of late - early
  double crps = 0;        ///< mean fair CRPS
  RankHistogram ranks{};
  double calendar_error = 0;         ///< mean absolute error of the other years' mean date
  double calendar_crps = 0;          ///< of the other years' dates as an ensemble
  double increment_error = 0;        ///< of the sum so far extended by the mean increment
  double increment_crps = 0;         ///< of that date with the errors of the other seasons, as an ensemble
  SkillRange over_calendar{};        ///< of `error` against `calendar_error`
  SkillRange over_calendar_crps{};   ///< of `crps` against `calendar_crps`
  SkillRange over_increment{};       ///< of `error` against `increment_error`
  SkillRange over_increment_crps{};  ///< of `crps` against `increment_crps`
  /// The same forecasts when the next days are known.
  struct Known {
    double error = 0;
    double crps = 0;
    double covered = 0;
    SkillRange gain{};       ///< of `error` against that of the forecasts without
    SkillRange gain_crps{};  ///< of `crps` likewise
  };
  std::optional<Known> known{};
};

/// Of forecasts that may be of several events; years are drawn anew, so that events of one year go together.
Scores score(const std::vector<ReplayedForecast>& forecasts);

struct LeadScores {
  int lead = 0;  ///< days
  Scores scores{};
};

/// One event over all seasons of a record.
struct EventHindcast {
  std::size_t seasons = 0;  ///< whole seasons of which the truth is known
  std::size_t reached = 0;  ///< of them, those in which the event was reached
  std::optional<MonthDay> mean_date{};
  std::vector<LeadScores> leads{};  ///< none when too few seasons reached it
};

struct FigureHindcast {
  Figure figure{};
  EventHindcast scored{};
};

struct HindcastQuestion {
  std::string site{};
  std::vector<const rules::Pest*> pests{};
  std::vector<int> leads{7, 14, 30, 60};  ///< days, each at least 1
  int known_days = 0;                     ///< of the record itself, taken as a perfect forecast; 0: none
};

struct Hindcast {
  std::string site{};
  std::optional<Day> first{}, last{};  ///< of the record
  int known_days = 0;
  std::size_t seasons = 0;  ///< the most whole seasons that any figure found
  std::vector<FigureHindcast> figures{};
  std::vector<LeadScores> pooled{};  ///< all events together, each counted once however many figures share it

  bool enough() const { return seasons >= k_seasons_for_hindcast; }
};

/// Replays a record. Each event is the first of three steps of one forecast: the season run through the day of issue
/// (run_season), the dates of its members (first_reached), and what is printed of them (summarize). Pure.
Hindcast hindcast(const HindcastQuestion& question, const weather::DailySeries& record);

/// Replays one event at one lead: all its forecasts, for tools that score them otherwise.
std::vector<ReplayedForecast> replay(const SumEvent& event, const weather::DailySeries& record, int lead,
                                     int known_days = 0);

}  // namespace budclock::forecast

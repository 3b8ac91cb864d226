// Evaluates one pest: triggers, then stages, then windows.
#pragma once

#include <budclock/forecast/evaluate.hpp>

#include "season_cache.hpp"

#include <map>
#include <string>
#include <utility>
#include <vector>

namespace budclock::forecast {

class PestEvaluator {
 public:
  PestEvaluator(const rules::Pest& pest, const Question& question, SeasonCache& seasons, bool too_old);

  PestForecast evaluate();

 private:
  /// The dates of one side of a window, and the trigger that decides them in most members.
  struct EdgeDates {
    Spread spread;
    const rules::Trigger* decided_by = nullptr;
  };

  TriggerForecast trigger(const rules::Trigger& trigger);
  TriggerForecast dated(const rules::Trigger& trigger, const rules::DegreeDayCue& cue, const Spread* after);
  void add_alternatives(TriggerForecast& forecast, const rules::DegreeDayCue& cue);
  Spread date_by(const degree_day::Formula& formula, MonthDay start, DegreeDays sum, const Spread* after);
  Spread after_stage(const rules::AfterStageCue& cue) const;
  StageForecast stage(const rules::Stage& stage);
  WindowForecast window(const rules::Window& window) const;
  EdgeDates edge(const rules::Edge& edge, rules::WindowKind kind, bool opens) const;
  bool set_fixed_season(const rules::Window& window, WindowForecast& forecast) const;
  Spread sized(Spread spread) const;
  Day today() const { return seasons_.weather().today; }

  const rules::Pest& pest_;
  const Question& question_;
  SeasonCache& seasons_;
  bool too_old_;
  std::size_t members_ = 1;
  std::map<std::string, TriggerForecast> triggers_;
  std::map<std::string, Spread> stage_spreads_;
};

/// A calendar range in the season of `today`: its first and last day. A range over New Year belongs to the winter
/// that `today` lies in or comes to next.
std::pair<Day, Day> calendar_days(const rules::CalendarCue& cue, Day today);

/// `together` sums up the triggers' dates pooled.
Doubt doubt_of(const std::vector<const TriggerForecast*>& triggers, const Summary& together);

/// What the dates of these triggers rest on: sources are counted once, and only where they have a date.
Evidence evidence_of(const std::vector<const TriggerForecast*>& triggers);

}  // namespace budclock::forecast

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
    bool only_a_scout_sees = false;  ///< no cue of this side has a date of its own, nor was one seen
  };
  /// Whether what was seen stands in the place of what was forecast.
  enum class Sight : bool { counts, left_out };

  TriggerForecast trigger(const rules::Trigger& trigger);
  TriggerForecast dated(const rules::Trigger& trigger, const rules::DegreeDayCue& cue, const Spread* after);
  void add_alternatives(TriggerForecast& forecast, const rules::DegreeDayCue& cue);
  Spread date_by(const degree_day::Formula& formula, MonthDay start, DegreeDays sum, const Spread* after);
  void set_local(const rules::Stage& stage, TriggerForecast& forecast);
  Spread after_stage(const rules::AfterStageCue& cue) const;
  StageForecast stage(const rules::Stage& stage);
  std::optional<journal::StageFound> found(const rules::Stage& stage, const Summary& forecast) const;
  void set_seen(const rules::Stage& stage, StageForecast& forecast);
  WindowForecast window(const rules::Window& window) const;
  void set_edges(const rules::Window& window, Sight sight, WindowForecast& forecast) const;
  EdgeDates edge(const rules::Edge& edge, const rules::Window& window, Sight sight) const;
  Spread edge_date(const TriggerForecast& forecast, const rules::Edge& edge, const rules::Window& window,
                   Sight sight) const;
  std::optional<Day> seen_on(const rules::Trigger* trigger) const;
  bool has_fixed_dates(const rules::Window& window) const;
  void set_fixed_season(WindowForecast& forecast) const;
  void set_gate(WindowForecast& forecast) const;
  bool is_barred(const WindowForecast& action, const WindowForecast& ban) const;
  void restrict_to_site(WindowForecast& action) const;
  std::optional<Done> last_done(const rules::Window& window) const;
  void set_done(WindowForecast& action) const;
  void set_offers(std::vector<WindowForecast>& windows) const;
  Spread sized(Spread spread) const;
  Day today() const { return seasons_.weather().today; }

  const rules::Pest& pest_;
  const Question& question_;
  SeasonCache& seasons_;
  bool too_old_;
  std::size_t members_ = 1;
  std::map<std::string, TriggerForecast> triggers_;
  std::map<std::string, Spread> stage_spreads_;
  std::map<std::string, Day> stages_seen_;
};

/// The formula of a count, or the method asked for in its place where that goes with the figure's cutoff.
degree_day::Formula formula_for(const rules::Count& count, const Question& question);

/// A cue that has no date of its own: the gate asks for it.
bool is_only_a_scouts(const TriggerForecast& forecast);

/// What is over is closed whatever its opening; an action without a known end is never open.
WindowState state_on(Day today, const WindowForecast& forecast);

/// On no day may the same kind of action be both offered and barred: shortens actions to the days without a ban.
void keep_clear_of_bans(std::vector<WindowForecast>& windows, Day today);

/// A calendar range in the season of `today`: its first and last day. A range over New Year belongs to the winter
/// that `today` lies in or comes to next.
std::pair<Day, Day> calendar_days(const rules::CalendarCue& cue, Day today);

/// `together` sums up the triggers' dates pooled.
Doubt doubt_of(const std::vector<const TriggerForecast*>& triggers, const Summary& together);

/// What the dates of these triggers rest on: sources are counted once, and only where they have a date.
Evidence evidence_of(const std::vector<const TriggerForecast*>& triggers);

}  // namespace budclock::forecast

// The answer for one site: every stage and window of the pests asked for, with the dates and what they rest on.
// Every report is written from this value and from nothing else, so that they cannot disagree.
#pragma once

#include <budclock/core/date.hpp>
#include <budclock/core/temperature.hpp>
#include <budclock/degree_day/formula.hpp>
#include <budclock/forecast/learning.hpp>
#include <budclock/forecast/season.hpp>
#include <budclock/forecast/season_curve.hpp>
#include <budclock/forecast/spread.hpp>
#include <budclock/journal/sighting.hpp>
#include <budclock/rules/pest.hpp>

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace budclock::forecast {

/// Where an event stands on the day of the forecast.
enum class Standing : std::uint8_t {
  passed,     ///< reached, by the weather so far or by the calendar
  under_way,  ///< reached by some of its sources, or inside its calendar range
  ahead,      ///< still to come
  never,      ///< not this season in any member
  not_known,  ///< no weather to say, or only a scout can
};

Standing standing_on(const Spread& spread, Day today);

/// What weather that ends too long before today can still say: dates that it has itself reached, and nothing after.
Spread only_if_reached(Spread spread, const SiteWeather& weather);

/// How many degree-days a trigger wants and how many there are.
struct DegreeDayState {
  degree_day::Formula formula{};                       ///< as used
  TemperatureUnit unit = TemperatureUnit::fahrenheit;  ///< in which the source prints the figure
  bool method_overridden = false;  ///< the user asked for another method than the figure was made with
  Day start{};                     ///< start date in this season
  DegreeDays target{};
  DegreeDays so_far{};           ///< since the start, or since the stage that the figure follows
  std::size_t missing_days = 0;  ///< days since the start without a value
  FilledPart filled{};           ///< of the sum so far since the start
  /// The ten days around the likely date, their sums counted as `so_far` is; none without a likely date.
  std::vector<DaySum> around{};
};

struct TriggerForecast {
  const rules::Trigger* trigger = nullptr;
  Spread spread{};
  Summary summary{};
  Standing standing = Standing::not_known;
  std::optional<DegreeDayState> degree_days{};
  /// The day on which it was seen here, which then stands in its place wherever it would decide; `spread` keeps what
  /// a figure or the calendar gives.
  std::optional<Day> seen{};
  /// Where it counts from a stage that was seen: that day.
  std::optional<Day> counts_from{};
  /// Where the start date or the method is assumed: the dates that the alternatives give.
  struct Alternative {
    std::string instead;  ///< "from Mar 1", "by single-sine"
    Spread spread;
    Summary summary;
  };
  std::vector<Alternative> alternatives{};
  /// What past seasons' finds of the stage that it begins say of its sum, where there are any or a scatter is
  /// published.
  std::optional<LocalSum> local{};
  /// The dates by the learned sum, which then date the stage in place of `spread`; unknown where nothing is learned.
  Spread learned{};
  Summary learned_summary{};
  Summary doubtful_summary{};  ///< with the doubt that is left in the sum
};

/// What the dates of a stage rest on.
enum class Evidence : std::uint8_t {
  none,              ///< no published date: a scout decides
  seen_here,         ///< it was seen at this site this season
  calendar,          ///< calendar only
  one_source,        ///< one degree-day figure
  sources_agree,     ///< several figures, their likely dates within a week of each other (common practice: one visit)
  sources_disagree,  ///< several figures further apart
};

/// A region that figures of a stage come from, farther from the site than k_far_km.
struct FarRegion {
  std::string name;
  double kilometres = 0;
};

/// Where the doubt in a stage's dates comes from, as days from early to late (8 members in 10). Weather and sources are
/// kept apart; nothing where a bound has no date or no degree-days are behind it.
struct Doubt {
  std::optional<int> weather{};   ///< of what the rest of the season may bring: the mean over its sources
  std::optional<int> sources{};   ///< between the likely dates by its earliest and its latest source; 0 for one source
  std::optional<int> together{};  ///< of the stage as reported
};

struct StageForecast {
  const rules::Stage* stage = nullptr;
  std::vector<TriggerForecast> begins{};
  std::vector<TriggerForecast> ends{};
  Spread spread{};    ///< of the triggers that date it, pooled
  Summary summary{};  ///< of a stage dated by the calendar only: no likely date, but the calendar's own range
  Doubt doubt{};
  Standing standing = Standing::not_known;
  Evidence evidence = Evidence::none;
  std::vector<FarRegion> far{};  ///< of the degree-day figures that date it
  /// When it was seen this season: then `summary` names that day, and as its range the days since it was last looked
  /// for in vain.
  std::optional<journal::StageFound> seen{};
};

enum class WindowState : std::uint8_t { ahead, open, last_days, closed, none_left, not_known };

/// An action that was taken.
struct Done {
  rules::Action action{};
  Day day{};
};

struct WindowForecast {
  const rules::Window* window = nullptr;
  Spread opens{};
  Spread closes{};
  Summary opens_summary{};
  Summary closes_summary{};
  double share_with_window = 0;  ///< of members in which it opens before it closes
  /// The triggers that decide the edges in most members; none where an edge has no date.
  const rules::Trigger* opened_by = nullptr;
  const rules::Trigger* closed_by = nullptr;
  /// The days on which what decides the edges was seen, where it was.
  std::optional<Day> opening_seen{};
  std::optional<Day> closing_seen{};
  /// How each observation of the gate stands in the scouting log, and whether all of them are recorded and still
  /// count. False where there is no gate.
  journal::GateState gate{};
  bool gate_met = false;
  /// The last day on which the gate stays met if nothing new is recorded.
  std::optional<Day> gate_until{};
  /// A window to abstain that today bars this kind of action; with unknown dates it bars too.
  const rules::Window* barred_by = nullptr;
  /// To look only: it closed this season at a site that keeps a scouting log, and nothing of the pest was recorded
  /// while it was open.
  bool missed_look = false;
  /// Of an action: what is known of the site that bars some of its kinds there, and what warns of those that are left.
  std::vector<rules::SiteRestriction> bars{};
  std::vector<rules::SiteRestriction> warnings{};
  /// Of an action: the last of its kinds that was taken in the window this calendar year, when nothing has been found
  /// again since. It is not to be taken a second time.
  std::optional<Done> done{};
  /// Only then is an action offered: today is inside the window, the gate is met, and nothing bars it.
  bool offered = false;
  /// Days to plan by. Looking and abstaining: early bound of opening to late bound of closing. Acting: early bound of
  /// opening to early bound of closing, clear of the days on which an abstain window bars the same kind of action.
  /// Where only a scout sees the end of a window to act, it ends with `gate_until`.
  std::optional<Day> from{};
  std::optional<Day> until{};
  WindowState state = WindowState::not_known;
  Evidence evidence = Evidence::none;
};

enum class VisitState : std::uint8_t {
  not_known,  ///< without a date this season
  ahead,
  due,
  missed,   ///< not made in its time, nor since
  settled,  ///< the pest was looked for on its first day or after
};

/// The visit that an action brings.
struct FollowUp {
  rules::Action action{};
  Day done{};
  /// What dates it, in words: a trigger, or the scouting window that stands in where the page gives no date.
  std::string at{};
  bool page_gives_date = false;
  bool next_season = false;  ///< its date falls in the calendar year after today's, and is not forecast yet
  std::optional<Day> from{};
  std::optional<Day> until{};  ///< nothing: no end is known
  Summary date{};              ///< of the trigger that dates it; no members: a range of the calendar, or a window
  std::optional<Day> settled{};
  VisitState state = VisitState::not_known;
};

/// Its days have come, and not ended.
bool is_open(const WindowForecast& window);
/// Nothing of it is left this season.
bool is_over(const WindowForecast& window);
/// The kinds of action of a window that nothing known of the site bars.
std::vector<rules::Action> kinds_left(const WindowForecast& window);
/// An action of which the site leaves no kind.
bool is_barred_at_site(const WindowForecast& window);
/// The window to abstain, of the same pest, under which an action stands: one that begins after a ban has ended is free
/// of it. Null: none.
const rules::Window* ban_on(const WindowForecast& action, const std::vector<WindowForecast>& windows);

struct PestForecast {
  const rules::Pest* pest = nullptr;
  std::vector<StageForecast> stages{};
  std::vector<WindowForecast> windows{};
  std::vector<FollowUp> follow_ups{};  ///< one for each kind of action and day, by day
};

/// What the weather behind a forecast is.
struct WeatherState {
  std::optional<Day> first{};
  std::optional<Day> last_observed{};
  std::size_t years = 0;  ///< past years that continue the season
  bool normals = false;   ///< they are too few, and climate normals continue it in their place
  std::size_t forecast_days = 0;
  bool too_old = false;  ///< the last observed day is more than k_longest_gap before today
};

/// Weather that ends longer ago than this answers nothing new.
inline constexpr date::days k_longest_gap{10};

struct SiteForecast {
  std::string site{};
  Day today{};
  WeatherState weather{};
  std::vector<PestForecast> pests{};
  std::vector<std::string> notes{};   ///< what was assumed or filled
  std::vector<SeasonCurve> curves{};  ///< only where they were asked for
};

}  // namespace budclock::forecast

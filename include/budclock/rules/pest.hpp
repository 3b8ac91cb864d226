// What is known of a pest: its year, the published figures, the windows in which it can be reached, and what must
// not be done. Plain values, loaded once from data/pests/*.json (see rules/load.hpp); nothing here computes.
//
// The small language of a rule:
//   count    how degree-days are summed: thresholds, method, start date; each stated by its source or assumed
//   trigger  one published statement of when something happens: a degree-day figure, a calendar range, ...
//   stage    something that happens on the plant; several triggers may speak of it, side by side
//   window   a time to look, to act or to abstain; its edges name triggers and say which of them decides
//   gate     what a scout must have found before a window's action may even be offered
#pragma once

#include <budclock/core/date.hpp>
#include <budclock/core/temperature.hpp>
#include <budclock/degree_day/formula.hpp>
#include <budclock/rules/action.hpp>
#include <budclock/rules/citation.hpp>
#include <budclock/rules/day_limits.hpp>
#include <budclock/rules/site_safety.hpp>

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <variant>
#include <vector>

namespace budclock::rules {

/// A part of a rule that its source states, or that we assume because the source is silent.
template <class T>
struct Stated {
  T value{};
  bool assumed = false;
  std::vector<T> alternatives;  ///< other values worth showing when assumed
  std::string note;
};

/// How a source sums degree-days.
struct Count {
  std::string id;
  TemperatureUnit unit = TemperatureUnit::fahrenheit;  ///< the unit in which thresholds and figures are printed
  Temperature lower;
  std::optional<Temperature> upper;
  std::string lower_printed;
  std::string upper_printed;
  Stated<degree_day::Method> method;
  Stated<degree_day::Cutoff> cutoff;
  Stated<MonthDay> start;
};

/// The formula of a count as its source used it.
degree_day::Formula formula(const Count& count);

/// What a published figure dates.
enum class Meaning : std::uint8_t {
  first_occurrence,
  range_low,   ///< the low end of a control or activity range; never "hatch"
  range_high,  ///< the high end of such a range
  mean,        ///< the mean over years or sites of the event
  completion,  ///< the end of a generation or stage
  unspecified,
};

/// A degree-day figure: so much warmth since the count's start.
struct DegreeDayCue {
  std::string count;    ///< id of the count it was made with
  std::string printed;  ///< as printed, e.g. "179"
  DegreeDays sum;
  Meaning meaning = Meaning::unspecified;
  /// The standard deviation of what the source found, over years or sites; nothing: it prints none.
  std::optional<DegreeDays> scatter{};
};

/// A calendar range. `from` = `to` for a single day.
struct CalendarCue {
  MonthDay from{};
  MonthDay to{};
};

/// So many degree-days after another stage was reached (or seen). No invented number of days stands in for these.
struct AfterStageCue {
  std::string stage;
  std::optional<DegreeDayCue> degree_days;
  std::optional<int> days;
};

/// Day length passing a value (hours), rising before or falling after the summer solstice.
struct DayLengthCue {
  double hours = 0;
  bool rising = true;
  double sun_below_horizon_degrees = 0.8333;  ///< parameter p of Forsythe et al. 1995, Ecol. Model. 80:87-95
};

/// Something on the plant that a scout confirms; it has no date of its own.
struct PlantCue {
  std::string observation;  ///< id of an observation of this pest
  std::optional<DegreeDayCue> degree_days;
};

/// Soil temperature passing a value; usable only where the site supplies soil temperature.
struct SoilTemperatureCue {
  std::string printed;
  Temperature value;
  bool rising = true;
};

using Cue = std::variant<DegreeDayCue, CalendarCue, AfterStageCue, DayLengthCue, PlantCue, SoilTemperatureCue>;

/// What a trigger may be used for.
enum class Use : std::uint8_t {
  date,     ///< dates its stage
  warning,  ///< an early or late sign: may open a look, never dates the stage
  support,  ///< shown beside what decides
  shown,    ///< shown as a disagreement or for the record; nothing rests on it
};

/// One statement of when something happens.
struct Trigger {
  std::string id;    ///< unique within the pest
  std::string says;  ///< in words: "egg hatch, Ohio sequence"
  Cue cue;
  Use use = Use::date;
  Citation citation;
};

/// Something that happens on the plant and is worth a date.
struct Stage {
  std::string id;
  std::string name;
  std::string text;             ///< what it is and how it is recognised
  std::vector<Trigger> begins;  ///< when it begins (or happens)
  std::vector<Trigger> ends;    ///< when it is over, where published
  /// Ids of observations that are the stage itself: while one is on record, it has begun, whatever the figures say.
  std::vector<std::string> shown_by{};
};

/// What a scout can see, named in the scouting log.
struct Observation {
  std::string id;
  std::string text;
  std::optional<int> valid_days;  ///< how long a recorded sighting counts; nothing: for the season
  Citation citation;              ///< of the validity; usually common practice
};

enum class WindowKind : std::uint8_t { look, act, abstain };
enum class Direction : std::uint8_t { earliest, latest };

/// One edge of a window: the triggers that speak of it and which of them decides.
struct Edge {
  std::vector<std::string> triggers;  ///< ids of triggers of this pest
  Direction take = Direction::earliest;
};

/// What must have been seen, and what must have been looked for and not found.
struct Gate {
  std::vector<std::string> seen;
  std::vector<std::string> absent;
  bool empty() const { return seen.empty() && absent.empty(); }
};

/// A time to look, to act or to abstain.
struct Window {
  std::string id;
  std::string name;
  WindowKind kind = WindowKind::look;
  std::vector<Action> actions;  ///< what may be done; for abstain, what must not
  Edge opens;
  Edge closes;
  Gate gate;
  std::string reason;
  std::string find;                   ///< what to look for, in a scout's words
  std::vector<std::string> cautions;  ///< ids in cautions.json
  std::vector<std::string> stages;    ///< the stages it concerns
  std::string host;                   ///< when it concerns one host only
  Citation citation;
};

/// A row of the life cycle.
struct LifeStage {
  std::string name;
  std::string when;
  std::string where;
  std::vector<Action> reached_by;  ///< empty: cannot be reached
  std::string note;
  Citation citation;
};

/// A statement with its source.
struct Remark {
  std::string text;
  Citation citation;
};

struct Host {
  std::string name;
  std::string scientific_name;
  std::vector<std::string> also_called;
};

/// What the pest does to its plant, at the usual worst.
enum class Harm : std::uint8_t {
  cosmetic,  ///< it spoils looks, not health
  weakens,
  kills,
};

/// The same in words for whoever owns the plant.
struct PlantEffect {
  Harm harm = Harm::cosmetic;
  Remark text;
};

/// What a visit after an action should find, and when it is made.
struct FollowUp {
  Remark success;  ///< what is found if it worked
  /// One of these dates the visit; none: it is made at the next scouting window of the pest.
  std::string trigger;  ///< of this pest
  std::optional<CalendarCue> calendar;
  std::optional<int> days;   ///< after the action
  bool next_season = false;  ///< only in the calendar year after the action's
  Citation timing;           ///< of `calendar` or `days`
};

/// Is action usually needed at all?
enum class Need : std::uint8_t { rarely, sometimes, often };

struct Pest {
  std::string id;  ///< lower case words joined by hyphens; the name of its file
  std::string name;
  std::vector<std::string> scientific_names;  ///< the accepted one first
  std::vector<std::string> also_called;
  std::vector<Host> hosts;
  std::string signs;  ///< what is seen on the plant
  Need need = Need::sometimes;
  Remark need_text;
  std::vector<LifeStage> life_cycle;
  std::vector<Count> counts;
  std::vector<Observation> observations;
  std::vector<Stage> stages;
  std::vector<Window> windows;
  std::vector<Remark> do_not;
  std::vector<Remark> conflicts;           ///< where sources disagree or must not be misread
  std::optional<Remark> sample;            ///< the sample to take
  std::optional<Remark> action_threshold;  ///< nothing: no published threshold
  std::optional<FollowUp> follow_up;
  std::optional<PlantEffect> effect;       ///< what it means for the plant; nothing: the file does not say
  std::vector<std::string> cautions;  ///< ids in cautions.json
};

/// What a companion is to whoever reads the year's time line.
enum class CompanionKind : std::uint8_t {
  pest,             ///< another pest of the same gardens; nothing here says what to do about it
  indicator_plant,  ///< its bloom is a cue against which the sums can be checked
};

/// One published degree-day figure of a companion.
struct CompanionEvent {
  std::string id;    ///< unique within its companion
  std::string says;  ///< in words: "crawlers, low end"
  DegreeDayCue cue;
  Count count;  ///< with which the figure was made
  Citation citation;
};

/// What is dated beside the pests: plainly apart from them, with neither windows nor advice.
struct Companion {
  std::string id;
  std::string name;
  std::string scientific_name;  ///< empty where the source gives none
  CompanionKind kind = CompanionKind::pest;
  std::vector<CompanionEvent> events;
};

/// A published source.
struct Source {
  std::string key;
  std::string author;
  std::string year;  ///< as printed; "undated" where it is
  std::string title;
  std::string in;  ///< journal, publisher or series
  std::string locator;
};

/// The middle of a region that sources name, in degrees; rough, and good only to tell near from far.
struct Region {
  std::string name;
  double latitude = 0;
  double longitude = 0;
};

/// A caution shown with every window that names it.
struct Caution {
  std::string id;
  std::string text;
  Citation citation;
};

/// All that is known.
struct PestTable {
  std::vector<Pest> pests;            ///< by id
  std::vector<Companion> companions;  ///< by name
  std::vector<Source> sources;
  std::vector<Caution> cautions;
  std::vector<Region> regions;            ///< those that have a middle
  std::vector<DayLimit> day_limits;       ///< in file order
  std::vector<SiteRule> site_rules;       ///< in file order
  std::vector<std::string> bee_plants{};  ///< what may be in bloom at a site though no pest of ours lives on it

  const Pest* find_pest(const std::string& id) const;
  const Companion* find_companion(const std::string& id) const;
  const Source* find_source(const std::string& key) const;
  const Caution* find_caution(const std::string& id) const;
  const Region* find_region(const std::string& name) const;
};

/// Whether a calendar range of the pest's stages, or a window between calendar dates, touches that month in any region.
/// What only degree-days date belongs to no month.
bool due_in(const Pest& pest, date::month month);

const Count* find_count(const Pest& pest, const std::string& id);
const Trigger* find_trigger(const Pest& pest, const std::string& id);
const Observation* find_observation(const Pest& pest, const std::string& id);

}  // namespace budclock::rules

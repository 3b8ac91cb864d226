#include <budclock/forecast/evaluate.hpp>
#include <budclock/weather/reader.hpp>

#include "season_cache.hpp"

#include <algorithm>
#include <fmt/format.h>
#include <map>
#include <utility>

namespace budclock::forecast {
namespace {

using rules::Direction;
using rules::WindowKind;

constexpr date::days k_last_days{7};
constexpr date::days k_agreement{7};

/// Everything that evaluating one pest needs at hand.
class PestEvaluator {
 public:
  PestEvaluator(const rules::Pest& pest, const Question& question, SeasonCache& seasons, bool too_old)
      : pest_{pest}, question_{question}, seasons_{seasons}, too_old_{too_old} {}

  PestForecast evaluate();

 private:
  TriggerForecast trigger(const rules::Trigger& trigger);
  TriggerForecast dated(const rules::Trigger& trigger, const rules::DegreeDayCue& cue, const Spread* after);
  Spread after_stage(const rules::AfterStageCue& cue);
  StageForecast stage(const rules::Stage& stage);
  WindowForecast window(const rules::Window& window);
  Spread edge(const rules::Edge& edge, WindowKind kind);
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
std::pair<Day, Day> calendar_days(const rules::CalendarCue& cue, Day today) {
  const int year = year_of(today);
  const Day from = in_year(cue.from, year);
  const Day to = in_year(cue.to, year);
  if (from <= to) return {from, to};
  return today <= to ? std::pair{in_year(cue.from, year - 1), to} : std::pair{from, in_year(cue.to, year + 1)};
}

/// Deterministic spreads stand for every member: makes them as long as the others.
Spread PestEvaluator::sized(Spread spread) const {
  if (spread.dates.size() == 1 && members_ > 1) spread.dates.assign(members_, spread.dates.front());
  if (spread.known() && spread.dates.size() != members_) return unknown("its season is not that of the other sums");
  return spread;
}

TriggerForecast PestEvaluator::dated(const rules::Trigger& trigger, const rules::DegreeDayCue& cue,
                                     const Spread* after) {
  const rules::Count& count = *rules::find_count(pest_, cue.count);
  degree_day::Formula formula = rules::formula(count);
  const bool overridden = question_.method && *question_.method != formula.method;
  if (overridden) formula.method = *question_.method;

  const auto date_by = [&](const degree_day::Formula& by, MonthDay start) {
    const Season& season = seasons_.season(by, start);
    Spread spread = after ? first_reached_after(season, *after, cue.sum) : first_reached(season, cue.sum);
    if (too_old_) spread = only_if_reached(std::move(spread), seasons_.weather());
    return sized(std::move(spread));
  };

  const Season& season = seasons_.season(formula, count.start.value);
  TriggerForecast forecast{.trigger = &trigger, .spread = date_by(formula, count.start.value)};
  forecast.degree_days = DegreeDayState{.formula = formula,
                                        .method_overridden = overridden,
                                        .start = season.days.first,
                                        .target = cue.sum,
                                        .so_far = sum_on(season, today()),
                                        .missing_days = season.missing_days};
  if (count.start.assumed && !after) {
    for (const MonthDay start : count.start.alternatives) {
      forecast.alternatives.push_back({"from " + short_text(start), summarize(date_by(formula, start))});
    }
  }
  if (count.method.assumed && !overridden) {
    for (const degree_day::Method method : count.method.alternatives) {
      degree_day::Formula other = formula;
      other.method = method;
      forecast.alternatives.push_back(
          {fmt::format("by {}", degree_day::name(method)), summarize(date_by(other, count.start.value))});
    }
  }
  return forecast;
}

Spread PestEvaluator::after_stage(const rules::AfterStageCue& cue) {
  const auto found = stage_spreads_.find(cue.stage);
  if (found == stage_spreads_.end()) return unknown("the stage it follows has no date");
  Spread spread = found->second;
  for (auto& date : spread.dates) {
    if (date) *date += date::days{cue.days.value_or(0)};
  }
  return spread;
}

TriggerForecast PestEvaluator::trigger(const rules::Trigger& trigger) {
  struct Visitor {
    PestEvaluator& self;
    const rules::Trigger& trigger;

    TriggerForecast just(Spread spread) const { return {.trigger = &trigger, .spread = std::move(spread)}; }
    TriggerForecast operator()(const rules::DegreeDayCue& cue) const { return self.dated(trigger, cue, nullptr); }
    TriggerForecast operator()(const rules::CalendarCue& cue) const {
      return just(certain(calendar_days(cue, self.today()).first, self.members_));
    }
    TriggerForecast operator()(const rules::AfterStageCue& cue) const {
      const Spread stage = self.after_stage(cue);
      if (cue.degree_days) return self.dated(trigger, *cue.degree_days, &stage);
      return just(stage);
    }
    TriggerForecast operator()(const rules::PlantCue& cue) const {
      if (cue.degree_days) return self.dated(trigger, *cue.degree_days, nullptr);
      return just(unknown("a scout sees it on the plant"));
    }
    TriggerForecast operator()(const rules::DayLengthCue&) const {
      return just(unknown("the latitude of the site is not given"));
    }
    TriggerForecast operator()(const rules::SoilTemperatureCue&) const {
      return just(unknown("the site supplies no soil temperature"));
    }
  };
  TriggerForecast forecast = std::visit(Visitor{*this, trigger}, trigger.cue);
  forecast.summary = summarize(forecast.spread);
  forecast.standing = standing_on(forecast.spread, today());
  return forecast;
}

bool is_calendar(const TriggerForecast& forecast) {
  return std::holds_alternative<rules::CalendarCue>(forecast.trigger->cue);
}

/// What the dates of these triggers rest on; only triggers that date the stage count.
Evidence evidence_of(const std::vector<const TriggerForecast*>& triggers) {
  std::optional<Day> first;
  std::optional<Day> last;
  std::size_t figures = 0;
  bool calendar = false;
  for (const TriggerForecast* forecast : triggers) {
    calendar = calendar || is_calendar(*forecast);
    if (!forecast->degree_days) continue;
    ++figures;
    if (!forecast->summary.likely) continue;
    first = std::min(first.value_or(*forecast->summary.likely), *forecast->summary.likely);
    last = std::max(last.value_or(*forecast->summary.likely), *forecast->summary.likely);
  }
  if (figures == 0) return calendar ? Evidence::calendar : Evidence::none;
  if (figures == 1) return Evidence::one_source;
  return first && *last - *first <= k_agreement ? Evidence::sources_agree : Evidence::sources_disagree;
}

/// A stage that only the calendar dates has no likely day and no odds: the range is what its sources print.
Summary calendar_summary(const std::vector<const TriggerForecast*>& triggers, Day today, Summary summary) {
  summary.early.reset();
  summary.late.reset();
  for (const TriggerForecast* forecast : triggers) {
    const auto* calendar = std::get_if<rules::CalendarCue>(&forecast->trigger->cue);
    if (calendar == nullptr) continue;
    const auto [from, to] = calendar_days(*calendar, today);
    summary.early = std::min(summary.early.value_or(from), from);
    summary.late = std::max(summary.late.value_or(to), to);
  }
  summary.spread_out = summary.early != summary.late;
  if (summary.spread_out) summary.likely.reset();
  return summary;
}

StageForecast PestEvaluator::stage(const rules::Stage& stage) {
  StageForecast forecast{.stage = &stage};
  for (const rules::Trigger& entry : stage.begins) forecast.begins.push_back(trigger(entry));
  for (const rules::Trigger& entry : stage.ends) forecast.ends.push_back(trigger(entry));

  std::vector<Spread> dating;
  std::vector<const TriggerForecast*> used;
  for (const TriggerForecast& entry : forecast.begins) {
    if (entry.trigger->use != rules::Use::date) continue;
    used.push_back(&entry);
    if (entry.spread.known()) {
      dating.push_back(entry.spread);
    } else {
      forecast.spread.unknown = entry.spread.unknown;
    }
  }
  if (!dating.empty()) forecast.spread = pooled(dating);
  if (used.empty()) forecast.spread = unknown("no published date");
  forecast.summary = summarize(forecast.spread);
  forecast.standing = standing_on(forecast.spread, today());
  forecast.evidence = evidence_of(used);
  if (forecast.evidence == Evidence::calendar) {
    forecast.summary = calendar_summary(used, today(), forecast.summary);
  }
  stage_spreads_[stage.id] = dating.size() == 1 ? dating.front() : dating.empty() ? forecast.spread : earliest(dating);
  for (const auto* list : {&forecast.begins, &forecast.ends}) {
    for (const TriggerForecast& entry : *list) triggers_[entry.trigger->id] = entry;
  }
  return forecast;
}

/// The date of a window's edge in each member. A calendar range gives its first day to an edge that takes the
/// earliest and its last day to one that takes the latest. What only a scout can see is left to the gate.
Spread PestEvaluator::edge(const rules::Edge& edge, WindowKind kind) {
  std::vector<Spread> spreads;
  Spread missing = unknown("a scout sees it on the plant");
  for (const std::string& id : edge.triggers) {
    const TriggerForecast& forecast = triggers_.at(id);
    Spread spread = forecast.spread;
    if (const auto* calendar = std::get_if<rules::CalendarCue>(&forecast.trigger->cue)) {
      const auto [from, to] = calendar_days(*calendar, today());
      spread = certain(edge.take == Direction::latest ? to : from, members_);
    }
    const bool scouts = std::holds_alternative<rules::PlantCue>(forecast.trigger->cue) && !forecast.degree_days;
    if (spread.known()) {
      spreads.push_back(std::move(spread));
    } else if (kind == WindowKind::act && !scouts) {
      return spread;  // an action is not planned on part of its evidence
    } else if (!scouts) {
      missing = spread;
    }
  }
  if (spreads.empty()) return missing;
  return edge.take == Direction::earliest ? earliest(spreads) : latest(spreads);
}

/// Drops the members in which the window closes before it opens.
std::size_t keep_members_with_window(Spread& opens, Spread& closes) {
  std::size_t kept = 0;
  for (std::size_t m = 0; m < opens.dates.size(); ++m) {
    const bool has_window = opens.dates[m] && (!closes.dates[m] || *opens.dates[m] <= *closes.dates[m]);
    if (!has_window) continue;
    opens.dates[kept] = opens.dates[m];
    closes.dates[kept] = closes.dates[m];
    ++kept;
  }
  opens.dates.resize(kept);
  closes.dates.resize(kept);
  return kept;
}

WindowState state_on(Day today, const WindowForecast& forecast) {
  if (!forecast.from) return WindowState::not_known;
  if (today < *forecast.from) return WindowState::ahead;
  if (!forecast.until) return WindowState::open;
  if (today > *forecast.until) return WindowState::closed;
  return *forecast.until - today < k_last_days ? WindowState::last_days : WindowState::open;
}

WindowForecast PestEvaluator::window(const rules::Window& window) {
  WindowForecast forecast{.window = &window};
  forecast.opens = edge(window.opens, window.kind);
  forecast.closes = edge(window.closes, window.kind);

  std::vector<const TriggerForecast*> used;
  for (const auto* side : {&window.opens, &window.closes}) {
    for (const std::string& id : side->triggers) used.push_back(&triggers_.at(id));
  }
  forecast.evidence = evidence_of(used);

  if (forecast.opens.known() && forecast.closes.known()) {
    const bool fixed = std::all_of(used.begin(), used.end(), [](const auto* entry) { return is_calendar(*entry); });
    if (fixed && *forecast.closes.dates.front() < *forecast.opens.dates.front()) {
      // A winter window: opens in one year and closes in the next.
      const bool in_its_end = today() <= *forecast.closes.dates.front();
      for (auto& date : (in_its_end ? forecast.opens : forecast.closes).dates) {
        *date = in_year(month_day_of(*date), year_of(*date) + (in_its_end ? -1 : 1));
      }
    }
    const std::size_t all = forecast.opens.dates.size();
    const std::size_t kept = keep_members_with_window(forecast.opens, forecast.closes);
    forecast.share_with_window = static_cast<double>(kept) / static_cast<double>(all);
    if (kept == 0) {
      forecast.state = WindowState::none_left;
      return forecast;
    }
  }

  forecast.opens_summary = summarize(forecast.opens);
  forecast.closes_summary = summarize(forecast.closes);
  const bool acts = window.kind == WindowKind::act;
  forecast.from = acts ? forecast.opens_summary.likely : forecast.opens_summary.early;
  forecast.until = acts ? forecast.closes_summary.early : forecast.closes_summary.late;
  // Far ahead, seasons can differ by more than the window is long; the early bounds are always in order.
  if (forecast.from && forecast.until && *forecast.from > *forecast.until) forecast.from = forecast.opens_summary.early;
  forecast.state = state_on(today(), forecast);
  return forecast;
}

PestForecast PestEvaluator::evaluate() {
  const MonthDay start = pest_.counts.empty() ? date::January / 1 : pest_.counts.front().start.value;
  members_ = std::max<std::size_t>(seasons_.shifts(season_on(start, today()).last).size(), 1);
  PestForecast forecast{.pest = &pest_};
  for (const rules::Stage& entry : pest_.stages) forecast.stages.push_back(stage(entry));
  for (const rules::Window& entry : pest_.windows) forecast.windows.push_back(window(entry));
  return forecast;
}

WeatherState weather_state(const SiteWeather& weather, SeasonCache& seasons) {
  WeatherState state;
  if (!weather.days.empty()) state.first = weather.days.first;
  state.last_observed = weather.last_observed();
  state.years = seasons.shifts(season_on(date::January / 1, weather.today).last).size();
  for (std::size_t i = 0; i < weather.days.size(); ++i) {
    if (weather.days.tmax[i].origin == weather::Origin::forecast) ++state.forecast_days;
  }
  state.too_old = !state.last_observed || weather.today - *state.last_observed > k_longest_gap;
  return state;
}

/// What was assumed or left out, in words.
std::vector<std::string> notes(const Question& question, const SiteWeather& weather, SeasonCache& seasons) {
  std::vector<std::string> notes;
  if (question.method) {
    notes.push_back(
        fmt::format("Sums are made by the {} method as asked. A figure made by another method then falls "
                    "on another day: trust it less.",
                    degree_day::name(*question.method)));
  }
  const Season& year = seasons.season(degree_day::Formula{}, date::January / 1);
  if (year.missing_days > 0) {
    std::vector<std::string> gaps;
    for (const weather::Gap& gap : weather::gaps(weather.days)) {
      if (gap.last < year.days.first) continue;
      gaps.push_back(gap.first == gap.last ? iso(gap.first) : iso(gap.first) + " to " + iso(gap.last));
    }
    notes.push_back(fmt::format("{} of the {} days since {} lack a temperature ({}); {}.", year.missing_days,
                                year.known_days, short_text(year.days.first), fmt::join(gaps, ", "),
                                year.shifts.empty() ? "sums are at least what is shown"
                                                    : "each past year's own warmth on those dates stands in"));
  }
  const auto last = weather.last_observed();
  if (last && *last + date::days{1} < weather.today && weather.today - *last <= k_longest_gap) {
    notes.push_back(fmt::format("The weather ends {} days before today; those days are forecast like the future.",
                                (weather.today - *last).count()));
  }
  return notes;
}

}  // namespace

Standing standing_on(const Spread& spread, Day today) {
  if (!spread.known()) return Standing::not_known;
  if (share_reached(spread) == 0) return Standing::never;
  return share_reached_by(spread, today) == 1 ? Standing::passed : Standing::ahead;
}

Spread only_if_reached(Spread spread, const SiteWeather& weather) {
  const auto last = weather.last_known();
  if (!spread.known() || (last && share_reached_by(spread, *last) == 1)) return spread;
  return unknown("the weather ends too long before today");
}

SiteForecast evaluate(const Question& question, const SiteWeather& weather) {
  SeasonCache seasons{weather};
  SiteForecast forecast{.site = question.site, .today = weather.today, .weather = weather_state(weather, seasons)};
  forecast.notes = notes(question, weather, seasons);
  for (const rules::Pest* pest : question.pests) {
    forecast.pests.push_back(PestEvaluator{*pest, question, seasons, forecast.weather.too_old}.evaluate());
  }
  return forecast;
}

}  // namespace budclock::forecast

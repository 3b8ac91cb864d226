#include <budclock/forecast/day_length.hpp>

#include "pest_evaluator.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <set>

namespace budclock::forecast {
namespace {

constexpr date::days k_agreement{7};

/// A stage that only the calendar dates has no likely day and no odds: the range is what its sources print.
void set_calendar_range(StageForecast& forecast, const std::vector<const TriggerForecast*>& triggers, Day today) {
  Summary range;
  for (const TriggerForecast* entry : triggers) {
    const auto* calendar = std::get_if<rules::CalendarCue>(&entry->trigger->cue);
    if (calendar == nullptr) continue;
    const auto [from, to] = calendar_days(*calendar, today);
    range.early = std::min(range.early.value_or(from), from);
    range.late = std::max(range.late.value_or(to), to);
  }
  range.spread_out = range.early != range.late;
  if (!range.spread_out) range.likely = range.early;
  range.share = 1;
  forecast.summary = range;
  forecast.standing = today > *range.late    ? Standing::passed
                      : today < *range.early ? Standing::ahead
                                             : Standing::under_way;
}

/// The regions of the degree-day figures among `triggers` that lie far from the site.
std::vector<FarRegion> far_regions(const std::vector<const TriggerForecast*>& triggers, const Question& question) {
  std::vector<FarRegion> far;
  if (!question.place || question.regions == nullptr) return far;
  std::set<std::string> names;
  for (const TriggerForecast* entry : triggers) {
    if (entry->degree_days) names.insert(entry->trigger->citation.region);
  }
  for (const rules::Region& region : *question.regions) {
    if (!names.contains(region.name)) continue;
    const double distance = kilometres_between(*question.place, {region.latitude, region.longitude});
    if (distance > k_far_km) far.push_back({region.name, distance});
  }
  return far;
}

}  // namespace

degree_day::Formula formula_for(const rules::Count& count, const Question& question) {
  degree_day::Formula formula = rules::formula(count);
  if (question.method) formula.method = *question.method;
  return degree_day::problem(formula) ? rules::formula(count) : formula;
}

std::pair<Day, Day> calendar_days(const rules::CalendarCue& cue, Day today) {
  const int year = year_of(today);
  const Day from = in_year(cue.from, year);
  const Day to = in_year(cue.to, year);
  if (from <= to) return {from, to};
  return today <= to ? std::pair{in_year(cue.from, year - 1), to} : std::pair{from, in_year(cue.to, year + 1)};
}

Evidence evidence_of(const std::vector<const TriggerForecast*>& triggers) {
  std::set<std::string> sources;
  std::optional<Day> first;
  std::optional<Day> last;
  bool calendar = false;
  bool seen = false;
  for (const TriggerForecast* forecast : triggers) {
    seen = seen || forecast->seen;
    if (forecast->seen) continue;
    calendar = calendar || std::holds_alternative<rules::CalendarCue>(forecast->trigger->cue);
    if (!forecast->degree_days) continue;
    sources.insert(forecast->trigger->citation.source);
    if (!forecast->summary.likely) continue;
    first = std::min(first.value_or(*forecast->summary.likely), *forecast->summary.likely);
    last = std::max(last.value_or(*forecast->summary.likely), *forecast->summary.likely);
  }
  if (sources.empty()) return calendar ? Evidence::calendar : seen ? Evidence::seen_here : Evidence::none;
  if (sources.size() == 1) return Evidence::one_source;
  return !first || *last - *first <= k_agreement ? Evidence::sources_agree : Evidence::sources_disagree;
}

Doubt doubt_of(const std::vector<const TriggerForecast*>& triggers, const Summary& together) {
  Doubt doubt;
  std::optional<Day> first;
  std::optional<Day> last;
  double width = 0;
  double bounded = 0;
  bool open = false;
  for (const TriggerForecast* forecast : triggers) {
    if (!forecast->degree_days) continue;
    const Summary& summary = forecast->summary;
    if (summary.likely) {
      first = std::min(first.value_or(*summary.likely), *summary.likely);
      last = std::max(last.value_or(*summary.likely), *summary.likely);
    } else {
      open = true;
    }
    if (!summary.early || !summary.late) continue;
    width += static_cast<double>((*summary.late - *summary.early).count());
    ++bounded;
  }
  if (!first) return doubt;
  if (bounded > 0) doubt.weather = static_cast<int>(std::lround(width / bounded));
  if (!open) doubt.sources = static_cast<int>((*last - *first).count());
  if (together.early && together.late) doubt.together = static_cast<int>((*together.late - *together.early).count());
  return doubt;
}

PestEvaluator::PestEvaluator(const rules::Pest& pest, const Question& question, SeasonCache& seasons, bool too_old)
    : pest_{pest}, question_{question}, seasons_{seasons}, too_old_{too_old} {
  const MonthDay start = pest_.counts.empty() ? date::January / 1 : pest_.counts.front().start.value;
  members_ = seasons_.members(season_on(start, today()).last);
}

/// Deterministic spreads stand for every member: makes them as long as the others.
Spread PestEvaluator::sized(Spread spread) const {
  if (spread.dates.size() == 1 && members_ > 1) spread.dates.assign(members_, spread.dates.front());
  if (spread.known() && spread.dates.size() != members_) return unknown("its season is not that of the other sums");
  return spread;
}

Spread PestEvaluator::date_by(const degree_day::Formula& formula, MonthDay start, DegreeDays sum, const Spread* after) {
  const Season& season = seasons_.season(formula, start);
  Spread spread = after ? first_reached_after(season, *after, sum) : first_reached(season, sum);
  if (too_old_) spread = only_if_reached(std::move(spread), seasons_.weather());
  return sized(std::move(spread));
}

void PestEvaluator::add_alternatives(TriggerForecast& forecast, const rules::DegreeDayCue& cue) {
  const rules::Count& count = *rules::find_count(pest_, cue.count);
  const auto add = [&](std::string instead, const degree_day::Formula& formula, MonthDay start) {
    if (degree_day::problem(formula)) return;
    Spread spread = date_by(formula, start, cue.sum, nullptr);
    const Summary summary = summarize(spread);
    forecast.alternatives.push_back({std::move(instead), std::move(spread), summary});
  };
  const degree_day::Formula formula = forecast.degree_days->formula;
  if (count.start.assumed) {
    for (const MonthDay start : count.start.alternatives) add("from " + short_text(start), formula, start);
  }
  if (count.method.assumed && !forecast.degree_days->method_overridden) {
    for (const degree_day::Method method : count.method.alternatives) {
      degree_day::Formula other = formula;
      other.method = method;
      add(fmt::format("by {}", degree_day::name(method)), other, count.start.value);
    }
  }
  if (count.cutoff.assumed) {
    for (const degree_day::Cutoff cutoff : count.cutoff.alternatives) {
      degree_day::Formula other = formula;
      other.cutoff = cutoff;
      if (cutoff == degree_day::Cutoff::none) other.upper.reset();
      add(fmt::format("with cutoff {}", degree_day::name(cutoff)), other, count.start.value);
    }
  }
}

TriggerForecast PestEvaluator::dated(const rules::Trigger& trigger, const rules::DegreeDayCue& cue,
                                     const Spread* after) {
  const rules::Count& count = *rules::find_count(pest_, cue.count);
  const degree_day::Formula formula = formula_for(count, question_);
  TriggerForecast forecast;
  forecast.trigger = &trigger;
  forecast.spread = date_by(formula, count.start.value, cue.sum, after);
  const Season& season = seasons_.season(formula, count.start.value);
  const auto begun = after ? summarize(*after).likely : std::optional{season.days.first - date::days{1}};
  const DegreeDays before = begun ? sum_on(season, *begun) : DegreeDays{};
  const DegreeDays so_far = begun && *begun <= today() ? sum_on(season, today()) - before : DegreeDays{};
  forecast.degree_days = DegreeDayState{.formula = formula,
                                        .unit = count.unit,
                                        .method_overridden = formula.method != count.method.value,
                                        .start = season.days.first,
                                        .target = cue.sum,
                                        .so_far = so_far,
                                        .missing_days = season.missing_days,
                                        .filled = filled_by(season, today()),
                                        .around = {}};
  const auto likely = summarize(forecast.spread).likely;
  if (likely && begun) {
    for (DaySum sum : sums_around(season, seasons_.weather().days, *likely)) {
      sum.sum = sum.sum - before;
      if (sum.day > *begun) forecast.degree_days->around.push_back(sum);
    }
  }
  if (!after) add_alternatives(forecast, cue);
  return forecast;
}

Spread PestEvaluator::after_stage(const rules::AfterStageCue& cue) const {
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

    TriggerForecast just(Spread spread) const {
      TriggerForecast forecast;
      forecast.trigger = &trigger;
      forecast.spread = std::move(spread);
      return forecast;
    }
    TriggerForecast operator()(const rules::DegreeDayCue& cue) const { return self.dated(trigger, cue, nullptr); }
    TriggerForecast operator()(const rules::CalendarCue& cue) const {
      return just(certain(calendar_days(cue, self.today()).first, self.members_));
    }
    TriggerForecast operator()(const rules::AfterStageCue& cue) const {
      const Spread stage = self.after_stage(cue);
      TriggerForecast forecast = cue.degree_days ? self.dated(trigger, *cue.degree_days, &stage) : just(stage);
      const auto seen = self.stages_seen_.find(cue.stage);
      if (seen == self.stages_seen_.end()) return forecast;
      forecast.counts_from = seen->second;
      if (forecast.degree_days) forecast.degree_days->start = seen->second;
      return forecast;
    }
    TriggerForecast operator()(const rules::PlantCue& cue) const {
      const Question& question = self.question_;
      const auto seen = journal::first_seen(question.sightings, question.site, self.pest_.id, cue.observation,
                                            year_of(self.today()), self.today());
      if (seen) {
        TriggerForecast forecast = just(certain(*seen, self.members_));
        forecast.seen = seen;
        return forecast;
      }
      return cue.degree_days ? self.dated(trigger, *cue.degree_days, nullptr)
                             : just(unknown("a scout sees it on the plant"));
    }
    TriggerForecast operator()(const rules::DayLengthCue& cue) const {
      if (!self.question_.place) return just(unknown("the latitude of the site is not given"));
      const auto day = day_length_reached(self.question_.place->latitude, year_of(self.today()), cue.hours, cue.rising,
                                          cue.sun_below_horizon_degrees);
      Spread spread;
      spread.dates.assign(self.members_, day);
      return just(std::move(spread));
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

StageForecast PestEvaluator::stage(const rules::Stage& stage) {
  StageForecast forecast;
  forecast.stage = &stage;
  for (const rules::Trigger& entry : stage.begins) {
    forecast.begins.push_back(trigger(entry));
    set_local(stage, forecast.begins.back());
  }
  for (const rules::Trigger& entry : stage.ends) forecast.ends.push_back(trigger(entry));

  std::vector<Spread> dating;
  std::vector<Spread> published;
  std::vector<const TriggerForecast*> used;
  const auto date_by = [&](bool seen) {
    for (const TriggerForecast& entry : forecast.begins) {
      if (entry.trigger->use != rules::Use::date || entry.seen.has_value() != seen) continue;
      if (entry.spread.known()) {
        dating.push_back(entry.learned.known() ? entry.learned : entry.spread);
        published.push_back(entry.spread);
        used.push_back(&entry);
      } else {
        forecast.spread.unknown = entry.spread.unknown;
      }
    }
  };
  date_by(false);
  // A cue on the plant tells that the stage has been reached, not when: it dates what nothing else does.
  if (dating.empty()) date_by(true);
  if (!dating.empty()) forecast.spread = pooled(dating);
  if (dating.empty() && forecast.spread.unknown.empty()) forecast.spread = unknown("no published date");
  forecast.summary = summarize(forecast.spread);
  forecast.summary.members = members_;
  forecast.standing = standing_on(forecast.spread, today());
  forecast.evidence = evidence_of(used);
  forecast.far = far_regions(used, question_);
  forecast.doubt = doubt_of(used, forecast.summary);
  if (forecast.evidence == Evidence::calendar) set_calendar_range(forecast, used, today());
  // What counts from a stage may open an action or end a ban: a learned sum leaves it alone.
  stage_spreads_[stage.id] = published.empty() ? forecast.spread : earliest(published);
  set_seen(stage, forecast);
  if (forecast.seen) forecast.doubt = {};
  for (const auto* list : {&forecast.begins, &forecast.ends}) {
    for (const TriggerForecast& entry : *list) triggers_[entry.trigger->id] = entry;
  }
  return forecast;
}

/// When a scout found the stage, or what is the stage itself; nothing when nobody did. What was found after the day
/// that the figures give leaves them alone: it says that the stage had begun, not when.
std::optional<journal::StageFound> PestEvaluator::found(const rules::Stage& stage, const Summary& forecast) const {
  const int season = year_of(today());
  auto found = journal::stage_found(question_.sightings, question_.site, pest_.id, stage.id, season, today());
  std::optional<Day> shown = found ? std::optional{found->first} : forecast.likely;
  for (const std::string& observation : stage.shown_by) {
    const auto seen = journal::first_seen(question_.sightings, question_.site, pest_.id, observation, season, today());
    if (!seen || (shown && *seen >= *shown)) continue;
    shown = seen;
    found = journal::StageFound{*seen, std::nullopt};
  }
  return found;
}

/// What was seen stands in the place of the forecast.
void PestEvaluator::set_seen(const rules::Stage& stage, StageForecast& forecast) {
  forecast.seen = found(stage, forecast.summary);
  if (!forecast.seen && forecast.evidence == Evidence::seen_here) {
    forecast.seen = journal::StageFound{*forecast.summary.early, std::nullopt};
  }
  if (!forecast.seen) return;
  const Day first = forecast.seen->first;
  for (TriggerForecast& entry : forecast.begins) {
    if (entry.trigger->use == rules::Use::date) entry.seen = first;
  }
  forecast.spread = certain(first, members_);
  forecast.summary = summarize(forecast.spread);
  if (forecast.seen->last_not_found) forecast.summary.early = *forecast.seen->last_not_found + date::days{1};
  forecast.summary.spread_out = forecast.summary.early != forecast.summary.late;
  forecast.standing = Standing::passed;
  forecast.evidence = Evidence::seen_here;
  stage_spreads_[stage.id] = forecast.spread;
  stages_seen_[stage.id] = first;
}

}  // namespace budclock::forecast

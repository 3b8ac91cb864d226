#include <budclock/forecast/yearline.hpp>

#include "season_cache.hpp"

#include <algorithm>
#include <tuple>
#include <utility>

namespace budclock::forecast {
namespace {

YearEvent stage_event(const rules::Pest& pest, const StageForecast& stage) {
  YearEvent event{.kind = EventKind::pest_stage,
                  .of_id = pest.id,
                  .of = pest.name,
                  .id = stage.stage->id,
                  .what = stage.stage->name,
                  .spread = stage.spread,
                  .summary = stage.summary,
                  .standing = stage.standing,
                  .evidence = stage.evidence};
  event.day = event.summary.likely;
  if (event.evidence == Evidence::calendar) event.day = event.summary.early;
  for (const TriggerForecast& trigger : stage.begins) {
    if (trigger.trigger->use == rules::Use::date && trigger.spread.known()) {
      event.citations.push_back(&trigger.trigger->citation);
    }
  }
  return event;
}

Spread date_of(const rules::CompanionEvent& published, MonthDay start, SeasonCache& seasons, bool too_old) {
  Spread spread = first_reached(seasons.season(rules::formula(published.count), start), published.cue.sum);
  return too_old ? only_if_reached(std::move(spread), seasons.weather()) : spread;
}

YearEvent companion_event(const rules::Companion& companion, const rules::CompanionEvent& published,
                          SeasonCache& seasons, bool too_old) {
  const rules::Stated<MonthDay>& start = published.count.start;
  const bool plant = companion.kind == rules::CompanionKind::indicator_plant;
  YearEvent event{.kind = plant ? EventKind::bloom : EventKind::companion,
                  .of_id = companion.id,
                  .of = companion.name,
                  .id = published.id,
                  .what = published.says,
                  .spread = date_of(published, start.value, seasons, too_old),
                  .evidence = Evidence::one_source,
                  .citations = {&published.citation},
                  .published = &published};
  event.summary = summarize(event.spread);
  event.day = event.summary.likely;
  event.standing = standing_on(event.spread, seasons.weather().today);
  for (const MonthDay other : start.alternatives) {
    Spread spread = date_of(published, other, seasons, too_old);
    const Summary summary = summarize(spread);
    event.alternatives.push_back({"from " + short_text(other), std::move(spread), summary});
  }
  return event;
}

auto place_in_line(const YearEvent& event) {
  return std::tuple{half_month_of(*event.day), event.kind, *event.day, event.of, event.what};
}

}  // namespace

Day half_month_of(Day day) {
  const date::year_month_day ymd{day};
  return ymd.year() / ymd.month() / (ymd.day() < date::day{16} ? 1 : 16);
}

YearLine year_line(const SiteForecast& site, const std::vector<rules::Companion>& companions,
                   const SiteWeather& weather) {
  YearLine line{.site = site.site, .today = site.today, .weather = site.weather, .notes = site.notes};
  const auto add = [&](YearEvent event) { (event.day ? line.events : line.undated).push_back(std::move(event)); };
  for (const PestForecast& pest : site.pests) {
    for (const StageForecast& stage : pest.stages) add(stage_event(*pest.pest, stage));
  }
  SeasonCache seasons{weather};
  for (const rules::Companion& companion : companions) {
    for (const rules::CompanionEvent& published : companion.events) {
      add(companion_event(companion, published, seasons, site.weather.too_old));
    }
  }
  std::stable_sort(line.events.begin(), line.events.end(),
                   [](const YearEvent& a, const YearEvent& b) { return place_in_line(a) < place_in_line(b); });
  return line;
}

}  // namespace budclock::forecast

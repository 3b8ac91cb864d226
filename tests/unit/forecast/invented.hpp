// An invented pest on invented weather.
#pragma once

#include <budclock/forecast/evaluate.hpp>

#include <utility>
#include <vector>

namespace invented {

using namespace budclock;
using namespace budclock::forecast;
using rules::Action;
using rules::WindowKind;

inline Day day(const char* text) { return parse_iso_day(text).value(); }

/// Every day 60 °F, so 10 degree-days above 50 °F; the n-th day of the year ends with 10 n.
inline weather::DailySeries warm_days(const char* first, const char* last) {
  weather::DailySeries series;
  for (Day each = day(first); each <= day(last); each += date::days{1}) {
    const std::size_t i = weather::include_day(series, each);
    series.tmin[i] = series.tmax[i] = {Temperature::fahrenheit(60), weather::Origin::observed};
  }
  return series;
}

inline SiteWeather as_of(const char* today, const char* first = "2010-01-01") {
  return {warm_days(first, today), day(today)};
}

inline rules::Trigger by_sum(const char* id, double sum) {
  return {id, id, rules::DegreeDayCue{"count", "", DegreeDays::fahrenheit_days(sum)}, rules::Use::date, {}};
}

inline rules::Trigger by_calendar(const char* id, MonthDay from, MonthDay to) {
  return {id, id, rules::CalendarCue{from, to}, rules::Use::date, {}};
}

inline rules::Trigger by_eye(const char* id) { return {id, id, rules::PlantCue{"cupping", {}}, rules::Use::date, {}}; }

inline rules::Window window(const char* id, WindowKind kind, const char* opens, const char* closes, Action action) {
  rules::Window made;
  made.id = id;
  made.kind = kind;
  made.actions = {action};
  const bool act = kind == WindowKind::act;
  made.opens = {{opens}, act ? rules::Direction::latest : rules::Direction::earliest};
  made.closes = {{closes}, act ? rules::Direction::earliest : rules::Direction::latest};
  return made;
}

/// A pest with one stage that holds all triggers.
inline rules::Pest pest(std::vector<rules::Trigger> triggers, std::vector<rules::Window> windows) {
  rules::Pest made;
  made.id = made.name = "pest";
  rules::Count count;
  count.id = "count";
  count.lower = Temperature::fahrenheit(50);
  count.start.value = date::January / 1;
  made.counts = {count};
  made.observations = {{"cupping", "cupped leaves", {}, {}}};
  rules::Stage stage;
  stage.id = "stage";
  stage.begins = std::move(triggers);
  made.stages = {stage};
  made.windows = std::move(windows);
  return made;
}

inline PestForecast forecast_of(const rules::Pest& pest, const SiteWeather& weather) {
  return evaluate(Question{.site = "made-up garden", .pests = {&pest}, .method = {}}, weather).pests.front();
}

}  // namespace invented

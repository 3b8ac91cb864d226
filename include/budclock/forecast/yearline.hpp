// One year of one site in the order in which things happen: pest stages, other pests, and blooms to check against.
#pragma once

#include <budclock/forecast/site_forecast.hpp>

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace budclock::forecast {

/// In the order in which a time line names them.
enum class EventKind : std::uint8_t {
  pest_stage,  ///< a stage of a pest of the table
  companion,   ///< another pest, dated by one figure
  bloom,       ///< an indicator plant, dated by one figure
};

struct YearEvent {
  EventKind kind = EventKind::pest_stage;
  std::string of_id;         ///< of the pest or companion
  std::string of;            ///< its name
  std::string id;            ///< of the stage or event
  std::string what;          ///< "egg hatch", "first bloom"
  std::optional<Day> day{};  ///< under which it stands: the likely one; where only the calendar speaks, its first
  Spread spread{};
  Summary summary{};  ///< of a stage dated by the calendar only: the calendar's own range
  Standing standing = Standing::not_known;
  Evidence evidence = Evidence::none;
  std::vector<const rules::Citation*> citations{};   ///< of what dates it
  const rules::CompanionEvent* published = nullptr;  ///< the figure of a companion or bloom; null for a stage
  std::vector<TriggerForecast::Alternative> alternatives{};
};

/// Day 1 or day 16 of its month: the first day of the half-month that `day` lies in.
Day half_month_of(Day day);

struct YearLine {
  std::string site{};
  Day today{};
  WeatherState weather{};
  std::vector<std::string> notes{};
  /// By half-month of their day, within it by kind, then by day and name.
  std::vector<YearEvent> events{};
  /// Without a day: not known, not reached this season, or in too few years to name one.
  std::vector<YearEvent> undated{};
};

/// The time line of an evaluated site with companions beside its pests. `weather` is the one that was evaluated.
/// Keeps pointers into the rules and `companions`, which must outlive it. Pure, as evaluate is.
YearLine year_line(const SiteForecast& site, const std::vector<rules::Companion>& companions,
                   const SiteWeather& weather);

}  // namespace budclock::forecast

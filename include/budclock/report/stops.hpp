// From windows to a crew's days: which sites to visit when, and which do not fit.
#pragma once

#include <budclock/forecast/distance.hpp>
#include <budclock/report/csv.hpp>
#include <budclock/report/digest.hpp>
#include <budclock/report/document.hpp>

#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <vector>

namespace budclock::report {

/// What there is to work with. Times and speed are the firm's own; the defaults are assumptions, and reports say so.
struct Crews {
  int count = 1;
  double hours = 8;  ///< of a day, for stops and the ways between them
  int days = 5;      ///< from today
  double stop_hours = 1;
  double km_per_hour = 40;  ///< in a straight line
  double area_km = 10;      ///< stops so near to the first of a day are one area
};

/// A site and what is to be done there.
struct Stop {
  std::string site;
  forecast::Coordinates place;
  std::vector<DigestLine> lines{};    ///< looks and actions that are due within the days; none that is barred
  std::vector<DigestVisit> visits{};  ///< follow-ups that are due within the days, or were missed
  Day from{};                         ///< the first day on which one of them is due
  std::optional<Day> by{};            ///< the last day of the one that ends first
  bool confirmed = false;             ///< what an action asks for has been found and still counts
  /// Where it was put; nothing: it does not fit.
  std::optional<Day> day{};
  int crew = 0;
  int order = 0;  ///< within the crew's day, from 1
  double km = 0;  ///< from the stop before; 0 for the first of a day
};

struct StopPlan {
  Day today{};
  Crews crews{};
  std::vector<Stop> stops{};  ///< those that fit, by day, crew and order; then those that do not, by urgency
  std::size_t fitting = 0;

  std::span<const Stop> fit() const { return {stops.data(), fitting}; }
  std::span<const Stop> left() const { return std::span{stops}.subspan(fitting); }
};

/// The stop at a site: its lines and visits that are due within the days. Nothing when there are none, or the site has
/// failed.
std::optional<Stop> stop_at(const SiteDigest& site, forecast::Coordinates place, Day today, int days);

/// Shares the stops out. Each crew's day begins with the most urgent stop that is left: confirmed before others, then
/// what ends first, then what stands on more evidence. It goes on with stops of the same area, then with others, as far
/// as its hours go. No stop is put outside its own days. Greedy, and the same for the same input.
StopPlan plan_stops(std::vector<Stop> stops, Day today, const Crews& crews);

Document stops_document(const StopPlan& plan);

/// A header and one row a stop; `day` is empty where it does not fit.
std::string stops_csv(const StopPlan& plan, const CsvDialect& dialect);

/// An all-day event for each stop that fits; a newer plan moves it.
std::string stops_calendar(const StopPlan& plan);

}  // namespace budclock::report

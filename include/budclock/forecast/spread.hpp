// When something happens, as far as it is known: one date for each way the season may go on.
#pragma once

#include <budclock/core/date.hpp>

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace budclock::forecast {

/// Dates of one event, one entry for each member (a past year's continuation); an empty entry says that the event is
/// not reached this season in that member, and it stays in every denominator. An event that has happened, or that
/// the calendar sets, has the same date in all members. No entries at all: not known, and `unknown` says why.
struct Spread {
  std::vector<std::optional<Day>> dates;
  std::string unknown;

  bool known() const { return !dates.empty(); }
};

/// The same day in `members` members (at least 1).
Spread certain(Day day, std::size_t members);
Spread unknown(std::string why);

/// The share of members in which the event is reached at all, 0 to 1; 0 when not known.
double share_reached(const Spread& spread);

/// The share of members in which it is reached on or before `day`.
double share_reached_by(const Spread& spread, Day day);

/// Dates that say most of a spread. Each is empty when the rank falls among members that never get there.
struct Summary {
  std::optional<Day> early;   ///< 8 members in 10 lie between early and late
  std::optional<Day> likely;  ///< the median (of an even number, the earlier of the middle two)
  std::optional<Day> late;
  double share = 0;         ///< of members that get there at all
  bool spread_out = false;  ///< members differ
  std::size_t members = 0;
};

/// With fewer members no odds are given: early and late are then simply the first and the last of them.
inline constexpr std::size_t k_members_for_odds = 9;

/// Ranks outward: with M members, early is order statistic floor(0.1 (M + 1)), late ceil(0.9 (M + 1)), kept within
/// 1..M, so that the expected coverage is at least 80 % where M allows it (M >= 9).
/// The places, from 0, of what one, five and nine in ten of so many members have at most, in ascending order; the first
/// and the last place where there are too few.
struct TenthPlaces {
  std::size_t low = 0;
  std::size_t middle = 0;
  std::size_t high = 0;
};
TenthPlaces tenth_places(std::size_t members);

Summary summarize(const Spread& spread);

/// The date that comes first (or last) in each member. A member that never reaches an event counts as later than any
/// date. All spreads must be known and equally long.
Spread earliest(const std::vector<Spread>& spreads);
Spread latest(const std::vector<Spread>& spreads);

/// All dates of several spreads together, each spread weighing the same.
Spread pooled(const std::vector<Spread>& spreads);

}  // namespace budclock::forecast

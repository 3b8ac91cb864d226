// One site's or station's weather: a dense run of days, each with a minimum and a maximum.
#pragma once

#include <budclock/core/date.hpp>
#include <budclock/core/temperature.hpp>

#include <cstddef>
#include <cstdint>
#include <optional>
#include <vector>

namespace budclock::weather {

/// Where a value came from. The two extremes of a day fail independently, so each carries its own.
enum class Origin : std::uint8_t {
  absent,     ///< no value in the record: the cell was empty or marked missing, or the day has no row
  set_aside,  ///< there was something, but it could not be used (malformed, impossible, suspicious)
  observed,   ///< as read
  forecast,   ///< from a short-range forecast, after the last observed day
  neighbour,  ///< filled from another station, its bias removed
  line,       ///< filled by a straight line over a short gap
};

/// One day's extreme: the value counts only when `has_value(origin)`.
struct DayValue {
  Temperature value;
  Origin origin = Origin::absent;
};

constexpr bool has_value(Origin origin) { return origin >= Origin::observed; }

/// Days from `first` on without a break; both arrays have one entry a day. Thirty years are 11,000 days, so a
/// series is always held whole.
struct DailySeries {
  Day first{};
  std::vector<DayValue> tmin;
  std::vector<DayValue> tmax;

  std::size_t size() const { return tmin.size(); }
  bool empty() const { return tmin.empty(); }
  /// The last day; the series must not be empty.
  Day last() const { return first + date::days{static_cast<int>(size()) - 1}; }
  Day day(std::size_t index) const { return first + date::days{static_cast<int>(index)}; }
  /// The index of a day inside the series, or nothing.
  std::optional<std::size_t> index_of(Day day) const;
  /// True when both extremes of that day can be used.
  bool complete(std::size_t index) const { return has_value(tmin[index].origin) && has_value(tmax[index].origin); }
  /// The last day on which both extremes are observed.
  std::optional<Day> last_observed() const;
};

/// Makes `day` part of the series, adding absent days before or after as needed, and returns its index.
/// The day's year must lie within k_first_year..k_last_year (that bounds the memory).
std::size_t include_day(DailySeries& series, Day day);

/// The series up to and including `today`; nothing after it is kept.
DailySeries until(const DailySeries& series, Day today);

}  // namespace budclock::weather

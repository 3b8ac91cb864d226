// Which publisher's table this is, told by the names of its columns, and what that publisher fixes about it.
#pragma once

#include <budclock/weather/header.hpp>
#include <budclock/weather/reader.hpp>

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>

namespace budclock::weather {

/// What a cell of flags says.
enum class FlagStyle : std::uint8_t {
  none,
  attributes,  ///< NOAA's "measurement,quality,source": a quality flag fails the value
  quality,     ///< a quality flag by itself: any letter fails the value
  letters,     ///< field stations' letters: M (missing) and Q (questionable) fail the value, E (estimated) does not
};

/// What is known of a table beyond its columns.
struct TableLayout {
  std::string name;
  RecordKind kind = RecordKind::observed;
  /// The unit that the publisher fixes.
  std::optional<TemperatureUnit> unit{};
  bool tenths = false;
  /// The publisher's files in tenths look like his files in degrees: whole numbers too large for degrees are tenths.
  bool tenths_when_large = false;
  /// The publisher gives whole numbers in °F and one decimal in °C, never tenths as whole numbers.
  bool whole_numbers_are_degrees = false;
  bool dates_without_year = false;  ///< MM-DD
  FlagStyle flags = FlagStyle::none;
  std::size_t tmax_flags = ColumnMap::k_none;  ///< also of the one value of a long table
  std::size_t tmin_flags = ColumnMap::k_none;
};

/// Tells the layout of a table from its columns. `delimiter` and `titles` (the lines above the header) describe one
/// that no publisher is known for.
TableLayout recognise_layout(const ColumnMap& columns, char delimiter, const std::string& titles);

}  // namespace budclock::weather

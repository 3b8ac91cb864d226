// What one name in a table's header says.
#pragma once

#include <budclock/core/temperature.hpp>

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace budclock::weather {

/// What a column can hold for us.
enum class ColumnRole : std::uint8_t {
  other,
  date,
  year,
  month,
  day,
  station,
  tmax,
  tmin,
  temperature,  ///< a reading within the day
  time,         ///< of day, in a column of its own
  hour,
  day_of_year,
  element,  ///< which quantity a row of a long table holds
  value,    ///< of that quantity
};

/// What one name in a header says.
struct ColumnName {
  ColumnRole role = ColumnRole::other;
  int rank = 0;  ///< 0 the plainest name for the role; a higher one yields to a lower
  std::optional<TemperatureUnit> unit;
};

/// Reads a name without regard to case, spaces and punctuation: "TMAX", "max_temp", "Max Temp (°F)", "tmax_degc".
ColumnName read_column_name(std::string_view name);

/// The unit that a name ends in, whatever the column holds.
std::optional<TemperatureUnit> unit_in_name(std::string_view name);

/// Letters and digits of a name in lower case, without all else.
std::string plain_name(std::string_view name);

}  // namespace budclock::weather

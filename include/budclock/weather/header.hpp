// Which column of a table is which, told by the names in its header line.
#pragma once

#include <budclock/core/temperature.hpp>
#include <budclock/weather/problem_list.hpp>
#include <budclock/weather/row_splitter.hpp>

#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <string_view>

namespace budclock::weather {

/// How the unit of a file's temperatures was known.
enum class UnitEvidence : std::uint8_t {
  header,
  layout,  ///< the publisher of that layout fixes it
  option,
  values,  ///< the numbers can be of no other unit
};

/// What a column can hold for us.
enum class ColumnRole : std::uint8_t { other, date, year, month, day, station, tmax, tmin };

/// What one name in a header says.
struct ColumnName {
  ColumnRole role = ColumnRole::other;
  int rank = 0;  ///< 0 the plainest name for the role; a higher one yields to a lower
  std::optional<TemperatureUnit> unit;
};

/// Reads a name without regard to case, spaces and punctuation: "TMAX", "max_temp", "Max Temp (°F)", "tmax_degc".
ColumnName read_column_name(std::string_view name);

/// Where things stand in a row.
struct ColumnMap {
  static constexpr std::size_t k_none = static_cast<std::size_t>(-1);
  std::size_t count = 0;  ///< columns in the header
  std::size_t date = k_none;
  std::size_t year = k_none, month = k_none, day = k_none;  ///< used when there is no date column
  std::size_t station = k_none;
  std::size_t tmax = k_none;
  std::size_t tmin = k_none;
  TemperatureUnit unit = TemperatureUnit::celsius;
  UnitEvidence unit_evidence = UnitEvidence::header;
};

/// How many of the roles that a record needs (date, tmax, tmin) the names fill.
int roles_filled(std::span<const Field> names);

/// Maps the columns of a header on line `line`. What is lacking or doubtful becomes an error in `problems`, and then
/// there is no map. `stated_unit` decides where the header states no unit, and between columns of both units.
std::optional<ColumnMap> map_columns(std::span<const Field> names, std::size_t line,
                                     std::optional<TemperatureUnit> stated_unit, ProblemList& problems);

}  // namespace budclock::weather

// Which column of a table is which, told by the names in its header line.
#pragma once

#include <budclock/core/temperature.hpp>
#include <budclock/weather/column_names.hpp>
#include <budclock/weather/problem_list.hpp>
#include <budclock/weather/row_splitter.hpp>

#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace budclock::weather {

/// How the unit of a file's temperatures was known.
enum class UnitEvidence : std::uint8_t {
  header,
  layout,  ///< the publisher of that layout fixes it
  option,
  values,  ///< the numbers can be of no other unit
};

/// Which columns hold what, where a table does not tell or tells otherwise: for each the header's name, or the place
/// counted from 1. An empty text leaves the choice to the header.
struct ColumnChoice {
  std::string date{}, tmax{}, tmin{};
  std::string temperature{};  ///< a reading within the day, instead of tmax and tmin
  std::string station{};
  bool empty() const { return date.empty() && tmax.empty() && tmin.empty() && temperature.empty() && station.empty(); }
};

/// Where things stand in a row.
struct ColumnMap {
  static constexpr std::size_t k_none = static_cast<std::size_t>(-1);
  std::size_t count = 0;           ///< columns in the header
  std::size_t header_line = 0;     ///< 0: the table has no header
  std::vector<std::string> names;  ///< of all columns, as written; their places where there is no header
  std::size_t date = k_none;
  std::size_t year = k_none, month = k_none, day = k_none;  ///< used when there is no date column
  std::size_t day_of_year = k_none;                         ///< used with the year when there is no month
  std::size_t time = k_none;                                ///< time of day or hour in a column of its own
  std::size_t station = k_none;
  std::size_t tmax = k_none;
  std::size_t tmin = k_none;
  std::size_t temperature = k_none;              ///< readings within the day, instead of tmax and tmin
  std::size_t element = k_none, value = k_none;  ///< long tables, instead of tmax and tmin
  std::optional<TemperatureUnit> unit;           ///< as the names, the layout or the user state it
  bool tenths = false;                           ///< the numbers count tenths of a degree
  UnitEvidence unit_evidence = UnitEvidence::header;

  bool has_extremes() const { return tmax != k_none && tmin != k_none; }
  /// The columns of temperatures.
  std::vector<std::size_t> temperatures() const;
};

/// How many of the roles that a record needs (date, and the extremes or a temperature) the names fill: 0 to 3.
int roles_filled(std::span<const Field> names);

/// Maps the columns of a header on line `line`. What is lacking or doubtful becomes an error in `problems`, and then
/// there is no map. `stated_unit` decides between columns of both units; the map's unit stays open where neither it
/// nor the names state one.
std::optional<ColumnMap> map_columns(std::span<const Field> names, std::size_t line,
                                     std::optional<TemperatureUnit> stated_unit, const ColumnChoice& chosen,
                                     ProblemList& problems);

/// Maps the columns of a table without a header, of which `first_row` is the first row: by the places chosen, or to a
/// long table of GHCN-Daily. Nothing, with an error that shows the row and the option to try, when neither serves.
std::optional<ColumnMap> map_columns_by_place(std::span<const Field> first_row, std::size_t line,
                                              std::optional<TemperatureUnit> stated_unit, const ColumnChoice& chosen,
                                              ProblemList& problems);

/// True for a row of NOAA's GHCN-Daily files by year: station, YYYYMMDD, element, value and flags, without a header.
bool is_ghcn_by_year_row(std::span<const Field> row);

}  // namespace budclock::weather

// A look at the first rows of a table, before any is read for good.
#pragma once

#include <budclock/weather/date_text.hpp>
#include <budclock/weather/header.hpp>
#include <budclock/weather/problem_list.hpp>
#include <budclock/weather/row_splitter.hpp>
#include <budclock/weather/value_text.hpp>

#include <cstddef>
#include <optional>
#include <span>
#include <string_view>

namespace budclock::weather {

/// What the numbers of the temperature columns can be.
struct NumberEvidence {
  std::size_t numbers = 0;     ///< numbers that are no marks for "no value"
  std::size_t decimals = 0;    ///< those with a decimal mark
  std::size_t too_large = 0;   ///< beyond what has ever been measured in °F, and so in either unit
  std::size_t fahrenheit = 0;  ///< beyond what has ever been measured in °C, but not in °F
};

/// What the first rows tell about all.
struct TableSurvey {
  DateOrderEvidence order;
  NumberEvidence values;
  std::size_t rows = 0;                 ///< rows looked at
  std::size_t rows_within_day = 0;      ///< rows with a time of day, of a station's day that an earlier row is of
  std::size_t first_utc_line = 0;       ///< the first row whose time is marked as UTC; 0: none
  bool decimal_comma = false;           ///< numbers have a decimal comma, and none a point
  bool station_differs_always = false;  ///< every row has another id and another day: the id numbers the rows

  /// Most rows are readings within a day.
  bool within_day() const { return rows_within_day * 2 > rows; }
};

/// Looks at a thousand rows, and on while the order of the dates is open (at most TextBuffer::k_max_lookahead bytes);
/// then goes back to where it began.
TableSurvey survey_table(RowSplitter& rows, const ColumnMap& columns);

/// The order of the dates, as stated or shown by the rows. Nothing, with an error, when they leave it open.
std::optional<DateOrder> choose_order(const DateOrderEvidence& seen, std::optional<DateOrder> stated,
                                      ProblemList& problems);

/// A field without the spaces around it.
inline std::string_view cell_text(std::span<const Field> fields, std::size_t column) {
  return trimmed(fields[column].text);
}

/// True for the elements of a long table that are the daily extremes.
inline bool is_maximum(std::string_view element) { return element == "TMAX"; }
inline bool is_minimum(std::string_view element) { return element == "TMIN"; }

}  // namespace budclock::weather

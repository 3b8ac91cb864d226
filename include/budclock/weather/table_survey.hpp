// A look at the first rows of a table, before any is read for good.
#pragma once

#include <budclock/weather/date_text.hpp>
#include <budclock/weather/header.hpp>
#include <budclock/weather/problem_list.hpp>
#include <budclock/weather/row_splitter.hpp>

#include <cstddef>
#include <optional>
#include <string_view>

namespace budclock::weather {

/// What the first rows tell about all.
struct TableSurvey {
  DateOrderEvidence order;
  std::size_t rows = 0;             ///< rows looked at
  std::size_t rows_within_day = 0;  ///< rows with a time of day and the same day as the row before
  std::size_t first_within_day_line = 0;
  bool decimal_comma = false;           ///< numbers have a decimal comma, and none a point
  bool station_differs_always = false;  ///< every row has another id and another day: the id numbers the rows
};

/// Looks at a thousand rows, and on while the order of the dates is open (at most TextBuffer::k_max_lookahead bytes);
/// then goes back to where it began.
TableSurvey survey_table(RowSplitter& rows, const ColumnMap& columns);

/// The order of the dates, as stated or shown by the rows. Nothing, with an error, when they leave it open.
std::optional<DateOrder> choose_order(const DateOrderEvidence& seen, std::optional<DateOrder> stated,
                                      ProblemList& problems);

/// A field without the spaces around it.
std::string_view cell_text(std::span<const Field> fields, std::size_t column);

}  // namespace budclock::weather

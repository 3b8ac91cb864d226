// Where a table begins: its delimiter, the lines above it, its header or the lack of one.
#pragma once

#include <budclock/weather/header.hpp>
#include <budclock/weather/problem_list.hpp>
#include <budclock/weather/row_splitter.hpp>

#include <cstddef>
#include <optional>
#include <string>

namespace budclock::weather {

/// How a table begins.
struct TableStart {
  char delimiter = ',';
  bool has_header = true;
  std::string titles{};  ///< the first cells of the lines above the header, one a line
};

/// Goes to the row that begins the table and sets the delimiter under which it is best split: the first of the first
/// rows whose names tell the most, or, in a table without a header, its first row. The row stands in `rows`
/// then, and is marked, so that `rewind` goes back to before it.
/// Lines above it are told of by a note. Nothing, with an error, when there is no such row.
std::optional<TableStart> find_table_start(RowSplitter& rows, const ColumnChoice& chosen, ProblemList& problems);

}  // namespace budclock::weather

// Tables that people keep by hand or in a spreadsheet: sites, scouting logs. Small enough to hold whole.
#pragma once

#include <budclock/core/diagnostic.hpp>

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace budclock::sites {

/// What may stand in a table.
struct TableColumns {
  std::vector<std::string_view> names;     ///< the known columns, by their lower-case names
  std::vector<std::string_view> required;  ///< those that must be there
  std::string_view free_prefix;            ///< columns that begin so may have any name; empty: none
};

struct HandCell {
  std::string text;  ///< without spaces around it
  std::size_t line = 0;
  std::size_t column = 0;
};

struct HandRow {
  std::size_t line = 0;
  std::vector<HandCell> cells;  ///< one for each column of the header
};

struct HandTable {
  char delimiter = ',';
  std::vector<HandCell> header;  ///< lower case; "" for an unnamed column, or an unknown one
  std::vector<HandRow> rows;
  std::vector<std::size_t> unread;  ///< the lines on which the rows begin that were left out

  /// Index of a column; npos when the table lacks it.
  static constexpr std::size_t k_none = static_cast<std::size_t>(-1);
  std::size_t column(std::string_view name) const;
};

/// Reads a table with a header line; delimiter (comma, semicolon, tab), line ends and quoting are told by the text.
/// An unknown, repeated or missing column, and a row that cannot be split, has more cells than the header or is no
/// UTF-8, is a diagnostic with its place; such rows are left out. Without a header that names the required columns
/// the table is empty and the diagnostic an error. Lines that begin with # are comments; one that looks like a row is
/// a note.
HandTable read_hand_table(std::string_view text, std::string_view file_name, const TableColumns& columns,
                          Diagnostics& diagnostics);

}  // namespace budclock::sites

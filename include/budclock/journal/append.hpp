// Adding rows to tables that people also edit.
#pragma once

#include <budclock/core/diagnostic.hpp>

#include <cstdint>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace budclock::journal {

enum class Appended : std::uint8_t { added, duplicate, failed };

struct AppendResult {
  Appended outcome = Appended::failed;
  Diagnostics
      diagnostics;  ///< why it failed, or where the duplicate stands; a note when a spreadsheet has the file open
};

/// A table on disk: the columns that a new file gets, which of them a spreadsheet must not take for a formula, and
/// which are looked up from the others, so that a row which differs in them alone is the same row.
struct TableShape {
  std::span<const std::string_view> columns;
  std::span<const std::string_view> free_text;
  std::span<const std::string_view> looked_up{};
};

/// Adds one row (a text for each of `shape.columns`) to the file, which is made with a header when it is not there or
/// empty. Waits for the lock on the sibling "PATH.lock", opens the file by its path (an editor may have replaced it),
/// keeps its column order, delimiter, line ends and quoting, ends an unfinished last line, writes once and syncs.
/// A row that is there already is not added again. On any failure, a full disk included, the old bytes stand.
AppendResult append_row(const std::string& path, const TableShape& shape, std::span<const std::string> cells);

/// `append_row` for a scouting log; the cells are those of k_log_columns.
AppendResult append_to_log(const std::string& path, std::span<const std::string> cells);

}  // namespace budclock::journal

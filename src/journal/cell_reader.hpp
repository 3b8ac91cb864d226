// The cells that the rows of every log have in common: day, site and pest.
#pragma once

#include <budclock/journal/log.hpp>
#include <budclock/sites/hand_table.hpp>

#include "date_column.hpp"

#include <functional>
#include <map>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace budclock::journal {

std::string lower_case(std::string_view text);

/// Line breaks and tabs may stand in a note; nothing else that a terminal would act on.
bool is_plain(std::string text);

/// A row that is not in a file yet, as a table without places.
sites::HandTable table_of_row(std::span<const std::string_view> columns, std::span<const std::string> row);

/// Puts the diagnostics from the index `from` on into the order of their lines and columns.
void sort_by_place(Diagnostics& diagnostics, std::size_t from);

/// Reads them row by row, in the row that was started last. Each `read_` is false (or null), after a fault, when the
/// cell cannot be right.
class CellReader {
 public:
  CellReader(const sites::HandTable& table, std::string_view file, const LogContext& context, Diagnostics& diagnostics);

  void start(const sites::HandRow& row);
  Place place() const;
  const std::vector<sites::HandCell>& cells() const { return row_->cells; }
  /// The cell; an empty one when the table has no such column.
  const sites::HandCell& cell(std::string_view column) const;
  void fault(const sites::HandCell& cell, std::string message, std::string remedy);
  void fault_row(std::string message, std::string remedy);

  bool read_date(Day& day);
  bool read_site(std::string& name);
  const rules::Pest* read_pest(std::string& id);
  const rules::PestTable& pest_table() const { return context_.pests; }

 private:
  const sites::HandTable& table_;
  std::string_view file_;
  const LogContext& context_;
  Diagnostics& diagnostics_;
  DateColumn dates_;
  std::map<std::string, std::string, std::less<>> sites_;          ///< by name in small letters
  std::map<std::string, const rules::Pest*, std::less<>> pests_;   ///< those named by earlier rows, as written there
  std::map<std::string, std::string, std::less<>> unknown_sites_;  ///< what to do about each
  const sites::HandRow* row_ = nullptr;
};

}  // namespace budclock::journal

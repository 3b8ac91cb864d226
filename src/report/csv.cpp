#include <budclock/core/spreadsheet.hpp>
#include <budclock/report/csv.hpp>

#include <algorithm>

namespace budclock::report {
void CsvText::separate() {
  if (row_started_) out_ += dialect_.delimiter;
  row_started_ = true;
}

CsvText& CsvText::plain(std::string_view cell) {
  separate();
  const bool special =
      cell.find_first_of("\"\r\n") != std::string_view::npos || cell.find(dialect_.delimiter) != std::string_view::npos;
  if (!special) {
    out_ += cell;
    return *this;
  }
  out_ += '"';
  for (const char c : cell) {
    if (c == '"') out_ += '"';
    out_ += c;
  }
  out_ += '"';
  return *this;
}

CsvText& CsvText::number(std::string_view cell) {
  std::string text{cell};
  std::replace(text.begin(), text.end(), '.', dialect_.decimal);
  return plain(text);
}

CsvText& CsvText::text(std::string_view cell) { return plain(guarded_cell(cell)); }

void CsvText::end_row() {
  out_ += '\n';
  row_started_ = false;
}

}  // namespace budclock::report

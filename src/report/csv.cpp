#include <budclock/core/diagnostic.hpp>
#include <budclock/core/spreadsheet.hpp>
#include <budclock/report/csv.hpp>

#include <algorithm>

namespace budclock::report {
namespace {

/// Controls as \xNN, but for line breaks and tabs, which may stand in a note.
std::string without_controls(std::string_view cell) {
  constexpr std::string_view k_kept = "\n\t";
  std::string text;
  while (!cell.empty()) {
    const std::size_t end = std::min(cell.find_first_of(k_kept), cell.size());
    text += printable(std::string{cell.substr(0, end)});
    cell.remove_prefix(end);
    for (; !cell.empty() && k_kept.find(cell.front()) != std::string_view::npos; cell.remove_prefix(1)) {
      text += cell.front();
    }
  }
  return text;
}

}  // namespace

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

CsvText& CsvText::text(std::string_view cell) {
  const bool simple = std::all_of(cell.begin(), cell.end(), [](char c) { return c >= ' ' && c <= '~'; });
  return plain(guarded_cell(simple ? std::string{cell} : without_controls(cell)));
}

void CsvText::end_row() {
  out_ += '\n';
  row_started_ = false;
}

}  // namespace budclock::report

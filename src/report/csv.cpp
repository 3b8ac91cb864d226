#include <budclock/report/csv.hpp>

namespace budclock::report {
namespace {

constexpr std::string_view k_formula_starts = "=+-@\t\r";

}  // namespace

void CsvText::separate() {
  if (row_started_) out_ += ',';
  row_started_ = true;
}

CsvText& CsvText::plain(std::string_view cell) {
  separate();
  if (cell.find_first_of(",\"\r\n") == std::string_view::npos) {
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

CsvText& CsvText::text(std::string_view cell) {
  const bool runs = !cell.empty() && k_formula_starts.find(cell.front()) != std::string_view::npos;
  return runs ? plain("'" + std::string{cell}) : plain(cell);
}

void CsvText::end_row() {
  out_ += '\n';
  row_started_ = false;
}

}  // namespace budclock::report

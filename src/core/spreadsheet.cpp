#include <budclock/core/spreadsheet.hpp>

namespace budclock {

std::string guarded_cell(std::string_view cell) {
  constexpr std::string_view k_formula_starts = "=+-@\t\r";
  const bool runs = !cell.empty() && k_formula_starts.find(cell.front()) != std::string_view::npos;
  return (runs ? "'" : "") + std::string{cell};
}

}  // namespace budclock

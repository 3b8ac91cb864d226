#include <budclock/core/spreadsheet.hpp>

#include <algorithm>

namespace budclock {
namespace {

/// How many apostrophes stand before what a spreadsheet could run; nothing where there is no such thing.
std::size_t apostrophes_before_formula(std::string_view cell) {
  constexpr std::string_view k_formula_starts = "=+-@\t\r";
  const std::size_t start = std::min(cell.find_first_not_of('\''), cell.size());
  const bool runs = start < cell.size() && k_formula_starts.find(cell[start]) != std::string_view::npos;
  return runs ? start : std::string_view::npos;
}

}  // namespace

std::string guarded_cell(std::string_view cell) {
  const bool runs = apostrophes_before_formula(cell) != std::string_view::npos;
  return (runs ? "'" : "") + std::string{cell};
}

std::string unguarded_cell(std::string_view cell) {
  const std::size_t apostrophes = apostrophes_before_formula(cell);
  const bool guarded = apostrophes != std::string_view::npos && apostrophes > 0;
  return std::string{cell.substr(guarded ? 1 : 0)};
}

}  // namespace budclock

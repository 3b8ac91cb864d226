#include <budclock/journal/log.hpp>

#include "row_reader.hpp"

#include <algorithm>

namespace budclock::journal {
namespace {

const sites::TableColumns& columns() {
  static const sites::TableColumns k_columns{
      {k_log_columns.begin(), k_log_columns.end()}, {"date", "site", "pest"}, ""};
  return k_columns;
}

void sort_by_date(std::vector<Sighting>& sightings) {
  std::stable_sort(sightings.begin(), sightings.end(),
                   [](const Sighting& a, const Sighting& b) { return a.date < b.date; });
}

}  // namespace

std::vector<Sighting> read_log(std::string_view text, std::string_view file_name, const LogContext& context,
                               Diagnostics& diagnostics) {
  const std::size_t before = diagnostics.size();
  std::vector<Sighting> sightings;
  const sites::HandTable table = sites::read_hand_table(text, file_name, columns(), diagnostics);
  if (table.rows.empty()) return sightings;
  RowReader reader{table, file_name, context, diagnostics};
  for (const sites::HandRow& row : table.rows) {
    if (auto sighting = reader.read(row)) sightings.push_back(std::move(*sighting));
  }
  sort_by_date(sightings);
  drop_impossible_order(sightings, context.pests, diagnostics);
  std::stable_sort(diagnostics.begin() + static_cast<std::ptrdiff_t>(before), diagnostics.end(),
                   [](const Diagnostic& a, const Diagnostic& b) {
                     return std::pair{a.place.line, a.place.column} < std::pair{b.place.line, b.place.column};
                   });
  return sightings;
}

Diagnostics check_row(const LogRow& row, const std::vector<Sighting>& log, const LogContext& context) {
  sites::HandTable table;
  table.rows.emplace_back();
  for (std::size_t i = 0; i < row.size(); ++i) {
    table.header.push_back({std::string{k_log_columns[i]}, 0, 0});
    table.rows[0].cells.push_back({row[i], 0, 0});
  }
  Diagnostics diagnostics;
  const auto sighting = RowReader{table, "", context, diagnostics}.read(table.rows[0]);
  if (!sighting) return diagnostics;
  std::vector<Sighting> all = log;
  all.push_back(*sighting);
  sort_by_date(all);
  drop_impossible_order(all, context.pests, diagnostics);
  return diagnostics;
}

}  // namespace budclock::journal

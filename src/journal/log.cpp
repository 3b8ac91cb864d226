#include <budclock/journal/log.hpp>

#include "row_reader.hpp"

#include <algorithm>
#include <iterator>

namespace budclock::journal {
namespace {

const sites::TableColumns& columns() {
  static const sites::TableColumns k_columns{
      {k_log_columns.begin(), k_log_columns.end()}, {"date", "site", "pest"}, ""};
  return k_columns;
}

void sort_by_date(std::vector<Sighting>& sightings) {
  const auto earlier = [](const Sighting& a, const Sighting& b) { return a.date < b.date; };
  if (std::is_sorted(sightings.begin(), sightings.end(), earlier)) return;  // as most logs are kept
  std::stable_sort(sightings.begin(), sightings.end(), earlier);
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
  sort_by_place(diagnostics, before);
  return sightings;
}

std::optional<Sighting> read_row(const LogRow& row, const std::vector<Sighting>& log, const LogContext& context,
                                 Diagnostics& diagnostics) {
  const sites::HandTable table = table_of_row(k_log_columns, row);
  auto sighting = RowReader{table, "", context, diagnostics}.read(table.rows[0]);
  if (!sighting) return std::nullopt;
  std::vector<Sighting> season;
  std::copy_if(log.begin(), log.end(), std::back_inserter(season),
               [&](const Sighting& old) { return same_plant_and_season(old, *sighting); });
  season.push_back(*sighting);
  const std::size_t rows = season.size();
  sort_by_date(season);
  drop_impossible_order(season, context.pests, diagnostics);
  return season.size() == rows ? std::move(sighting) : std::nullopt;
}

}  // namespace budclock::journal

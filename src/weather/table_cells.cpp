#include <budclock/weather/reader.hpp>
#include <budclock/weather/table_cells.hpp>

namespace budclock::weather {

DateReading TableCells::other_date() const {
  if (plan_.layout.dates_without_year) return DateReader::from_month_day(text(columns_.date), k_normals_year);
  if (columns_.day_of_year != ColumnMap::k_none) {
    return DateReader::from_day_of_year(text(columns_.year), text(columns_.day_of_year));
  }
  return DateReader::from_columns(text(columns_.year), text(columns_.month), text(columns_.day));
}

DayValue TableCells::other_value(std::string_view text) const {
  const Cell cell = read_cell(text, plan_.decimal_mark);
  if (cell.kind == CellKind::missing) return {};
  const Temperature value = temperature_of(columns_.tenths ? cell.hundredths / 10 : cell.hundredths, unit_);
  const bool possible = cell.kind == CellKind::number && value >= k_coldest && value <= k_warmest;
  if (is_missing_mark(cell.hundredths) && !(columns_.tenths && possible)) return {};
  return {possible ? value : Temperature{}, possible ? Origin::observed : Origin::set_aside};
}

bool TableCells::are_failing(std::string_view flags) const {
  switch (plan_.layout.flags) {
    case FlagStyle::none:
      return false;
    case FlagStyle::quality:
      return !flags.empty();
    case FlagStyle::letters:
      return flags.find_first_of("MQ") != std::string_view::npos;
    case FlagStyle::attributes:
      break;
  }
  const auto first = flags.find(',');
  if (first == std::string_view::npos) return false;
  const auto quality = flags.substr(first + 1, flags.find(',', first + 1) - first - 1);
  return !trimmed(quality).empty();
}

}  // namespace budclock::weather

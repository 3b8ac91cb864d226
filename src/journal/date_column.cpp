#include "date_column.hpp"

namespace budclock::journal {

DateColumn::DateColumn(const sites::HandTable& table, std::size_t column) {
  for (const sites::HandRow& row : table.rows) evidence_.add(row.cells[column].text, row.line);
}

weather::DateReading DateColumn::read(std::string_view text) const {
  weather::DateOrderEvidence alone;
  alone.add(text, 1);
  if (alone.either > 0 && !evidence_.settled()) return {{}, weather::DateFault::wrong_order};
  const bool day_first = evidence_.day_first > evidence_.month_first;
  return weather::DateReader{day_first ? weather::DateOrder::day_month_year : weather::DateOrder::month_day_year}.read(
      text);
}

}  // namespace budclock::journal

// The dates of a table that people edit: ISO as we write them, or what a spreadsheet made of them.
#pragma once

#include <budclock/core/date.hpp>
#include <budclock/sites/hand_table.hpp>
#include <budclock/weather/date_text.hpp>

#include <optional>
#include <string_view>

namespace budclock::journal {

class DateColumn {
 public:
  /// Looks at all dates of the column to learn their order.
  DateColumn(const sites::HandTable& table, std::size_t column);

  /// The day a cell names; `fault` is `wrong_order` also where the order is open and the cell can be read two ways.
  weather::DateReading read(std::string_view text) const;

 private:
  weather::DateOrderEvidence evidence_;
};

}  // namespace budclock::journal

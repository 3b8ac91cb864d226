// What all readers of tables share: the row's station, its day, its values, and what is wrong with them.
#pragma once

#include <budclock/weather/reader.hpp>
#include <budclock/weather/row_splitter.hpp>
#include <budclock/weather/station_filter.hpp>
#include <budclock/weather/table_cells.hpp>

#include <functional>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace budclock::weather {

/// A day as its row says it, with nothing wrong.
struct PlainDay {
  Day day{};
  DayValue tmin{};
  DayValue tmax{};
  std::size_t line = 0;
};

/// Days of one station that stand one below the other.
struct PlainRun {
  std::string_view station;  ///< in the rows' text
  std::vector<PlainDay> days;
  std::size_t flagged = 0;  ///< values that the publisher's flags fail
};

/// A part of a table, read apart from the others.
struct TablePart {
  RowSplitter rows;  ///< at its beginning
  /// Nothing when something is wrong with a row: then the part must be read again in its turn.
  std::optional<std::vector<PlainRun>> runs{};
};

/// Reads a part of a table of one row a day. May run beside all else.
TablePart read_part(RowSplitter&& rows, const TablePlan& plan);

/// The rows of one table, one at a time. Every row is kept, of another station than the one asked for, blank, or told
/// of by a fault.
class TableRows {
 public:
  TableRows(RowSplitter& rows, TablePlan plan, ProblemList& problems, const ReadOptions& options,
            const std::function<void(StationRecord&&)>& on_station);

  /// Goes to the next row that has the table's fields; false at the end.
  bool next() {
    while (!collector_.full() && rows_->next()) {
      cells_.look_at(rows_->fields());
      if (cells_.fields().size() == columns_.count || is_usable()) return true;
    }
    return false;
  }

  /// Goes on with the rows of `rows`, which must outlive their reading.
  void go_on_with(RowSplitter& rows) { rows_ = &rows; }
  /// Adds what stands in a part.
  void add(const std::vector<PlainRun>& runs);

  std::string_view text(std::size_t column) const { return cells_.text(column); }

  /// The station and the day of the row. Nothing when the row is not to be used.
  StationBuilder* begin(Day& day) {
    const std::string_view id = cells_.station_id();
    if (columns_.station != ColumnMap::k_none && !filter_.keeps(id)) return nullptr;
    const DateReading date = cells_.date();
    if (date.fault != DateFault::none && is_blank(cells_.fields())) return nullptr;
    ++kept_;
    if (id.empty() && columns_.station != ColumnMap::k_none) return report_no_station();
    StationBuilder* const builder = collector_.builder_of(id, line());
    if (builder == nullptr) return nullptr;
    if (date.fault != DateFault::none) {
      builder->add_dateless();
      return report_date(date.fault);
    }
    day = date.day;
    return builder;
  }

  /// The temperature in a column, whose flags stand in `flags` (k_none: nowhere).
  DayValue value(std::size_t column, std::size_t flags) {
    const DayValue read = cells_.value(column);
    if (read.origin == Origin::set_aside) report_value(column);
    if (!has_value(read.origin) || !cells_.fails(flags)) return read;
    ++flagged_;
    return {};
  }

  /// The minute of the day, 0 to 1440; nothing, with a fault, when the row does not tell it.
  std::optional<int> minute();

  std::size_t line() const { return rows_->line(); }
  const TablePlan& plan() const { return plan_; }
  TemperatureUnit unit() const { return unit_; }
  ProblemList& problems() { return problems_; }

  bool full() const { return collector_.full(); }

  /// Hands on the stations that are still held, and adds the counts to `summary`. False, with an error, when there was
  /// no row of the station asked for.
  bool finish(FileSummary& summary);

 private:
  const Field& field(std::size_t column) const { return cells_.fields()[column]; }
  static bool is_blank(std::span<const Field> fields);
  bool is_usable();
  void report_split();
  StationBuilder* report_no_station();
  StationBuilder* report_date(DateFault problem);
  bool is_fahrenheit_in_celsius(std::int32_t hundredths) const;
  void report_value(std::size_t column);
  void fault(std::size_t offset, std::string message, std::string remedy, FaultKind kind = FaultKind::other);
  std::string date_text() const;

  RowSplitter* rows_;
  const TablePlan plan_;
  const ColumnMap& columns_;
  const TemperatureUnit unit_;
  TableCells cells_;
  ProblemList& problems_;
  StationFilter filter_;
  StationCollector collector_;
  std::size_t kept_ = 0;
  std::size_t flagged_ = 0;
};

}  // namespace budclock::weather

// What all readers of tables share: the row's station, its day, its values, and what is wrong with them.
#pragma once

#include <budclock/weather/reader.hpp>
#include <budclock/weather/station_filter.hpp>
#include <budclock/weather/table_layout.hpp>
#include <budclock/weather/table_survey.hpp>
#include <budclock/weather/value_text.hpp>

#include <functional>
#include <span>
#include <string>
#include <string_view>

namespace budclock::weather {

/// All that is settled about a table before its rows are read.
struct TablePlan {
  ColumnMap columns;
  TableLayout layout;
  DateOrder order = DateOrder::year_month_day;
  char decimal_mark = '.';
};

/// The rows of one table, one at a time. Every row is kept, of another station than the one asked for, blank, or told
/// of by a fault.
class TableRows {
 public:
  TableRows(RowSplitter& rows, TablePlan plan, ProblemList& problems, const ReadOptions& options,
            const std::function<void(StationRecord&&)>& on_station);

  /// Goes to the next row that has the table's fields; false at the end.
  bool next() {
    while (!collector_.full() && rows_.next()) {
      fields_ = rows_.fields();
      if (fields_.size() == columns_.count || is_usable()) return true;
    }
    return false;
  }

  std::string_view text(std::size_t column) const { return cell_text(fields_, column); }

  /// The station and the day of the row. Nothing when the row is not to be used.
  StationBuilder* begin(Day& day) {
    std::string_view id;
    if (columns_.station != ColumnMap::k_none) {
      id = station_id();
      if (!filter_.keeps(id)) return nullptr;
    }
    const DateReading date = read_date();
    if (date.fault != DateFault::none && is_blank(fields_)) return nullptr;
    ++kept_;
    if (id.empty() && columns_.station != ColumnMap::k_none) return report_no_station();
    StationBuilder* const builder = collector_.builder_of(id, rows_.line());
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
    const DayValue read = read_value(fields_[column]);
    if (flags == ColumnMap::k_none || !has_value(read.origin) || !fails(text(flags))) return read;
    ++flagged_;
    return {};
  }

  /// The minute of the day, 0 to 1440; nothing, with a fault, when the row does not tell it.
  std::optional<int> minute();

  std::size_t line() const { return rows_.line(); }
  const TablePlan& plan() const { return plan_; }
  TemperatureUnit unit() const { return unit_; }
  ProblemList& problems() { return problems_; }

  /// Hands on the stations that are still held, and adds the counts to `summary`. False, with an error, when there was
  /// no row of the station asked for.
  bool finish(FileSummary& summary);

 private:
  static bool is_blank(std::span<const Field> fields);
  bool is_usable();
  void report_split();
  std::string_view station_id() const;
  StationBuilder* report_no_station();
  StationBuilder* report_date(DateFault problem);
  void fault(std::size_t offset, std::string message, std::string remedy);

  DateReading read_date() {
    if (columns_.date != ColumnMap::k_none && !plan_.layout.dates_without_year) return dates_.read(text(columns_.date));
    return read_other_date();
  }
  DateReading read_other_date() const;
  std::string date_text() const;

  DayValue read_value(const Field& field) {
    const std::string_view text = trimmed(field.text);
    const Cell cell = read_common_cell(text, plan_.decimal_mark);
    if (cell.kind == CellKind::number) {
      const std::int32_t hundredths = columns_.tenths ? cell.hundredths / 10 : cell.hundredths;
      const Temperature value = temperature_of(hundredths, unit_);
      if (value >= k_coldest && value <= k_warmest && hundredths > -9900) return {value, Origin::observed};
      return read_odd_value(field, text, cell, value);
    }
    return cell.kind == CellKind::missing ? DayValue{} : report_value(field, text);
  }
  DayValue read_odd_value(const Field& field, std::string_view text, const Cell& cell, Temperature value);
  DayValue report_value(const Field& field, std::string_view text);
  bool fails(std::string_view flags) const;

  RowSplitter& rows_;
  const TablePlan plan_;
  const ColumnMap& columns_;
  const TemperatureUnit unit_;
  DateReader dates_;
  ProblemList& problems_;
  StationFilter filter_;
  StationCollector collector_;
  std::span<const Field> fields_;
  std::size_t kept_ = 0;
  std::size_t flagged_ = 0;
};

}  // namespace budclock::weather

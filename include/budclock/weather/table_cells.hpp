// What the cells of a table's row say, as long as nothing is wrong with them.
#pragma once

#include <budclock/weather/table_layout.hpp>
#include <budclock/weather/table_survey.hpp>
#include <budclock/weather/value_text.hpp>

#include <cstdint>
#include <span>
#include <string_view>

namespace budclock::weather {

/// All that is settled about a table before its rows are read.
struct TablePlan {
  ColumnMap columns;
  TableLayout layout;
  DateOrder order = DateOrder::year_month_day;
  char decimal_mark = '.';

  TemperatureUnit unit() const { return columns.unit.value_or(TemperatureUnit::celsius); }
};

/// A station's id as all files but some have it: Climate Data Online once wrote "GHCND:USC00339312" for USC00339312.
constexpr std::string_view without_prefix(std::string_view id) {
  constexpr std::string_view k_station_prefix = "GHCND:";
  return id.size() > k_station_prefix.size() && id[k_station_prefix.size() - 1] == ':' &&
                 id.starts_with(k_station_prefix)
             ? id.substr(k_station_prefix.size())
             : id;
}

/// The cells of one row after the other.
class TableCells {
 public:
  /// The plan must outlive this.
  explicit TableCells(const TablePlan& plan)
      : plan_{plan}, columns_{plan.columns}, unit_{plan.unit()}, dates_{plan.order} {}

  void look_at(std::span<const Field> fields) { fields_ = fields; }
  std::span<const Field> fields() const { return fields_; }
  std::string_view text(std::size_t column) const { return cell_text(fields_, column); }

  /// Empty when the table has no column of stations.
  std::string_view station_id() const {
    return columns_.station == ColumnMap::k_none ? std::string_view{} : without_prefix(text(columns_.station));
  }

  DateReading date() {
    if (columns_.date != ColumnMap::k_none && !plan_.layout.dates_without_year) return dates_.read(text(columns_.date));
    return other_date();
  }

  /// The temperature in a column; set aside when what stands there is none, or none that was ever measured.
  DayValue value(std::size_t column) const {
    const std::string_view text = fields_[column].text;
    const auto hundredths = read_common_number(text, plan_.decimal_mark);
    if (hundredths && *hundredths > k_no_mark && !columns_.tenths) {
      const Temperature value = temperature_of(*hundredths, unit_);
      if (value >= k_coldest && value <= k_warmest) return {value, Origin::observed};
    }
    return other_value(trimmed(text));
  }

  /// True when the publisher's flags in a column (k_none: nowhere) say that the row's value is not to be used.
  bool fails(std::size_t flags) const { return flags != ColumnMap::k_none && are_failing(text(flags)); }

 private:
  static constexpr std::int32_t k_no_mark = -9900;  ///< above, what was ever measured is no mark for "no value"

  DateReading other_date() const;
  DayValue other_value(std::string_view text) const;
  bool are_failing(std::string_view flags) const;

  const TablePlan& plan_;
  const ColumnMap& columns_;
  const TemperatureUnit unit_;
  DateReader dates_;
  std::span<const Field> fields_;
};

}  // namespace budclock::weather

#include <budclock/weather/table_survey.hpp>
#include <budclock/weather/value_text.hpp>

#include <algorithm>
#include <array>
#include <cstdlib>
#include <cstring>
#include <fmt/format.h>
#include <string>
#include <unordered_set>
#include <vector>

namespace budclock::weather {
namespace {

constexpr std::size_t k_surveyed_rows = 1'000;
/// An id that differs on this many rows and more is a number of rows, not of stations.
constexpr std::size_t k_fewest_for_row_ids = 5;

/// Looks at rows and gathers what a TableSurvey tells.
class Surveyor {
 public:
  explicit Surveyor(const ColumnMap& columns) : columns_{columns}, temperatures_{columns.temperatures()} {}

  /// Looks at the rows from here on and comes back here.
  TableSurvey look(RowSplitter& rows) {
    rows.mark();
    while ((survey_.rows < k_surveyed_rows || !survey_.order.settled()) && rows.next()) {
      if (is_full(rows.fields())) look_at(rows.fields(), rows.line());
    }
    survey_.decimal_comma = commas_ > 0 && points_ == 0;
    survey_.station_differs_always = columns_.station != ColumnMap::k_none && survey_.rows >= k_fewest_for_row_ids &&
                                     ids_.size() == survey_.rows && dates_.size() == survey_.rows;
    rows.rewind();
    return survey_;
  }

 private:
  /// As many fields as the header has, or further empty ones.
  bool is_full(std::span<const Field> fields) const {
    if (fields.size() < columns_.count) return false;
    const auto further = fields.subspan(columns_.count);
    return std::all_of(further.begin(), further.end(), [](const Field& field) { return trimmed(field.text).empty(); });
  }

  void look_at(std::span<const Field> fields, std::size_t line) {
    ++survey_.rows;
    const auto parts = columns_.date == ColumnMap::k_none ? std::nullopt : split_date(cell_text(fields, columns_.date));
    if (columns_.date != ColumnMap::k_none) survey_.order.add(cell_text(fields, columns_.date), line);
    if (parts && parts->utc && survey_.first_utc_line == 0) survey_.first_utc_line = line;
    if (survey_.rows > k_surveyed_rows) return;
    look_at_values(fields);
    look_at_day(fields, parts);
  }

  void look_at_values(std::span<const Field> fields) {
    if (columns_.element != ColumnMap::k_none) {
      const std::string_view element = cell_text(fields, columns_.element);
      if (!is_maximum(element) && !is_minimum(element)) return;
    }
    for (const std::size_t column : temperatures_) look_at_value(cell_text(fields, column));
  }

  void look_at_value(std::string_view text) {
    const bool comma = text.find(',') != std::string_view::npos;
    const bool point = text.find('.') != std::string_view::npos;
    const Cell cell = read_cell(text, comma ? ',' : '.');
    if (cell.kind != CellKind::number) return;
    if (comma) ++commas_;
    if (point) ++points_;
    if (is_missing_mark(cell.hundredths)) return;
    constexpr std::int32_t k_warmest_celsius = 5770;
    constexpr std::int32_t k_warmest_fahrenheit = 13586;
    NumberEvidence& seen = survey_.values;
    ++seen.numbers;
    if (comma || point) ++seen.decimals;
    if (std::abs(cell.hundredths) > k_warmest_fahrenheit)
      ++seen.too_large;
    else if (cell.hundredths > k_warmest_celsius)
      ++seen.fahrenheit;
  }

  void look_at_day(std::span<const Field> fields, const std::optional<DateParts>& parts) {
    const std::string_view id =
        columns_.station == ColumnMap::k_none ? std::string_view{} : cell_text(fields, columns_.station);
    const std::string day = day_key(fields, parts);
    const bool timed = columns_.time != ColumnMap::k_none || (parts && !parts->midnight());
    const bool is_new = days_.emplace(std::string{id} + '|' + day).second;
    if (timed && !is_new) ++survey_.rows_within_day;
    if (columns_.station == ColumnMap::k_none || ids_.size() + 1 != survey_.rows) return;  // an id has come twice
    ids_.emplace(id);
    dates_.emplace(day);
  }

  /// Tells days apart; not for people.
  std::string day_key(std::span<const Field> fields, const std::optional<DateParts>& parts) const {
    if (parts) {
      std::string key(3 * sizeof(int), '\0');
      const std::array numbers{parts->first.number, parts->second.number, parts->third.number};
      std::memcpy(key.data(), numbers.data(), key.size());
      return key;
    }
    if (columns_.date != ColumnMap::k_none) return std::string{cell_text(fields, columns_.date)};
    if (columns_.day_of_year != ColumnMap::k_none) {
      return fmt::format("{}-{}", cell_text(fields, columns_.year), cell_text(fields, columns_.day_of_year));
    }
    return fmt::format("{}-{}-{}", cell_text(fields, columns_.year), cell_text(fields, columns_.month),
                       cell_text(fields, columns_.day));
  }

  const ColumnMap& columns_;
  const std::vector<std::size_t> temperatures_;
  TableSurvey survey_;
  std::size_t commas_ = 0;
  std::size_t points_ = 0;
  std::unordered_set<std::string> ids_;
  std::unordered_set<std::string> dates_;
  std::unordered_set<std::string> days_;  ///< of each station
};

}  // namespace

TableSurvey survey_table(RowSplitter& rows, const ColumnMap& columns) { return Surveyor{columns}.look(rows); }

std::optional<DateOrder> choose_order(const DateOrderEvidence& seen, std::optional<DateOrder> stated,
                                      ProblemList& problems) {
  if (stated) return stated;
  constexpr std::size_t k_clear = 10;  // a stray row must not decide, nor stop the reading
  if (seen.month_first > k_clear * seen.day_first) return DateOrder::month_day_year;
  if (seen.day_first > k_clear * seen.month_first) return DateOrder::day_month_year;
  if (seen.month_first > 0) {
    problems.add(Severity::error, 0, 0,
                 fmt::format("dates stand in two orders: month/day/year on line {}, day/month/year on line {}",
                             seen.month_first_line, seen.day_first_line),
                 "write all dates as 2014-04-16, or add --date-order (in a sites file: date_order)");
    return std::nullopt;
  }
  if (seen.either > 0) {
    problems.add(Severity::error, seen.either_line, 0,
                 "the dates can be read as month/day/year and as day/month/year, and no row shows which",
                 "add --date-order mdy or --date-order dmy (in a sites file: date_order mdy or dmy)");
    return std::nullopt;
  }
  return DateOrder::year_month_day;
}

}  // namespace budclock::weather

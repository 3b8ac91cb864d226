#include <budclock/weather/table_survey.hpp>
#include <budclock/weather/value_text.hpp>

#include <fmt/format.h>
#include <string>
#include <unordered_set>

namespace budclock::weather {
namespace {

constexpr std::size_t k_surveyed_rows = 1'000;
/// An id that differs on this many rows and more is a number of rows, not of stations.
constexpr std::size_t k_fewest_for_row_ids = 5;

/// Looks at rows and gathers what a TableSurvey tells.
class Surveyor {
 public:
  explicit Surveyor(const ColumnMap& columns) : columns_{columns} {}

  /// Looks at the rows from here on and comes back here.
  TableSurvey look(RowSplitter& rows) {
    rows.mark();
    while ((survey_.rows < k_surveyed_rows || !survey_.order.settled()) && rows.next()) {
      if (rows.fields().size() == columns_.count) look_at(rows.fields(), rows.line());
    }
    survey_.decimal_comma = commas_ > 0 && points_ == 0;
    survey_.station_differs_always = columns_.station != ColumnMap::k_none && survey_.rows >= k_fewest_for_row_ids &&
                                     ids_.size() == survey_.rows && dates_.size() == survey_.rows;
    rows.rewind();
    return survey_;
  }

 private:
  void look_at(std::span<const Field> fields, std::size_t line) {
    ++survey_.rows;
    if (columns_.date != ColumnMap::k_none) look_at_date(cell_text(fields, columns_.date), line);
    for (const std::size_t column : {columns_.tmax, columns_.tmin}) {
      const std::string_view text = cell_text(fields, column);
      if (text.find(',') != std::string_view::npos && read_cell(text, ',').kind == CellKind::number) ++commas_;
      if (text.find('.') != std::string_view::npos && read_cell(text, '.').kind == CellKind::number) ++points_;
    }
    if (columns_.station == ColumnMap::k_none || survey_.rows > k_surveyed_rows) return;
    if (ids_.size() + 1 != survey_.rows) return;  // an id has come twice already
    ids_.emplace(cell_text(fields, columns_.station));
    dates_.emplace(date_text(fields));
  }

  void look_at_date(std::string_view text, std::size_t line) {
    survey_.order.add(text, line);
    const auto parts = split_date(text);
    if (!parts) return;
    const bool same_day = !parts->midnight && last_ && parts->same_day(*last_);
    if (same_day && survey_.rows_within_day++ == 0) survey_.first_within_day_line = line;
    last_ = parts;
  }

  std::string date_text(std::span<const Field> fields) const {
    if (columns_.date != ColumnMap::k_none) return std::string{cell_text(fields, columns_.date)};
    return fmt::format("{}-{}-{}", cell_text(fields, columns_.year), cell_text(fields, columns_.month),
                       cell_text(fields, columns_.day));
  }

  const ColumnMap& columns_;
  TableSurvey survey_;
  std::optional<DateParts> last_;
  std::size_t commas_ = 0;
  std::size_t points_ = 0;
  std::unordered_set<std::string> ids_;
  std::unordered_set<std::string> dates_;
};

}  // namespace

std::string_view cell_text(std::span<const Field> fields, std::size_t column) { return trimmed(fields[column].text); }

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
                 "write all dates as 2014-04-16, or add --date-order");
    return std::nullopt;
  }
  if (seen.either > 0) {
    problems.add(Severity::error, seen.either_line, 0,
                 "the dates can be read as month/day/year and as day/month/year, and no row shows which",
                 "add --date-order mdy or --date-order dmy");
    return std::nullopt;
  }
  return DateOrder::year_month_day;
}

}  // namespace budclock::weather

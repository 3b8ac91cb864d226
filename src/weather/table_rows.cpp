#include <budclock/weather/table_rows.hpp>

#include <algorithm>
#include <fmt/format.h>

namespace budclock::weather {

TablePart read_part(RowSplitter&& rows, const TablePlan& plan) {
  TablePart part{std::move(rows)};
  part.rows.mark();
  const ColumnMap& columns = plan.columns;
  std::vector<PlainRun> runs;
  TableCells cells{plan};
  bool plain = true;
  while (plain && part.rows.next()) {
    cells.look_at(part.rows.fields());
    plain = cells.fields().size() == columns.count;
    if (!plain) break;
    const std::string_view id = cells.station_id();
    const DateReading date = cells.date();
    DayValue tmin = cells.value(columns.tmin);
    DayValue tmax = cells.value(columns.tmax);
    plain = date.fault == DateFault::none && tmin.origin != Origin::set_aside && tmax.origin != Origin::set_aside &&
            (columns.station == ColumnMap::k_none || !id.empty());
    if (!plain) break;
    if (runs.empty() || runs.back().station != id) runs.push_back({id, {}, 0});
    const auto heed_flags = [&](DayValue& value, std::size_t flags) {
      if (!has_value(value.origin) || !cells.fails(flags)) return;
      value = {};
      ++runs.back().flagged;
    };
    heed_flags(tmin, plan.layout.tmin_flags);
    heed_flags(tmax, plan.layout.tmax_flags);
    runs.back().days.push_back({date.day, tmin, tmax, part.rows.line()});
  }
  part.rows.rewind();
  if (plain) part.runs = std::move(runs);
  return part;
}

TableRows::TableRows(RowSplitter& rows, TablePlan plan, ProblemList& problems, const ReadOptions& options,
                     const std::function<void(StationRecord&&)>& on_station)
    : rows_{&rows},
      plan_{std::move(plan)},
      columns_{plan_.columns},
      unit_{plan_.unit()},
      cells_{plan_},
      problems_{problems},
      filter_{std::string{without_prefix(options.station)}},
      collector_{problems, on_station} {
  collector_.set_unit(unit_);
}

bool TableRows::finish(FileSummary& summary) {
  collector_.finish();
  summary.rows = kept_;
  summary.flagged = flagged_;
  summary.stations = collector_.stations();
  summary.partial_days = collector_.partial_days();
  return !filter_.report_if_unknown(problems_);
}

void TableRows::fault(std::size_t offset, std::string message, std::string remedy, FaultKind kind) {
  const auto [line, column] = rows_->position(offset);
  problems_.add(Severity::fault, line, column, std::move(message), std::move(remedy), kind);
}

bool TableRows::is_blank(std::span<const Field> fields) {
  return std::all_of(fields.begin(), fields.end(), [](const Field& field) { return trimmed(field.text).empty(); });
}

/// For rows that have not as many fields as the header: reports what is wrong with them. True when only empty
/// fields at the end are too many.
bool TableRows::is_usable() {
  if (rows_->fault() != RowFault::none) {
    report_split();
    return false;
  }
  if (is_blank(cells_.fields())) return false;
  if (cells_.fields().size() < columns_.count) {
    ++kept_;
    fault(0, fmt::format("the row has {} of {} fields; it is set aside", cells_.fields().size(), columns_.count),
          "complete it");
    return false;
  }
  if (is_blank(cells_.fields().subspan(columns_.count))) return true;
  ++kept_;
  fault(field(columns_.count).offset,
        fmt::format("the row has {} fields, {} more than the header; it is set aside", cells_.fields().size(),
                    cells_.fields().size() - columns_.count),
        "put fields that hold the delimiter in quotes, and write 45.3, not 45,3");
  return false;
}

void TableRows::report_split() {
  ++kept_;
  const std::size_t at = rows_->fault_offset();
  switch (rows_->fault()) {
    case RowFault::none:
      break;
    case RowFault::open_quote:
      return fault(at, "a quote is not closed; the line is set aside", "close it");
    case RowFault::text_after_quote:
      return fault(at, "text follows a closing quote; the line is set aside",
                   "double the quotes inside a quoted field");
    case RowFault::too_long:
      return fault(0, fmt::format("the line is longer than {} bytes; it is set aside", RowSplitter::k_max_row),
                   "split it into one row a day");
    case RowFault::holds_nul:
      return fault(at, "the line holds a NUL byte, so it is not text; it is set aside", "export the file again");
  }
}

/// A row that names no station is a fault when something is lost with it: not when it holds only a date.
StationBuilder* TableRows::report_no_station() {
  for (const std::size_t column : columns_.temperatures()) {
    if (read_cell(text(column), plan_.decimal_mark).kind == CellKind::missing) continue;
    fault(field(columns_.station).offset, "the row names no station; it is set aside", "fill in its station");
    break;
  }
  return nullptr;
}

/// The row's date as it stands there.
std::string TableRows::date_text() const {
  if (columns_.date != ColumnMap::k_none) return fmt::format("\"{}\"", text(columns_.date));
  if (columns_.day_of_year != ColumnMap::k_none) {
    return fmt::format("day \"{}\" of \"{}\"", text(columns_.day_of_year), text(columns_.year));
  }
  return fmt::format("\"{}-{}-{}\"", text(columns_.year), text(columns_.month), text(columns_.day));
}

StationBuilder* TableRows::report_date(DateFault problem) {
  std::size_t column = columns_.date;
  if (column == ColumnMap::k_none) {
    column = columns_.day_of_year != ColumnMap::k_none ? columns_.day_of_year : columns_.day;
  }
  const std::size_t offset = field(column).offset;
  if (columns_.date != ColumnMap::k_none && text(columns_.date).empty()) {
    fault(offset, "the row has no date; it is set aside", "fill in its date");
    return nullptr;
  }
  const std::string shown = date_text();
  switch (problem) {
    case DateFault::none:
      break;
    case DateFault::malformed:
      fault(offset, shown + " is not a date; the row is set aside", "write it as 2014-04-16");
      break;
    case DateFault::impossible:
      fault(offset, shown + " does not exist; the row is set aside", "correct the date");
      break;
    case DateFault::wrong_order:
      fault(offset,
            fmt::format("{} does not fit the file's order of {}; the row is set aside", shown, to_text(plan_.order)),
            "correct the date", FaultKind::other_date_order);
      break;
    case DateFault::wrong_year:
      fault(offset,
            fmt::format("the year of {} is outside {} to {}; the row is set aside", shown, k_first_year, k_last_year),
            "correct the date");
      break;
  }
  return nullptr;
}

std::optional<int> TableRows::minute() {
  if (columns_.time == ColumnMap::k_none) {
    const auto parts = split_date(text(columns_.date));
    return parts && parts->minute != DateParts::k_no_time ? parts->minute : 0;
  }
  if (const auto minute = read_time_of_day(text(columns_.time))) return minute;
  fault(field(columns_.time).offset,
        fmt::format("\"{}\" is not a time of day; the row is set aside", text(columns_.time)), "write it as 13:05");
  return std::nullopt;
}

/// Of a number that is impossible in the file's unit.
bool TableRows::is_fahrenheit_in_celsius(std::int32_t hundredths) const {
  return unit_ == TemperatureUnit::celsius && !columns_.tenths &&
         Temperature::hundredths_fahrenheit(hundredths) >= k_coldest &&
         Temperature::hundredths_fahrenheit(hundredths) <= k_warmest;
}

void TableRows::report_value(std::size_t column) {
  const std::string_view number = text(column);
  const std::size_t offset = field(column).offset;
  const Cell cell = read_cell(number, plan_.decimal_mark);
  if (cell.kind == CellKind::malformed) {
    const bool comma = plan_.decimal_mark == '.' && read_cell(number, ',').kind == CellKind::number;
    fault(offset, fmt::format("\"{}\" is not a temperature; it is set aside", number),
          comma ? "write it with a decimal point" : "write a plain number, or leave the cell empty");
  } else {
    fault(offset,
          fmt::format("{} {}{} is outside what has ever been measured ({} to {}); it is set aside", number,
                      columns_.tenths ? "tenths " : "", symbol(unit_), with_unit(k_coldest, unit_),
                      with_unit(k_warmest, unit_)),
          "correct it, or leave the cell empty",
          is_fahrenheit_in_celsius(cell.hundredths) ? FaultKind::other_unit : FaultKind::other);
  }
}

void TableRows::add(const std::vector<PlainRun>& runs) {
  for (const PlainRun& run : runs) {
    if (collector_.full()) return;
    if (columns_.station != ColumnMap::k_none && !filter_.keeps(run.station)) continue;
    StationBuilder* const builder = collector_.builder_of(run.station, run.days.front().line);
    if (collector_.full()) {
      ++kept_;
      return;
    }
    kept_ += run.days.size();
    if (builder == nullptr) continue;
    flagged_ += run.flagged;
    for (const PlainDay& each : run.days) builder->add(each.day, each.tmin, each.tmax, each.line, unit_, problems_);
  }
}

}  // namespace budclock::weather

#include <budclock/weather/table_reader.hpp>
#include <budclock/weather/table_survey.hpp>
#include <budclock/weather/value_text.hpp>

#include <algorithm>
#include <fmt/format.h>

namespace budclock::weather {
namespace {

constexpr std::size_t k_most_ids_named = 10;

const char* layout_name(char delimiter) {
  if (delimiter == '\t') return "table, tab-separated";
  return delimiter == ';' ? "table, semicolon-separated" : "table, comma-separated";
}

/// Reads the rows below the header.
class TableReader {
 public:
  TableReader(RowSplitter& rows, const ColumnMap& columns, DateOrder order, char decimal_mark, ProblemList& problems,
              const ReadOptions& options, const std::function<void(StationRecord&&)>& on_station)
      : rows_{rows},
        columns_{columns},
        dates_{order},
        order_{order},
        decimal_mark_{decimal_mark},
        problems_{problems},
        wanted_station_{options.station},
        collector_{problems, on_station} {
    collector_.set_unit(columns.unit);
  }

  /// Reads all rows; returns how many were kept.
  std::size_t read() {
    while (rows_.next()) read_row();
    collector_.finish();
    if (!wanted_station_.empty() && kept_ == 0) report_unknown_station();
    return kept_;
  }
  std::size_t stations() const { return collector_.stations(); }

 private:
  void fault(std::size_t offset, std::string message, std::string remedy) {
    const auto [line, column] = rows_.position(offset);
    problems_.add(Severity::fault, line, column, std::move(message), std::move(remedy));
  }

  void read_row() {
    const std::span<const Field> fields = rows_.fields();
    if (fields.size() != columns_.count && !is_usable(fields)) return;
    std::string_view id;
    if (columns_.station != ColumnMap::k_none) {
      id = cell_text(fields, columns_.station);
      if (!wanted_station_.empty() && id != wanted_station_) return remember_station(id);
    }
    const DateReading date = read_date(fields);
    if (date.fault != DateFault::none && is_blank(fields)) return;
    ++kept_;
    if (id.empty() && columns_.station != ColumnMap::k_none) return report_no_station(fields);
    StationBuilder* const builder = collector_.builder_of(id, rows_.line());
    if (builder == nullptr) return;
    if (date.fault != DateFault::none) {
      builder->add_dateless();
      return report_date(fields, date.fault);
    }
    const DayValue tmin = read_value(fields[columns_.tmin]);
    const DayValue tmax = read_value(fields[columns_.tmax]);
    builder->add(date.day, tmin, tmax, rows_.line(), columns_.unit, problems_);
  }

  /// For rows that have not as many fields as the header: reports what is wrong with them. True when only empty
  /// fields at the end are too many.
  bool is_usable(std::span<const Field> fields) {
    if (rows_.fault() != RowFault::none) {
      report_split();
      return false;
    }
    if (is_blank(fields)) return false;
    if (fields.size() < columns_.count) {
      ++kept_;
      fault(0, fmt::format("the row has {} of {} fields; it is set aside", fields.size(), columns_.count),
            "complete it");
      return false;
    }
    if (is_blank(fields.subspan(columns_.count))) return true;
    ++kept_;
    fault(fields[columns_.count].offset,
          fmt::format("the row has {} fields, {} more than the header; it is set aside", fields.size(),
                      fields.size() - columns_.count),
          "put fields that hold the delimiter in quotes, and write 45.3, not 45,3");
    return false;
  }

  static bool is_blank(std::span<const Field> fields) {
    return std::all_of(fields.begin(), fields.end(), [](const Field& field) { return trimmed(field.text).empty(); });
  }

  void report_split() {
    ++kept_;
    const std::size_t at = rows_.fault_offset();
    switch (rows_.fault()) {
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

  DateReading read_date(std::span<const Field> fields) {
    if (columns_.date != ColumnMap::k_none) return dates_.read(cell_text(fields, columns_.date));
    return DateReader::from_columns(cell_text(fields, columns_.year), cell_text(fields, columns_.month),
                                    cell_text(fields, columns_.day));
  }

  /// A row that names no station is a fault when something is lost with it: not when it holds only a date.
  void report_no_station(std::span<const Field> fields) {
    const auto missing = [&](std::size_t column) {
      return read_cell(cell_text(fields, column), decimal_mark_).kind == CellKind::missing;
    };
    if (missing(columns_.tmin) && missing(columns_.tmax)) return;
    fault(fields[columns_.station].offset, "the row names no station; it is set aside", "fill in its station");
  }

  void report_date(std::span<const Field> fields, DateFault problem) {
    const bool split = columns_.date == ColumnMap::k_none;
    const std::size_t offset = fields[split ? columns_.day : columns_.date].offset;
    if (!split && cell_text(fields, columns_.date).empty()) {
      return fault(offset, "the row has no date; it is set aside", "fill in its date");
    }
    const std::string text = split ? fmt::format("\"{}-{}-{}\"", cell_text(fields, columns_.year),
                                                 cell_text(fields, columns_.month), cell_text(fields, columns_.day))
                                   : fmt::format("\"{}\"", cell_text(fields, columns_.date));
    switch (problem) {
      case DateFault::none:
        return;
      case DateFault::malformed:
        return fault(offset, text + " is not a date; the row is set aside", "write it as 2014-04-16");
      case DateFault::impossible:
        return fault(offset, text + " does not exist; the row is set aside", "correct the date");
      case DateFault::wrong_order:
        return fault(offset,
                     fmt::format("{} does not fit the file's order of {}; the row is set aside", text, to_text(order_)),
                     "correct the date");
      case DateFault::wrong_year:
        return fault(
            offset,
            fmt::format("the year of {} is outside {} to {}; the row is set aside", text, k_first_year, k_last_year),
            "correct the date");
    }
  }

  DayValue read_value(const Field& field) {
    const std::string_view text = trimmed(field.text);
    const Cell cell = read_common_cell(text, decimal_mark_);
    if (cell.kind == CellKind::number) {
      const Temperature value = temperature_of(cell.hundredths, columns_.unit);
      if (value >= k_coldest && value <= k_warmest && cell.hundredths > -9900) return {value, Origin::observed};
      return read_odd_value(field, text, cell, value);
    }
    if (cell.kind == CellKind::missing) return {};
    const bool comma = decimal_mark_ == '.' && read_cell(text, ',').kind == CellKind::number;
    fault(field.offset, fmt::format("\"{}\" is not a temperature; it is set aside", text),
          comma ? "write it with a decimal point" : "write a plain number, or leave the cell empty");
    return {{}, Origin::set_aside};
  }

  DayValue read_odd_value(const Field& field, std::string_view text, const Cell& cell, Temperature value) {
    if (is_missing_mark(cell.hundredths)) return {};
    if (value >= k_coldest && value <= k_warmest) return {value, Origin::observed};
    fault(field.offset,
          fmt::format("{} {} is outside what has ever been measured ({} to {}); it is set aside", text,
                      symbol(columns_.unit), with_unit(k_coldest, columns_.unit), with_unit(k_warmest, columns_.unit)),
          "correct it, or leave the cell empty");
    return {{}, Origin::set_aside};
  }

  void remember_station(std::string_view id) {
    if (id == last_other_) return;
    last_other_ = id;
    if (others_.size() > k_most_ids_named) return;
    if (std::find(others_.begin(), others_.end(), id) == others_.end()) others_.emplace_back(id);
  }

  void report_unknown_station() {
    const std::size_t shown = std::min(others_.size(), k_most_ids_named);
    std::string ids;
    for (std::size_t i = 0; i < shown; ++i) ids += (i > 0 ? ", " : "") + others_[i];
    if (others_.size() > shown) ids += ", ...";
    problems_.add(Severity::error, 0, 0, fmt::format("no row is of station \"{}\"", wanted_station_),
                  "the file has " + ids);
  }

  RowSplitter& rows_;
  const ColumnMap columns_;
  DateReader dates_;
  DateOrder order_;
  char decimal_mark_;
  ProblemList& problems_;
  std::string wanted_station_;
  StationCollector collector_;
  std::size_t kept_ = 0;
  std::string last_other_;
  std::vector<std::string> others_;
};

/// How well a header is split: by the roles that its names fill, then by its fields.
int score(std::span<const Field> names) {
  constexpr int k_most_fields = 1'000;
  if (names.size() < 2) return 0;
  return roles_filled(names) * k_most_fields + std::min(static_cast<int>(names.size()), k_most_fields);
}

/// Goes to the header line and sets the delimiter under which it names the most of what is needed. False, with an
/// error, when there is no such line.
bool find_header(RowSplitter& rows, ProblemList& problems, char& delimiter) {
  int most = 0;
  for (const char candidate : {',', ';', '\t'}) {
    rows.mark();
    rows.set_delimiter(candidate);
    const int filled = rows.next() ? score(rows.fields()) : 0;
    if (filled > most) {
      most = filled;
      delimiter = candidate;
    }
    rows.rewind();
  }
  rows.set_delimiter(delimiter);
  if (!rows.next()) {
    problems.add(Severity::error, 0, 0, "the file has no header line and no rows",
                 "give a file with a header line such as date,tmax_f,tmin_f and one row a day");
    return false;
  }
  if (rows.fault() != RowFault::none) {
    const auto [line, column] = rows.position(rows.fault_offset());
    problems.add(Severity::error, line, column, "the header line cannot be read",
                 "correct its quotes, or export it again");
    return false;
  }
  const auto is_data = [](const Field& field) { return split_date(trimmed(field.text)).has_value(); };
  if (std::any_of(rows.fields().begin(), rows.fields().end(), is_data)) {
    problems.add(Severity::error, rows.line(), 0, "the first row is data, not a header line",
                 "put a line above it that names the columns, such as date,tmax_f,tmin_f");
    return false;
  }
  return true;
}

void note_multi_line_rows(const RowSplitter& rows, ProblemList& problems) {
  if (rows.multi_line_rows() == 0) return;
  problems.add(Severity::note, 0, 0,
               fmt::format("{} row(s) run over several lines inside quotes", rows.multi_line_rows()));
}

}  // namespace

FileSummary read_table(RowSplitter& rows, ProblemList& problems, const ReadOptions& options,
                       const std::function<void(StationRecord&&)>& on_station) {
  FileSummary summary;
  char delimiter = ',';
  if (!find_header(rows, problems, delimiter)) return summary;
  summary.layout = layout_name(delimiter);
  auto columns = map_columns(rows.fields(), rows.line(), options.units, problems);
  if (!columns) return summary;
  const std::size_t station_column = columns->station;
  const std::string station_name =
      station_column == ColumnMap::k_none ? std::string{} : std::string{cell_text(rows.fields(), station_column)};

  if (station_column == ColumnMap::k_none && !options.station.empty()) {
    problems.add(Severity::error, 0, 0, fmt::format("the file names no stations, so none is \"{}\"", options.station),
                 "leave out --station");
    return summary;
  }

  const TableSurvey survey = survey_table(rows, *columns);
  if (survey.rows_within_day * 2 > survey.rows) {
    problems.add(Severity::error, survey.first_within_day_line, 0, "there are several rows a day, with times of day",
                 "give one row a day, with the day's maximum and minimum");
    return summary;
  }
  const auto order = choose_order(survey.order, options.date_order, problems);
  if (!order) return summary;
  if (survey.station_differs_always) {
    columns->station = ColumnMap::k_none;
    problems.add(
        Severity::note, 0, 0,
        fmt::format("\"{}\" differs on every row, so it names no station; all rows are taken for one station's",
                    station_name));
  }
  const char decimal_mark = delimiter != ',' && survey.decimal_comma ? ',' : '.';
  TableReader reader{rows, *columns, *order, decimal_mark, problems, options, on_station};
  summary.rows = reader.read();
  summary.stations = reader.stations();
  summary.unit = columns->unit;
  summary.unit_evidence = columns->unit_evidence;
  if (survey.order.month_first + survey.order.day_first + survey.order.either > 0) summary.date_order = order;
  if (summary.rows == 0 && options.station.empty()) {
    problems.add(Severity::error, 0, 0, "the file has a header line but no rows", "give one row a day");
  }
  note_multi_line_rows(rows, problems);
  return summary;
}

}  // namespace budclock::weather

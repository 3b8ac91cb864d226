#include <budclock/core/thread_pool.hpp>
#include <budclock/weather/month_table.hpp>
#include <budclock/weather/table_reader.hpp>
#include <budclock/weather/table_rows.hpp>
#include <budclock/weather/table_scale.hpp>
#include <budclock/weather/table_start.hpp>

#include <algorithm>
#include <deque>
#include <fmt/format.h>
#include <future>
#include <utility>

namespace budclock::weather {
namespace {

using OnStation = std::function<void(StationRecord&&)>;

/// Reads one of the rows of which each is a day; false at the end.
bool read_day(TableRows& rows) {
  const ColumnMap& columns = rows.plan().columns;
  const TableLayout& layout = rows.plan().layout;
  if (!rows.next()) return false;
  Day day{};
  StationBuilder* const builder = rows.begin(day);
  if (builder == nullptr) return true;
  const DayValue tmin = rows.value(columns.tmin, layout.tmin_flags);
  const DayValue tmax = rows.value(columns.tmax, layout.tmax_flags);
  builder->add(day, tmin, tmax, rows.line(), rows.unit(), rows.problems());
  return true;
}

void read_days(TableRows& rows) {
  while (read_day(rows)) {
  }
}

void add_part(TableRows& table, TablePart part) {
  if (part.runs) return table.add(*part.runs);
  table.go_on_with(part.rows);
  read_days(table);
}

/// As `read_days`, with the parts of the file that can be split off read by the threads of `pool` and added in order.
void read_days_apart(TableRows& table, RowSplitter& rows, ThreadPool& pool) {
  std::deque<std::future<TablePart>> under_way;
  const auto wait_until_left = [&](std::size_t most) {
    for (; under_way.size() > most; under_way.pop_front()) add_part(table, under_way.front().get());
    table.go_on_with(rows);
  };
  do {
    while (auto part = rows.split_off()) {
      under_way.push_back(pool.put(
          [plan = table.plan(), part = std::move(*part)]() mutable { return read_part(std::move(part), plan); }));
      wait_until_left(pool.most_under_way());
      if (table.full()) return;
    }
    wait_until_left(0);
  } while (read_day(table));
}

/// Several rows a day: a reading each, or the extremes of a part of the day.
void read_readings(TableRows& rows) {
  const ColumnMap& columns = rows.plan().columns;
  const TableLayout& layout = rows.plan().layout;
  const bool extremes = columns.temperature == ColumnMap::k_none;
  const std::size_t lowest = extremes ? columns.tmin : columns.temperature;
  const std::size_t highest = extremes ? columns.tmax : columns.temperature;
  Day day{};
  while (rows.next()) {
    StationBuilder* const builder = rows.begin(day);
    if (builder == nullptr) continue;
    const auto minute = rows.minute();
    if (!minute) {
      builder->add_dateless();
      continue;
    }
    const DayValue high = rows.value(highest, layout.tmax_flags);
    const DayValue low = extremes ? rows.value(lowest, layout.tmin_flags) : high;
    builder->add_reading(day, *minute, low, high, rows.line());
  }
}

/// One row for each element of a day; only the extremes are of use.
void read_elements(TableRows& rows) {
  const ColumnMap& columns = rows.plan().columns;
  Day day{};
  while (rows.next()) {
    const std::string_view element = rows.text(columns.element);
    const bool maximum = is_maximum(element);
    if (!maximum && !is_minimum(element)) continue;
    StationBuilder* const builder = rows.begin(day);
    if (builder == nullptr) continue;
    const DayValue value = rows.value(columns.value, rows.plan().layout.tmax_flags);
    builder->add_extreme(day, maximum, value, rows.line(), rows.unit(), rows.problems());
  }
}

void note_multi_line_rows(const RowSplitter& rows, ProblemList& problems) {
  if (rows.multi_line_rows() == 0) return;
  problems.add(Severity::note, 0, 0,
               fmt::format("{} row(s) run over several lines inside quotes", rows.multi_line_rows()));
}

/// Drops a station column that only numbers the rows.
void drop_row_numbers(ColumnMap& columns, const TableSurvey& survey, ProblemList& problems) {
  if (!survey.station_differs_always) return;
  problems.add(Severity::note, 0, 0,
               fmt::format("\"{}\" differs on every row, so it names no station; all rows are taken for one station's",
                           columns.names[columns.station]));
  columns.station = ColumnMap::k_none;
}

/// False, with an error, when one temperature a day is all there is.
bool shows_extremes(const ColumnMap& columns, const TableSurvey& survey, ProblemList& problems) {
  if (columns.temperature == ColumnMap::k_none || survey.within_day() || survey.rows == 0) return true;
  problems.add(Severity::error, columns.header_line, 0,
               fmt::format("column \"{}\" holds one temperature a day, which shows neither maximum nor minimum",
                           columns.names[columns.temperature]),
               "give the readings through the day with their times, or columns tmax and tmin");
  return false;
}

void note_what_days_are(const TableSurvey& survey, bool within_day, ProblemList& problems) {
  if (!within_day || survey.first_utc_line == 0) return;
  problems.add(Severity::note, survey.first_utc_line, 0,
               "the times are in UTC, so the days here run from midnight to midnight UTC, which in North America cuts "
               "the afternoon or the evening",
               "export them in local time");
}

/// A file that its name calls normals, and that does not look like one.
void heed_name(FileSummary& summary, ProblemList& problems) {
  const std::string_view file_name = problems.file();
  const auto slash = file_name.rfind('/');
  const std::string_view name = slash == std::string_view::npos ? file_name : file_name.substr(slash + 1);
  if (summary.kind != RecordKind::observed || name.find("normals") == std::string_view::npos) return;
  summary.kind = RecordKind::normals;
  problems.add(Severity::note, 0, 0, "the file's name says that these are normals, a mean year and no observed one");
}

/// The columns of a table, by its header or, without one, by place.
std::optional<ColumnMap> map_table(const RowSplitter& rows, const TableStart& start, const ReadOptions& options,
                                   ProblemList& problems) {
  if (start.has_header) return map_columns(rows.fields(), rows.line(), options.units, options.columns, problems);
  return map_columns_by_place(rows.fields(), rows.line(), options.units, options.columns, problems);
}

/// Reads the rows of a table whose columns are known. False when they were all of other stations.
bool read_rows(RowSplitter& rows, TablePlan plan, const TableSurvey& survey, ProblemList& problems,
               const ReadOptions& options, const OnStation& on_station, ThreadPool* pool, FileSummary& summary) {
  const bool long_table = plan.columns.element != ColumnMap::k_none;
  summary.within_day = !long_table && survey.within_day();
  note_what_days_are(survey, summary.within_day, problems);
  TableRows table{rows, std::move(plan), problems, options, on_station};
  if (long_table)
    read_elements(table);
  else if (summary.within_day)
    read_readings(table);
  else if (pool != nullptr)
    read_days_apart(table, rows, *pool);
  else
    read_days(table);
  return table.finish(summary);
}

}  // namespace

FileSummary read_table(RowSplitter& rows, ProblemList& problems, const ReadOptions& options,
                       const OnStation& on_station, ThreadPool* pool) {
  FileSummary summary;
  const auto start = find_table_start(rows, options.columns, problems);
  if (!start) return summary;
  const bool month_table = is_month_table(rows.fields());
  auto columns = month_table ? std::nullopt : map_table(rows, *start, options, problems);
  rows.rewind();
  if (start->has_header) rows.next();
  if (month_table) return read_month_table(rows, problems, options, on_station);
  if (!columns) return summary;

  TablePlan plan{.columns = *columns, .layout = recognise_layout(*columns, start->delimiter, start->titles)};
  summary.layout = plan.layout.name;
  summary.kind = plan.layout.kind;
  heed_name(summary, problems);
  if (plan.columns.station == ColumnMap::k_none && !options.station.empty()) {
    problems.add(Severity::error, 0, 0, fmt::format("the file names no stations, so none is \"{}\"", options.station),
                 "leave out --station");
    return summary;
  }
  const TableSurvey survey = survey_table(rows, plan.columns);
  if (!shows_extremes(plan.columns, survey, problems)) return summary;
  if (!choose_scale(plan.columns, plan.layout, survey.values, options, problems)) return summary;
  summary.unit = plan.columns.unit;
  summary.unit_evidence = plan.columns.unit_evidence;
  summary.tenths = plan.columns.tenths;
  if (!plan.layout.dates_without_year) {
    const auto order = choose_order(survey.order, options.date_order, problems);
    if (!order) return summary;
    plan.order = *order;
    if (survey.order.month_first + survey.order.day_first + survey.order.either > 0) summary.date_order = order;
  }
  if (plan.columns.element == ColumnMap::k_none) drop_row_numbers(plan.columns, survey, problems);
  plan.decimal_mark = start->delimiter != ',' && survey.decimal_comma ? ',' : '.';

  const bool has_header = start->has_header;
  const bool long_table = plan.columns.element != ColumnMap::k_none;
  const bool known = read_rows(rows, std::move(plan), survey, problems, options, on_station, pool, summary);
  if (summary.rows == 0 && known) {
    problems.add(Severity::error, 0, 0,
                 long_table   ? "the file has no rows of the elements TMAX and TMIN"
                 : has_header ? "the file has a header line but no rows"
                              : "the file has no rows",
                 "give one row a day");
  }
  note_multi_line_rows(rows, problems);
  return summary;
}

}  // namespace budclock::weather

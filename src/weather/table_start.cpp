#include <budclock/weather/date_text.hpp>
#include <budclock/weather/table_start.hpp>
#include <budclock/weather/value_text.hpp>

#include <algorithm>
#include <fmt/format.h>

namespace budclock::weather {
namespace {

/// Titles, places and citations above a header take a few lines.
constexpr std::size_t k_most_title_rows = 40;
constexpr int k_all_roles = 3;

/// A row that may begin the table.
struct Beginning {
  int score = 0;
  std::size_t row = 0;  ///< counted from 0
  char delimiter = ',';
};

bool is_data(std::span<const Field> row) {
  return std::any_of(row.begin(), row.end(),
                     [](const Field& field) { return split_date(trimmed(field.text)).has_value(); });
}

/// How many of the columns that the user named stand in a row.
int chosen_names(std::span<const Field> row, const ColumnChoice& chosen) {
  int found = 0;
  for (const std::string* name : {&chosen.date, &chosen.tmax, &chosen.tmin, &chosen.temperature, &chosen.station}) {
    const auto is_it = [&](const Field& field) { return trimmed(field.text) == *name; };
    if (!name->empty() && std::any_of(row.begin(), row.end(), is_it)) ++found;
  }
  return found;
}

/// How well a row serves as header, and how well it is split: by the roles that its names fill, then by its fields.
int score(std::span<const Field> names, const ColumnChoice& chosen) {
  constexpr int k_most_fields = 1'000;
  if (names.size() < 2) return 0;
  const int roles = std::min(roles_filled(names) + chosen_names(names, chosen), k_all_roles);
  return roles * k_most_fields + std::min(static_cast<int>(names.size()), k_most_fields - 1);
}

/// The best beginning under one delimiter.
Beginning look_for_beginning(RowSplitter& rows, char delimiter, const ColumnChoice& chosen) {
  Beginning best{.delimiter = delimiter};
  rows.mark();
  rows.set_delimiter(delimiter);
  for (std::size_t row = 0; row < k_most_title_rows && rows.next(); ++row) {
    const int found = score(rows.fields(), chosen);
    // A later row is the header only when it names all that is needed; otherwise the first row is the best to talk of.
    const bool names_all = found >= k_all_roles * 1'000;
    if (row == 0 || names_all) best = {found, row, delimiter};
    if (names_all) break;
  }
  rows.rewind();
  return best;
}

void report_no_rows(ProblemList& problems) {
  problems.add(Severity::error, 0, 0, "the file has no header line and no rows",
               "give a file with a header line such as date,tmax_f,tmin_f and one row a day");
}

}  // namespace

std::optional<TableStart> find_table_start(RowSplitter& rows, const ColumnChoice& chosen, ProblemList& problems) {
  Beginning best;
  for (const char delimiter : {',', ';', '\t'}) {
    const Beginning found = look_for_beginning(rows, delimiter, chosen);
    if (found.score > best.score) best = found;
  }
  TableStart start{.delimiter = best.delimiter};
  rows.set_delimiter(best.delimiter);
  std::size_t first_title = 0;
  for (std::size_t row = 0; row < best.row; ++row) {
    if (!rows.next()) break;
    if (row == 0) first_title = rows.line();
    for (const Field& field : rows.fields()) start.titles += std::string{field.text} + ' ';
    start.titles += '\n';
  }
  rows.mark();
  if (!rows.next()) {
    report_no_rows(problems);
    return std::nullopt;
  }
  if (rows.fault() != RowFault::none) {
    const auto [line, column] = rows.position(rows.fault_offset());
    problems.add(Severity::error, line, column, "the header line cannot be read",
                 "correct its quotes, or export it again");
    return std::nullopt;
  }
  if (first_title > 0) {
    problems.add(Severity::note, first_title, 0,
                 fmt::format("the table begins on line {}; what stands above is left out", rows.line()));
  }
  start.has_header = !is_data(rows.fields());
  return start;
}

}  // namespace budclock::weather

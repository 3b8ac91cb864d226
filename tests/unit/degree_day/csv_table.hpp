// Reads the plain comma-separated tables of tests/data/degree_day: no quotes, a header line, one row a line.
#pragma once

#include <cstddef>
#include <fstream>
#include <map>
#include <stdexcept>
#include <string>
#include <utility>
#include <vector>

namespace csv_table {

/// One row by column name, with the line it came from.
struct Row {
  std::string line;
  std::map<std::string, std::string> cells;

  const std::string& text(const std::string& column) const { return cells.at(column); }
  /// The cell as a number, or `otherwise` when it is empty.
  double number(const std::string& column, double otherwise = 0) const {
    const std::string& cell = cells.at(column);
    return cell.empty() ? otherwise : std::stod(cell);
  }
};

inline std::vector<std::string> split(const std::string& line) {
  std::vector<std::string> cells(1);
  for (const char c : line) {
    if (c == ',') {
      cells.emplace_back();
    } else {
      cells.back() += c;
    }
  }
  return cells;
}

/// The table `name` of tests/data/degree_day.
inline std::vector<Row> read(const std::string& name) {
  std::ifstream in{std::string{BUDCLOCK_TEST_DATA} + "/degree_day/" + name};
  if (!in) throw std::runtime_error("cannot open " + name);
  std::string line;
  std::getline(in, line);
  const std::vector<std::string> header = split(line);
  std::vector<Row> rows;
  while (std::getline(in, line)) {
    const std::vector<std::string> cells = split(line);
    if (cells.size() != header.size()) throw std::runtime_error("ragged row in " + name + ": " + line);
    Row row{line, {}};
    for (std::size_t i = 0; i < cells.size(); ++i) row.cells[header[i]] = cells[i];
    rows.push_back(std::move(row));
  }
  return rows;
}

}  // namespace csv_table

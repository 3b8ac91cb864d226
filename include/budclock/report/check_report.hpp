// What `check` says of files: what each is, what it holds, what is wrong with it.
#pragma once

#include <budclock/core/diagnostic.hpp>
#include <budclock/report/layout.hpp>
#include <budclock/weather/record_check.hpp>

#include <string>
#include <utility>
#include <vector>

namespace budclock::report {

/// One file, whatever it is.
struct FileCheck {
  std::string file;
  std::string what;  ///< the layout or kind recognised, in words; empty when it was not
  std::vector<std::pair<std::string, std::string>> facts;  ///< "units" -> "F, by its header", in the order to show
  std::vector<weather::StationCheck> stations;             ///< of a weather file
  Diagnostics problems;
};

/// The facts of a weather file: units and how they were known, order of the dates, rows.
std::vector<std::pair<std::string, std::string>> weather_facts(const weather::FileSummary& summary);

/// For each file a paragraph, a line a station, and its problems by line and column.
std::string check_text(const std::vector<FileCheck>& files, const TextStyle& style);

/// A header and a row for each file, station and problem (`kind` file, station, problem). Columns are only ever added
/// at the end.
std::string check_csv(const std::vector<FileCheck>& files);

/// One JSON object, "schema": "budclock/check/1". Members are only ever added.
std::string check_json(const std::vector<FileCheck>& files);

}  // namespace budclock::report

// Reads tables: delimited text with a header line and one row a day.
#pragma once

#include <budclock/weather/reader.hpp>
#include <budclock/weather/row_splitter.hpp>

#include <functional>

namespace budclock::weather {

/// Reads a table from `rows`, which stands before the header line. As `read_weather`.
FileSummary read_table(RowSplitter& rows, ProblemList& problems, const ReadOptions& options,
                       const std::function<void(StationRecord&&)>& on_station);

}  // namespace budclock::weather

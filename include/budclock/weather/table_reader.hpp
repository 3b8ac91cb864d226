// Reads tables: delimited text with one row a day, a reading within the day, or an element of a day.
#pragma once

#include <budclock/weather/reader.hpp>
#include <budclock/weather/row_splitter.hpp>

#include <functional>
#include <string_view>

namespace budclock::weather {

/// Reads a table from `rows`, which stands at the beginning. As `read_weather`.
FileSummary read_table(RowSplitter& rows, ProblemList& problems, const ReadOptions& options,
                       const std::function<void(StationRecord&&)>& on_station, ThreadPool* pool);

}  // namespace budclock::weather

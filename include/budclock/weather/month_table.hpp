// Reads NOAA's 1981-2010 daily normals laid out as one row a month.
#pragma once

#include <budclock/weather/reader.hpp>
#include <budclock/weather/row_splitter.hpp>

#include <functional>
#include <span>
#include <string_view>

namespace budclock::weather {

/// True for a header of a station, a month and its 31 days.
bool is_month_table(std::span<const Field> header);

/// Reads such a table, whose header is the row that stands in `rows`. Each file holds one extreme only, so that two
/// make a record: the other one's values stay absent. Which one it is, the file's content does not tell; NOAA's name
/// for it ("dly-tmax-normal") or --columns tmax=DAY1 does.
///
/// Values are whole tenths of °F with a letter of completeness; -8888 is a day that the month does not have. NOAA NCEI,
/// 1981-2010 U.S. Climate Normals, readme.txt (Arguez et al. 2012, Bull. Am. Meteorol. Soc. 93:1687-1697).
FileSummary read_month_table(RowSplitter& rows, ProblemList& problems, const ReadOptions& options,
                             const std::function<void(StationRecord&&)>& on_station);

}  // namespace budclock::weather

// What a layout is to the reader: how the start of a file tells it, and who reads it.
#pragma once

#include <budclock/weather/reader.hpp>

#include <functional>
#include <string_view>

namespace budclock::weather {

using StationHandler = std::function<void(StationRecord&&)>;

/// Each layout has two functions, in the header of its reader.
struct Layout {
  /// True when the file that starts so (with PeekedSource::k_looked_at bytes, or all it has) is of this layout.
  bool (*recognise)(std::string_view start);
  /// Reads it. As `read_weather`, but what is wrong goes to the list.
  FileSummary (*read)(ByteSource& source, ProblemList& problems, const ReadOptions& options,
                      const StationHandler& on_station);
};

}  // namespace budclock::weather

// The Weather Service's monthly climate text, form F-6 (product CF6).
//
// A heading names station, month and year; between two lines of "=" stands a line for each day so far: the day of the
// month in columns 1-2, then maximum and minimum in columns of four, whole degrees Fahrenheit, M for no value. The
// layout as in the published products; National Weather Service Instruction 10-1004, Climate Products (from memory).
#pragma once

#include <budclock/weather/layout.hpp>

namespace budclock::weather {

bool is_cf6(std::string_view start);

/// Reads one product or several after one another. Products of the same month may overlap, as they do when each day's
/// is kept: what they agree on stands; where they differ the value is set aside, with a fault. A product without
/// month, year or station is a fault, and its days are set aside.
FileSummary read_cf6(ByteSource& source, ProblemList& problems, const ReadOptions& options,
                     const StationHandler& on_station);

}  // namespace budclock::weather

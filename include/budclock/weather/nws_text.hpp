// Texts of the Weather Service that are not daily records: told, and refused with what to get instead.
#pragma once

#include <budclock/weather/layout.hpp>

namespace budclock::weather {

/// True for a text with a communications heading such as "CDUS41 KILN 230547" in its first lines. Ask is_cf6 first.
bool is_nws_text(std::string_view start);

/// An error that names the kind of text.
FileSummary refuse_nws_text(ByteSource& source, ProblemList& problems, const ReadOptions& options,
                            const StationHandler& on_station);

}  // namespace budclock::weather

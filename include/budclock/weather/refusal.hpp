// Refuses a file of which so much is set aside that the rest is no record.
#pragma once

#include <budclock/weather/problem_list.hpp>
#include <budclock/weather/reader.hpp>

namespace budclock::weather {

/// Puts one error in the place of the faults when more than half of the rows have one, or when temperatures in °F are
/// read as °C. It names the likeliest cause and the option that mends it. Says nothing of a file with an error of
/// its own, or of fewer than 30 rows.
void refuse_mostly_faulty(const FileSummary& summary, const ReadOptions& options, ProblemList& problems);

}  // namespace budclock::weather

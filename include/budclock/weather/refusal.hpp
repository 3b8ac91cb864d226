// Refuses a file of which so much is set aside that the rest is no record.
#pragma once

#include <budclock/weather/daily_series.hpp>
#include <budclock/weather/problem_list.hpp>
#include <budclock/weather/reader.hpp>

namespace budclock::weather {

/// Puts one error in the place of the faults when more than half of the rows have one, or when temperatures in °F are
/// read as °C. It names the likeliest cause and the option that mends it. Says nothing of a file with an error of
/// its own, or of fewer than 30 rows.
void refuse_mostly_faulty(const FileSummary& summary, const ReadOptions& options, ProblemList& problems);

/// True when the series has 20 days and more of each month and none of them reaches 10 °C (50 °F): so is a polar
/// climate, in which no tree grows (Peel, Finlayson & McMahon 2007, Hydrol. Earth Syst. Sci. 11:1633-1644, Table 1: the
/// mean of the warmest month below 10 °C), or a file in °C that is read as °F. The 20 days are common practice.
bool is_too_cold_for_trees(const DailySeries& days);

}  // namespace budclock::weather

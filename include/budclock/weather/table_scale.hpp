// In what unit a table's numbers are.
#pragma once

#include <budclock/weather/table_layout.hpp>
#include <budclock/weather/table_survey.hpp>

namespace budclock::weather {

/// Settles unit, tenths and their evidence in `columns`: by the publisher's layout, by --units, by the header, by
/// numbers that can be of one unit only. False, with an error that names the option, when all of them leave it open or
/// the numbers contradict what is stated.
bool choose_scale(ColumnMap& columns, const TableLayout& layout, const NumberEvidence& seen, const ReadOptions& options,
                  ProblemList& problems);

}  // namespace budclock::weather

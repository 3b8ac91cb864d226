// The time line of a year, written for a person, a spreadsheet and a program.
#pragma once

#include <budclock/forecast/yearline.hpp>
#include <budclock/report/layout.hpp>
#include <budclock/rules/pest.hpp>

#include <string>

namespace budclock::report {

/// By half-month, past and coming: pest stages, then other pests, then the blooms to check the sums against.
std::string yearline_text(const forecast::YearLine& line, const rules::PestTable& table, const TextStyle& style);

/// A header and one row for each event, those without a date last. Columns are only ever added at the end.
std::string yearline_csv(const forecast::YearLine& line);

/// One JSON object, "schema": "budclock/yearline/1".
std::string yearline_json(const forecast::YearLine& line, const rules::PestTable& table);

}  // namespace budclock::report

// The scouting log, and what can be recorded in it, written for a person, a spreadsheet and a program.
#pragma once

#include <budclock/journal/sighting.hpp>
#include <budclock/report/layout.hpp>
#include <budclock/rules/pest.hpp>
#include <budclock/sites/site.hpp>

#include <string>
#include <vector>

namespace budclock::report {

/// "egg hatch found, 7 of 20; saw nymphs; not seen: cupping, bloom": what a row says, in one line.
std::string sighting_text(const journal::Sighting& sighting, const rules::PestTable& table);

/// One row a line, by date. Control characters in free text are shown as \xNN.
std::string log_text(const std::vector<journal::Sighting>& rows, const rules::PestTable& table, const TextStyle& style);

/// The columns of a scouting log, then `line`, the row's line in the log. Columns are only ever added at the end.
std::string log_csv(const std::vector<journal::Sighting>& rows);

/// One JSON object, "schema": "budclock/log/1". Members are only ever added.
std::string log_json(const std::vector<journal::Sighting>& rows);

/// The ids of stages and observations of a pest, and the gates that ask for them.
std::string recordable_text(const rules::Pest& pest, const TextStyle& style);

/// A line for each gate of the pest on what grows at the site: what it still lacks, or until when what was found
/// counts. It says nothing of whether a window is open.
std::string gates_text(const rules::Pest& pest, const std::vector<journal::Sighting>& log, const sites::Site& site,
                       const rules::PestTable& table, Day today, const TextStyle& style);

}  // namespace budclock::report

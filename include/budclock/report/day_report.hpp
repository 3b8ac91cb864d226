// A day in the field, written for a person, a spreadsheet and a program. No answer says that an hour is fit for work.
#pragma once

#include <budclock/forecast/day_screen.hpp>
#include <budclock/report/layout.hpp>
#include <budclock/rules/pest.hpp>
#include <budclock/sites/day_facts.hpp>

#include <string>

namespace budclock::report {

/// What the site bars or warns of first, then the longest runs of daylight hours and every hour with what rules it
/// out; no hours where the site bars the action. `table` has the sources.
std::string day_text(const forecast::DayScreen& screen, const sites::DayFacts& facts, const rules::PestTable& table,
                     const TextStyle& style);

/// A row for each hour, "barred at this site" where it is. Columns are only ever added at the end.
std::string day_csv(const forecast::DayScreen& screen, const sites::DayFacts& facts);

/// One JSON object, "schema": "budclock/day/1" (data/schema/day.schema.json). Members are only ever added.
std::string day_json(const forecast::DayScreen& screen, const sites::DayFacts& facts);

}  // namespace budclock::report

// A day in the field, written for a person, a spreadsheet and a program. No answer says that an hour is fit for work.
#pragma once

#include <budclock/forecast/day_screen.hpp>
#include <budclock/report/layout.hpp>
#include <budclock/rules/pest.hpp>

#include <string>

namespace budclock::report {

/// The longest runs of daylight hours first, then every hour with what rules it out. `table` has the sources.
std::string day_text(const forecast::DayScreen& screen, const rules::PestTable& table, const TextStyle& style);

/// A row for each hour. Columns are only ever added at the end.
std::string day_csv(const forecast::DayScreen& screen);

/// One JSON object, "schema": "budclock/day/1" (data/schema/day.schema.json). Members are only ever added.
std::string day_json(const forecast::DayScreen& screen);

}  // namespace budclock::report

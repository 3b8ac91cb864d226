// The action log, written for a person, a spreadsheet, a program and an inspector.
#pragma once

#include <budclock/journal/action.hpp>
#include <budclock/report/layout.hpp>
#include <budclock/rules/pest.hpp>

#include <cstdint>
#include <string>
#include <vector>

namespace budclock::report {

/// How much of a row is written.
enum class RecordFields : std::uint8_t {
  listed,  ///< without what was typed from a label; another text that reads as an amount of a product is withheld
  every,   ///< all of it as typed, for an inspector
};

/// "contact spray", with the plants where they are given.
std::string action_text(const journal::ActionTaken& action);

/// "low 41.5 F, high 63 F (from a neighbour)"; empty when both are absent.
std::string temperatures_text(const journal::ActionTaken& action);

/// "product (brand name), licence (certification number)": what an inspector would miss; empty when nothing.
std::string missing_text(const journal::ActionTaken& action);

/// One row a line; `every` writes the texts of a row below it, one a line, and the rule by which they are missed.
/// Control characters are shown as \xNN.
std::string records_text(const std::vector<journal::ActionTaken>& rows, const rules::PestTable& table,
                         RecordFields fields, const TextStyle& style);

/// The columns of an action log (`listed`: without those of the label), then `line`, the row's line in the log, and
/// `missing`, the names of required columns that are empty. Columns are only ever added at the end.
std::string records_csv(const std::vector<journal::ActionTaken>& rows, RecordFields fields);

/// One JSON object, "schema": "budclock/records/1", or "budclock/inspection/1" with every field and the rule. Members
/// are only ever added.
std::string records_json(const std::vector<journal::ActionTaken>& rows, RecordFields fields);

}  // namespace budclock::report

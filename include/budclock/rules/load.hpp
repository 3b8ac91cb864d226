// From pest files to a pest table.
#pragma once

#include <budclock/core/diagnostic.hpp>
#include <budclock/rules/pest.hpp>

#include <string_view>
#include <vector>

namespace budclock::rules {

/// One file of the table, by name and content. The schema inside says what it is: a pest, companions, the
/// sources, the cautions.
struct RuleFile {
  std::string_view name;
  std::string_view text;
};

/// Loads and checks files together, on top of `table`; a later file replaces an earlier pest, companion, source or
/// caution of the same id.
/// Every fault of every file is added to `diagnostics` with its line, column, JSON pointer and remedy; a file with an
/// error contributes nothing, the others stand.
PestTable load(const std::vector<RuleFile>& files, Diagnostics& diagnostics, PestTable table = {});

/// The files shipped with the program (generated from data/ at build time).
std::vector<RuleFile> shipped_files();

/// The parts of letters to clients shipped with the program (data/letters/); report/letter.hpp reads them.
std::vector<RuleFile> shipped_letter_parts();

/// What `load` makes of the shipped files, made at build time, so that a start need not read JSON.
PestTable shipped_table();

}  // namespace budclock::rules

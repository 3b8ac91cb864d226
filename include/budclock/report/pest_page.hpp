// What is known of a pest, for reading.
#pragma once

#include <budclock/report/layout.hpp>
#include <budclock/rules/pest.hpp>

#include <string>
#include <vector>

namespace budclock::report {

/// One line a pest: id, hosts, how it is dated, whether action is usually needed.
std::string pest_list_text(const std::vector<const rules::Pest*>& pests, const TextStyle& style);

/// The whole page: signs, life cycle, windows, numbers with their sources, conflicts, cautions.
std::string pest_page_text(const rules::Pest& pest, const rules::PestTable& table, const TextStyle& style);

/// The pests as JSON, "schema": "budclock/pests/1", with the sources they name.
std::string pests_json(const std::vector<const rules::Pest*>& pests, const rules::PestTable& table);

}  // namespace budclock::report

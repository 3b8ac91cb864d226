#include "one_pest.hpp"

#include <budclock/sites/pest_choice.hpp>

#include "messages.hpp"

#include <fmt/format.h>
#include <vector>

namespace budclock::cli {

const rules::Pest* choose_one(const rules::PestTable& table, const std::string& name, Environment& environment) {
  const sites::PestChoice choice = sites::choose_pests(table, {name});
  for (const std::string& problem : choice.problems) complain(problem, environment);
  if (!choice.problems.empty()) return nullptr;
  if (choice.pests.size() == 1) return choice.pests.front();
  std::vector<std::string> ids;
  for (const rules::Pest* pest : choice.pests) ids.push_back(pest->id);
  complain(fmt::format("'{}' names {} pests: write one of {}", name, ids.size(), fmt::join(ids, ", ")), environment);
  return nullptr;
}

}  // namespace budclock::cli

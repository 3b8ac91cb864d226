#include "pest_files.hpp"

#include <budclock/rules/load.hpp>
#include <budclock/sites/pest_choice.hpp>

#include "messages.hpp"
#include "own_files.hpp"
#include "weather_input.hpp"

#include <algorithm>
#include <fmt/format.h>
#include <utility>
#include <vector>

namespace budclock::cli {
namespace {

const OwnFiles k_pest_files{".json", "pest files", "holds no pest file",
                            "put your pest files there; their names end in .json"};

}  // namespace

std::optional<rules::PestTable> load_pests(const std::string& folder, Environment& environment, Diagnostics& faults) {
  if (folder.empty()) return rules::shipped_table();
  Diagnostics of_folder;
  const std::vector<OwnFile> own = read_own_files(folder, k_pest_files, of_folder);
  if (own.empty()) {
    print(of_folder, environment);
    return std::nullopt;
  }

  std::vector<rules::RuleFile> files;
  for (const OwnFile& file : own) files.push_back({file.path, file.text});
  Diagnostics found = std::move(of_folder);
  rules::PestTable table = rules::load(files, found, rules::shipped_table());
  for (Diagnostic& entry : found) {  // the other pests are answered, so these are faults, not errors
    entry.severity = std::min(entry.severity, Severity::fault);
  }
  print(found, environment);
  faults.insert(faults.end(), found.begin(), found.end());
  return table;
}

std::optional<std::vector<const rules::Pest*>> pests_asked(const rules::PestTable& table,
                                                           const std::vector<std::string>& names,
                                                           const std::vector<std::string>& hosts,
                                                           Environment& environment) {
  sites::PestChoice choice = sites::choose_pests(table, names, hosts);
  for (const std::string& problem : choice.problems) complain(problem, environment);
  if (!choice.problems.empty()) return std::nullopt;
  return std::move(choice.pests);
}

}  // namespace budclock::cli

#include "pest_files.hpp"

#include <budclock/rules/load.hpp>
#include <budclock/sites/pest_choice.hpp>

#include "messages.hpp"
#include "practice_files.hpp"
#include "weather_input.hpp"

#include <algorithm>
#include <filesystem>
#include <fmt/format.h>
#include <system_error>
#include <utility>
#include <vector>

namespace budclock::cli {
namespace {

struct UserFile {
  std::string name;
  std::string text;
};

std::vector<std::string> json_files(const std::string& folder, Diagnostics& diagnostics) {
  std::vector<std::string> names;
  std::error_code failure;
  for (std::filesystem::directory_iterator entry{folder, failure}, end; !failure && entry != end;
       entry.increment(failure)) {
    if (entry->path().extension() == ".json") names.push_back(entry->path().string());
  }
  if (failure) {
    diagnostics.push_back({Severity::error,
                           {folder},
                           fmt::format("cannot be read as a folder ({})", failure.message()),
                           "name the folder that holds your pest files"});
  } else if (names.empty()) {
    diagnostics.push_back(
        {Severity::error, {folder}, "holds no pest file", "put your pest files there; their names end in .json"});
  }
  std::sort(names.begin(), names.end());
  return names;
}

std::vector<UserFile> read_all(const std::vector<std::string>& names, Diagnostics& diagnostics) {
  std::vector<UserFile> files;
  for (const std::string& name : names) {
    if (auto text = read_whole_file(name, diagnostics)) files.push_back({name, std::move(*text)});
  }
  return files;
}

}  // namespace

std::optional<rules::PestTable> load_pests(const std::string& folder, Environment& environment, Diagnostics& faults) {
  if (folder.empty()) return rules::shipped_table();
  Diagnostics of_folder;
  const std::vector<UserFile> own = read_all(json_files(folder, of_folder), of_folder);
  if (own.empty()) {
    print(of_folder, environment);
    return std::nullopt;
  }

  std::vector<rules::RuleFile> files;
  for (const UserFile& file : own) files.push_back({file.name, file.text});
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

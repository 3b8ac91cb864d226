#include "pest_choice.hpp"

#include <budclock/core/nearest.hpp>

#include <algorithm>
#include <cctype>
#include <fmt/format.h>
#include <set>
#include <sstream>

namespace budclock::cli {
namespace {

/// Lower case, with hyphens as spaces, so that "Boxwood psyllid" and "boxwood-psyllid" are the same.
std::string plain(std::string text) {
  for (char& c : text) c = c == '-' ? ' ' : static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
  return text;
}

std::vector<std::string> all_names(const rules::Pest& pest) {
  std::vector<std::string> names{pest.id, pest.name};
  names.insert(names.end(), pest.scientific_names.begin(), pest.scientific_names.end());
  names.insert(names.end(), pest.also_called.begin(), pest.also_called.end());
  return names;
}

bool is_named(const rules::Pest& pest, const std::string& wanted) {
  const auto names = all_names(pest);
  return std::any_of(names.begin(), names.end(), [&](const std::string& name) { return plain(name) == wanted; });
}

/// `wanted` stands in a name from the start of a word on.
bool is_part_of_name(const rules::Pest& pest, const std::string& wanted) {
  const auto names = all_names(pest);
  return std::any_of(names.begin(), names.end(), [&](const std::string& name) {
    return (" " + plain(name)).find(" " + wanted) != std::string::npos;
  });
}

/// Whole names, and their single words for those who type only one.
std::vector<std::string> words_to_suggest(const rules::PestTable& table) {
  std::vector<std::string> words;
  for (const rules::Pest& pest : table.pests) {
    for (const std::string& name : all_names(pest)) {
      words.push_back(name);
      std::istringstream parts{name};
      for (std::string part; parts >> part;) words.push_back(part);
    }
  }
  return words;
}

}  // namespace

PestChoice choose_pests(const rules::PestTable& table, const std::vector<std::string>& names) {
  PestChoice choice;
  std::set<const rules::Pest*> chosen;
  for (const std::string& name : names) {
    const std::string wanted = plain(name);
    bool found = false;
    for (const auto matches : {is_named, is_part_of_name}) {
      for (const rules::Pest& pest : table.pests) {
        if (wanted.empty() || !matches(pest, wanted)) continue;
        chosen.insert(&pest);
        found = true;
      }
      if (found) break;
    }
    if (found) continue;
    const std::vector<std::string> candidates = words_to_suggest(table);
    const auto nearest = nearest_name(name, {candidates.begin(), candidates.end()});
    choice.problems.push_back(nearest ? fmt::format("no pest is called '{}': did you mean '{}'?", name, *nearest)
                                      : fmt::format("no pest is called '{}': `budclock pests` lists all", name));
  }
  for (const rules::Pest& pest : table.pests) {
    if (names.empty() || chosen.contains(&pest)) choice.pests.push_back(&pest);
  }
  return choice;
}

}  // namespace budclock::cli

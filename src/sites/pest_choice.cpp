#include <budclock/core/nearest.hpp>
#include <budclock/sites/pest_choice.hpp>
#include <budclock/sites/pest_names.hpp>

#include "pest_words.hpp"

#include <algorithm>
#include <fmt/format.h>
#include <set>
#include <sstream>

namespace budclock::sites {
namespace {

/// The pests in one of whose names `wanted` stands, from the start of a word on.
std::vector<const rules::Pest*> pests_with_words(const rules::PestTable& table, const std::string& wanted) {
  std::string words = words_of(wanted);
  if (words.size() < 2) return {};
  words.pop_back();
  std::vector<const rules::Pest*> found;
  for (const rules::Pest& pest : table.pests) {
    const auto names = all_names(pest);
    const auto holds = [&](const std::string& name) { return words_of(name).find(words) != std::string::npos; };
    if (std::any_of(names.begin(), names.end(), holds)) found.push_back(&pest);
  }
  return found;
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

std::vector<std::string> host_names(const rules::PestTable& table) {
  std::vector<std::string> names;
  for (const rules::Pest& pest : table.pests) {
    for (const rules::Host& host : pest.hosts) names.push_back(host.name);
  }
  return names;
}

/// The pests of a plant that someone named as if it were one: its last words are the plant's.
std::vector<const rules::Pest*> pests_of_plant(const rules::PestTable& table, const std::string& name) {
  const std::string words = words_of(name);
  const auto names = host_names(table);
  const bool ends_so = std::any_of(names.begin(), names.end(), [&](const std::string& host) {
    return words.ends_with(words_of(host)) || words_of(host).ends_with(words);
  });
  return ends_so && words.size() > 1 ? pests_on(table, name) : std::vector<const rules::Pest*>{};
}

}  // namespace

std::vector<std::string> list_entries(const std::vector<std::string>& lists) {
  std::vector<std::string> entries;
  for (const std::string& list : lists) {
    std::istringstream parts{list};
    for (std::string entry; std::getline(parts, entry, ',');) {
      const auto first = entry.find_first_not_of(' ');
      if (first == std::string::npos) continue;
      entries.push_back(entry.substr(first, entry.find_last_not_of(' ') - first + 1));
    }
  }
  return entries;
}

PestChoice choose_pests(const rules::PestTable& table, const std::vector<std::string>& names,
                        const std::vector<std::string>& hosts) {
  PestChoice choice;
  std::set<const rules::Pest*> chosen;
  const auto refuse = [&](const char* what, const std::string& name, const std::vector<std::string>& candidates) {
    const auto nearest = nearest_name(name, {candidates.begin(), candidates.end()});
    choice.problems.push_back(
        fmt::format("no {} '{}': {}", what, name,
                    nearest ? fmt::format("did you mean '{}'?", *nearest) : std::string{"`budclock pests` lists all"}));
  };
  for (const std::string& name : list_entries(names)) {
    auto found = pests_named(table, name);
    if (found.empty()) found = pests_with_words(table, name);
    if (const auto living = found.empty() ? pests_of_plant(table, name) : found; found.empty() && !living.empty()) {
      std::vector<std::string> ids;
      for (const rules::Pest* pest : living) ids.push_back(pest->id);
      choice.problems.push_back(fmt::format(
          "no pest is called '{0}', but a plant is: `budclock when` and `budclock pests` take --host \"{0}\" "
          "for its pests; their names are {1}",
          name, fmt::join(ids, ", ")));
    } else if (found.empty()) {
      refuse("pest is called", name, words_to_suggest(table));
    }
    chosen.insert(found.begin(), found.end());
  }
  for (const std::string& host : list_entries(hosts)) {
    const auto found = pests_on(table, host);
    if (found.empty()) refuse("pest here lives on", host, host_names(table));
    chosen.insert(found.begin(), found.end());
  }
  const bool all = names.empty() && hosts.empty();
  for (const rules::Pest& pest : table.pests) {
    if (all || chosen.contains(&pest)) choice.pests.push_back(&pest);
  }
  return choice;
}

}  // namespace budclock::sites

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

bool lives_on(const rules::Pest& pest, const std::string& wanted) {
  return std::any_of(pest.hosts.begin(), pest.hosts.end(), [&](const rules::Host& host) {
    const auto& others = host.also_called;
    return plain(host.name) == wanted || plain(host.scientific_name) == wanted ||
           std::any_of(others.begin(), others.end(), [&](const std::string& name) { return plain(name) == wanted; });
  });
}

std::vector<std::string> host_names(const rules::PestTable& table) {
  std::vector<std::string> names;
  for (const rules::Pest& pest : table.pests) {
    for (const rules::Host& host : pest.hosts) names.push_back(host.name);
  }
  return names;
}

/// The entries of comma-parted lists, without blanks around them.
std::vector<std::string> parted(const std::vector<std::string>& lists) {
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

PestChoice choose_pests(const rules::PestTable& table, const std::vector<std::string>& names,
                        const std::vector<std::string>& hosts) {
  PestChoice choice;
  std::set<const rules::Pest*> chosen;
  const auto add_all = [&](auto matches, const std::string& wanted) {
    bool found = false;
    for (const rules::Pest& pest : table.pests) {
      if (!matches(pest, wanted)) continue;
      chosen.insert(&pest);
      found = true;
    }
    return found;
  };
  const auto refuse = [&](const char* what, const std::string& name, const std::vector<std::string>& candidates,
                          const char* help) {
    const auto nearest = nearest_name(name, {candidates.begin(), candidates.end()});
    choice.problems.push_back(
        fmt::format("no {} '{}': {}", what, name, nearest ? fmt::format("did you mean '{}'?", *nearest) : help));
  };
  for (const std::string& name : parted(names)) {
    if (add_all(is_named, plain(name)) || add_all(is_part_of_name, plain(name))) continue;
    refuse("pest is called", name, words_to_suggest(table), "`budclock pests` lists all");
  }
  for (const std::string& host : parted(hosts)) {
    if (!add_all(lives_on, plain(host)))
      refuse("pest here lives on", host, host_names(table), "`budclock pests` lists all");
  }
  const bool all = names.empty() && hosts.empty();
  for (const rules::Pest& pest : table.pests) {
    if (all || chosen.contains(&pest)) choice.pests.push_back(&pest);
  }
  return choice;
}

}  // namespace budclock::cli

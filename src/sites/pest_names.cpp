#include <budclock/core/nearest.hpp>
#include <budclock/sites/pest_names.hpp>

#include "pest_words.hpp"

#include <algorithm>
#include <fmt/format.h>
#include <set>

namespace budclock::sites {

std::string words_of(std::string_view text) {
  std::string words = " ";
  const auto end_word = [&words] {
    if (words.ends_with('s') && !words.ends_with("ss")) words.pop_back();
    if (!words.ends_with(' ')) words += ' ';
  };
  for (const char c : text) {
    const auto byte = static_cast<unsigned char>(c);
    if (c >= 'A' && c <= 'Z') {
      words += static_cast<char>(c - 'A' + 'a');
    } else if ((c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || byte >= 0x80) {
      words += c;
    } else {
      end_word();
    }
  }
  end_word();
  return words;
}

std::vector<std::string> all_names(const rules::Pest& pest) {
  std::vector<std::string> names{pest.id, pest.name};
  names.insert(names.end(), pest.scientific_names.begin(), pest.scientific_names.end());
  names.insert(names.end(), pest.also_called.begin(), pest.also_called.end());
  return names;
}

std::vector<std::string> all_names(const rules::Host& host) {
  std::vector<std::string> names{host.name};
  if (!host.scientific_name.empty()) names.push_back(host.scientific_name);
  names.insert(names.end(), host.also_called.begin(), host.also_called.end());
  return names;
}

namespace {

/// Some name of the host occurs in the plant's, and is not just the end of another host's name there.
bool is_host(const rules::PestTable& table, const rules::Host& host, const std::string& plant) {
  const auto other_host_there = [&](const std::string& name) {
    for (const rules::Pest& pest : table.pests) {
      for (const rules::Host& other : pest.hosts) {
        const std::string longer = words_of(other.name);
        if (longer.size() > name.size() && longer.ends_with(name) && plant.find(longer) != std::string::npos) {
          return true;
        }
      }
    }
    return false;
  };
  const auto names = all_names(host);
  return std::any_of(names.begin(), names.end(), [&](const std::string& written) {
    const std::string name = words_of(written);
    return plant.find(name) != std::string::npos && (name == words_of(host.name) ? !other_host_there(name) : true);
  });
}

/// The plant is a less exact name of the host: "pine" for "eastern white pine".
bool is_kind_of(const rules::Host& host, const std::string& plant) {
  const auto names = all_names(host);
  return plant.size() > 1 && std::any_of(names.begin(), names.end(),
                                         [&](const std::string& name) { return words_of(name).ends_with(plant); });
}

}  // namespace

std::vector<const rules::Pest*> pests_named(const rules::PestTable& table, std::string_view name) {
  const std::string wanted = words_of(name);
  std::vector<const rules::Pest*> found;
  for (const rules::Pest& pest : table.pests) {
    const auto names = all_names(pest);
    const auto same = [&](const std::string& other) { return words_of(other) == wanted; };
    if (std::any_of(names.begin(), names.end(), same)) found.push_back(&pest);
  }
  return found;
}

std::string suggest_pest(const rules::PestTable& table, std::string_view name) {
  std::vector<std::string> names;
  for (const rules::Pest& pest : table.pests) {
    for (std::string& one : all_names(pest)) names.push_back(std::move(one));
  }
  if (const auto near = nearest_name(name, {names.begin(), names.end()})) {
    return fmt::format("did you mean \"{}\"?", *near);
  }
  return "`budclock pests` lists all";
}

PlantHosts hosts_of(const rules::PestTable& table, std::string_view plant) {
  const std::string words = words_of(plant);
  PlantHosts found;
  std::vector<const rules::Pest*> by_kind;
  const auto add = [](std::vector<const rules::Pest*>& pests, const rules::Pest& pest) {
    if (pests.empty() || pests.back() != &pest) pests.push_back(&pest);
  };
  for (const rules::Pest& pest : table.pests) {
    for (const rules::Host& host : pest.hosts) {
      const bool exact = is_host(table, host, words);
      if (!exact && !is_kind_of(host, words)) continue;
      found.hosts.push_back(&host);
      add(exact ? found.pests : by_kind, pest);
    }
  }
  if (found.pests.empty()) found.pests = std::move(by_kind);
  return found;
}

std::vector<std::string> hosts_on(const rules::PestTable& table, const rules::Pest& pest, std::string_view plant) {
  const std::string words = words_of(plant);
  std::vector<std::string> names;
  for (const rules::Host& host : pest.hosts) {
    if (is_host(table, host, words) || is_kind_of(host, words)) names.push_back(host.name);
  }
  return names;
}

std::vector<const rules::Pest*> pests_on(const rules::PestTable& table, std::string_view plant) {
  return hosts_of(table, plant).pests;
}

std::vector<const rules::Pest*> pests_of(const Site& site, const rules::PestTable& table) {
  std::set<std::string> wanted{site.watch.begin(), site.watch.end()};
  for (const std::string& plant : site.plants) {
    for (const rules::Pest* pest : pests_on(table, plant)) wanted.insert(pest->id);
  }
  const bool all = site.watch.empty() && site.plants.empty();
  std::vector<const rules::Pest*> chosen;
  for (const rules::Pest& pest : table.pests) {
    const bool muted = std::find(site.mute.begin(), site.mute.end(), pest.id) != site.mute.end();
    if (!muted && (all || wanted.contains(pest.id))) chosen.push_back(&pest);
  }
  return chosen;
}

std::string why_no_pest(const Site& site, const rules::PestTable& table) {
  const auto has_pest = [&](const std::string& plant) { return !pests_on(table, plant).empty(); };
  if (site.plants.empty() || std::any_of(site.plants.begin(), site.plants.end(), has_pest))
    return "no pest concerns it";
  return fmt::format("no pest here lives on its plants ({})", fmt::join(site.plants, ", "));
}

std::map<std::string, std::vector<std::string>> hosts_at(const Site& site, const rules::PestTable& table) {
  std::set<const rules::Host*> growing;
  for (const std::string& plant : site.plants) {
    const auto hosts = hosts_of(table, plant).hosts;
    growing.insert(hosts.begin(), hosts.end());
  }
  std::map<std::string, std::vector<std::string>> names;
  for (const rules::Pest& pest : table.pests) {
    if (std::find(site.watch.begin(), site.watch.end(), pest.id) != site.watch.end()) continue;
    for (const rules::Host& host : pest.hosts) {
      if (growing.contains(&host)) names[pest.id].push_back(host.name);
    }
  }
  return names;
}

bool may_grow(const std::map<std::string, std::vector<std::string>>& hosts, const rules::Pest& pest,
              const std::string& host) {
  const auto known = hosts.find(pest.id);
  if (host.empty() || known == hosts.end()) return true;
  return std::find(known->second.begin(), known->second.end(), host) != known->second.end();
}

namespace {

/// The runs of words of a text as `words_of` makes it, without the spaces around them, the longest first.
std::vector<std::string_view> runs_of_words(std::string_view words) {
  constexpr std::size_t k_most_words = 3;  // "eastern white pine"
  std::vector<std::size_t> spaces;
  for (std::size_t i = 0; i < words.size(); ++i) {
    if (words[i] == ' ') spaces.push_back(i);
  }
  std::vector<std::string_view> runs;
  for (std::size_t length = k_most_words; length > 0; --length) {
    for (std::size_t first = 0; first + length < spaces.size(); ++first) {
      runs.push_back(words.substr(spaces[first] + 1, spaces[first + length] - spaces[first] - 1));
    }
  }
  return runs;
}

/// Names that differ in their first letter are most often two plants (crape, grape; dogwood, boxwood), and so are short
/// names that differ in two.
bool is_misspelling(std::string_view text, std::string_view name) {
  constexpr std::size_t k_shortest = 5;  // "oak" is one letter from too much
  constexpr std::size_t k_long = 8;
  if (text.size() < k_shortest || name.size() < k_shortest || text.front() != name.front()) return false;
  return letters_changed(text, name) <= (name.size() < k_long ? 1U : 2U);
}

}  // namespace

std::string misspelt_host(const rules::PestTable& table, std::string_view plant) {
  if (!pests_on(table, plant).empty()) return {};
  const std::string words = words_of(plant);
  for (const std::string_view run : runs_of_words(words)) {
    for (const rules::Pest& pest : table.pests) {
      for (const rules::Host& host : pest.hosts) {
        for (std::string& written : all_names(host)) {
          const std::string name = words_of(written);
          if (is_misspelling(run, std::string_view{name}.substr(1, name.size() - 2))) return std::move(written);
        }
      }
    }
  }
  return {};
}

}  // namespace budclock::sites

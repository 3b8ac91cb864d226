// A pest table and a sites file made up for tests, and how to change and load them.
#pragma once

#include <budclock/rules/pest.hpp>
#include <budclock/sites/load.hpp>

#include <catch2/catch.hpp>
#include <fstream>
#include <iterator>
#include <string>
#include <vector>

namespace site_files {

inline std::string read(const std::string& name) {
  std::ifstream file{std::string{BUDCLOCK_TEST_DATA} + "/sites/" + name, std::ios::binary};
  REQUIRE(file);
  return {std::istreambuf_iterator<char>{file}, std::istreambuf_iterator<char>{}};
}

inline budclock::rules::Pest pest(const std::string& id, const std::string& name,
                                  std::vector<budclock::rules::Host> hosts) {
  budclock::rules::Pest pest;
  pest.id = id;
  pest.name = name;
  pest.hosts = std::move(hosts);
  return pest;
}

inline budclock::rules::PestTable pests() {
  budclock::rules::PestTable table;
  table.pests.push_back(pest("fir-adelgid", "fir adelgid", {{"fir", "Abies", {"Fraser fir"}}}));
  table.pests.push_back(pest("gall-adelgid", "gall adelgid", {{"spruce", "Picea", {}}, {"Douglas-fir", "", {}}}));
  table.pests.push_back(pest("other-psyllid", "other psyllid", {{"eastern white pine", "Pinus strobus", {}}}));
  table.pests.push_back(pest("test-psyllid", "test psyllid", {{"testwood", "Arbor ficta", {"fictwood"}}}));
  table.pests.back().scientific_names = {"Psylla ficta", "Psylla imaginaria"};
  return table;
}

struct Loaded {
  budclock::sites::SiteList list;
  budclock::Diagnostics diagnostics;
  std::vector<std::string> texts() const {
    std::vector<std::string> all;
    for (const auto& diagnostic : diagnostics) all.push_back(to_text(diagnostic));
    return all;
  }
};

inline Loaded load(const std::string& text, const std::string& name = "sites.json") {
  Loaded loaded;
  loaded.list = budclock::sites::load_sites(text, name, pests(), loaded.diagnostics);
  return loaded;
}

/// `text` with the first `from` replaced.
inline std::string changed(std::string text, const std::string& from, const std::string& to) {
  const std::size_t at = text.find(from);
  INFO(from);
  REQUIRE(at != std::string::npos);
  return text.replace(at, from.size(), to);
}

}  // namespace site_files

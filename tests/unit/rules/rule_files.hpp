// The rule files made up for tests, and how to change and load them.
#pragma once

#include <budclock/rules/load.hpp>

#include <catch2/catch.hpp>
#include <fstream>
#include <iterator>
#include <string>
#include <vector>

namespace rule_files {

inline std::string read(const std::string& name) {
  std::ifstream file{std::string{BUDCLOCK_TEST_DATA} + "/rules/" + name, std::ios::binary};
  REQUIRE(file);
  return {std::istreambuf_iterator<char>{file}, std::istreambuf_iterator<char>{}};
}

/// `text` with its only or first `from` replaced.
inline std::string changed(std::string text, const std::string& from, const std::string& to) {
  const std::size_t at = text.find(from);
  INFO(from);
  REQUIRE(at != std::string::npos);
  return text.replace(at, from.size(), to);
}

struct Loaded {
  budclock::rules::PestTable table;
  budclock::Diagnostics diagnostics;
  std::vector<std::string> texts() const {
    std::vector<std::string> all;
    for (const auto& diagnostic : diagnostics) all.push_back(to_text(diagnostic));
    return all;
  }
};

inline Loaded load(const std::string& pest, const std::string& sources, const std::string& cautions) {
  Loaded loaded;
  loaded.table = budclock::rules::load(
      {{"pests/test-psyllid.json", pest}, {"sources.json", sources}, {"cautions.json", cautions}}, loaded.diagnostics);
  return loaded;
}

inline Loaded load_pest(const std::string& pest) { return load(pest, read("sources.json"), read("cautions.json")); }

}  // namespace rule_files

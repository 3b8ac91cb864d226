// Loads the rule files named on the command line and prints what is wrong with them; 0 when nothing is.
// For whoever writes data/: check_rules data/sources.json data/cautions.json data/pests/*.json
// data/pests/companions/*.json
#include <budclock/rules/load.hpp>

#include <fmt/format.h>
#include <fstream>
#include <iterator>
#include <string>

int main(int argc, char** argv) {
  using namespace budclock;
  std::vector<std::string> names(argv + 1, argv + argc);
  std::vector<std::string> texts;
  Diagnostics diagnostics;
  for (const std::string& name : names) {
    std::ifstream file{name, std::ios::binary};
    if (!file) {
      fmt::print(stderr, "{}: cannot be opened\n", name);
      return 3;
    }
    texts.emplace_back(std::istreambuf_iterator<char>{file}, std::istreambuf_iterator<char>{});
  }
  std::vector<rules::RuleFile> files;
  for (std::size_t i = 0; i < names.size(); ++i) files.push_back({names[i], texts[i]});

  const rules::PestTable table = rules::load(files, diagnostics);
  for (const Diagnostic& diagnostic : diagnostics) fmt::print("{}\n", to_text(diagnostic));
  fmt::print("{} pests, {} companions, {} sources, {} cautions, {} faults\n", table.pests.size(),
             table.companions.size(), table.sources.size(), table.cautions.size(), diagnostics.size());
  return diagnostics.empty() ? 0 : 1;
}

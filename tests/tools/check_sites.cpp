// Prints "ok" or "bad" for each sites file named on the command line, against the pests of tests/unit/sites.
// For tests/tools/sites_schema_agrees.py.
#include <budclock/sites/load.hpp>

#include <cstdio>
#include <fstream>
#include <iterator>
#include <string>

int main(int argc, char** argv) {
  using namespace budclock;
  rules::PestTable pests;
  pests.pests.resize(2);
  pests.pests[0].id = "other-psyllid";
  pests.pests[1].id = "test-psyllid";
  pests.pests[1].scientific_names = {"Psylla imaginaria"};
  for (int i = 1; i < argc; ++i) {
    std::ifstream file{argv[i], std::ios::binary};
    const std::string text{std::istreambuf_iterator<char>{file}, std::istreambuf_iterator<char>{}};
    Diagnostics diagnostics;
    sites::load_sites(text, argv[i], pests, diagnostics);
    std::puts(any_at_least(diagnostics, Severity::fault) ? "bad" : "ok");
  }
}

// The example log against the shipped pest table.
#include <budclock/journal/log.hpp>
#include <budclock/rules/load.hpp>
#include <budclock/sites/load.hpp>

#include <catch2/catch.hpp>
#include <fstream>
#include <iterator>

using namespace budclock;

TEST_CASE("the example log draws no complaint, and its gate lacks only the nymphs") {
  const auto read = [](const std::string& name) {
    std::ifstream file{std::string{BUDCLOCK_SOURCE_DIR} + "/examples/sites/" + name, std::ios::binary};
    return std::string{std::istreambuf_iterator<char>{file}, std::istreambuf_iterator<char>{}};
  };
  Diagnostics diagnostics;
  const rules::PestTable pests = rules::load(rules::shipped_files(), diagnostics);
  std::vector<std::string> names;
  for (const auto& site : sites::load_sites(read("sites.json"), "sites.json", pests, diagnostics).sites) {
    names.push_back(site.name);
  }
  const Day today = *make_day(2012, 4, 10);
  const auto log = journal::read_log(read("scouting-log.csv"), "scouting-log.csv", {pests, names, today}, diagnostics);
  for (const auto& diagnostic : diagnostics) FAIL_CHECK(to_text(diagnostic));
  CHECK(log.size() == 4);
  const rules::Pest& boxwood = *pests.find_pest("boxwood-psyllid");
  const rules::Gate gate{{"open-buds", "nymphs"}, {"cupping", "bloom"}};
  const auto state = journal::gate_state(boxwood, gate, log, "Mill Lane", today);
  for (const auto& demand : state.demands) {
    INFO(demand.observation->id);
    CHECK((demand.state == journal::DemandState::met) == (demand.observation->id != "nymphs"));
  }
}

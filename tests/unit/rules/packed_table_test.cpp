#include "../../../src/rules/packed_table.hpp"

#include <budclock/rules/load.hpp>


#include <catch2/catch.hpp>
#include <stdexcept>

using namespace budclock;
using namespace budclock::rules;

TEST_CASE("the shipped table, packed at build time, is what the shipped files hold") {
  Diagnostics faults;
  const PestTable loaded = load(shipped_files(), faults);
  CHECK(faults.empty());
  CHECK(pack(shipped_table()) == pack(loaded));
  REQUIRE(shipped_table().pests.size() == loaded.pests.size());
  CHECK(shipped_table().pests.back().windows.back().reason == loaded.pests.back().windows.back().reason);
}

TEST_CASE("own files on top of the packed table give what all files give together") {
  Diagnostics faults;
  std::vector<RuleFile> own;
  const std::vector<RuleFile> shipped = shipped_files();
  for (const RuleFile& file : shipped) {
    if (file.name.find("boxwood") != std::string_view::npos) own.push_back(file);
  }
  REQUIRE(own.size() == 1);
  std::string changed{own.front().text};
  changed.replace(changed.find("boxwood psyllid"), 15, "hedge psyllid");
  own.front().text = changed;
  std::vector<RuleFile> all = shipped;
  all.push_back(own.front());
  const PestTable on_top = load(own, faults, shipped_table());
  CHECK(faults.empty());
  CHECK(pack(on_top) == pack(load(all, faults)));
  CHECK_FALSE(pack(on_top) == pack(shipped_table()));
}

TEST_CASE("packed bytes that break off are refused") {
  const std::string bytes = pack(shipped_table());
  CHECK_THROWS_AS(unpack(std::string_view{bytes}.substr(0, bytes.size() - 1)), std::out_of_range);
}

// The example sites, in both forms, against the shipped pest table.
#include <budclock/rules/load.hpp>
#include <budclock/sites/load.hpp>
#include <budclock/sites/pest_names.hpp>

#include <catch2/catch.hpp>
#include <filesystem>
#include <fstream>
#include <iterator>

using namespace budclock;
using namespace budclock::sites;

namespace {

const std::string k_folder = std::string{BUDCLOCK_SOURCE_DIR} + "/examples/sites/";

SiteList load(const std::string& name, const rules::PestTable& pests) {
  std::ifstream file{k_folder + name, std::ios::binary};
  const std::string text{std::istreambuf_iterator<char>{file}, std::istreambuf_iterator<char>{}};
  Diagnostics diagnostics;
  SiteList list = load_sites(text, name, pests, diagnostics);
  for (const auto& diagnostic : diagnostics) FAIL_CHECK(to_text(diagnostic));
  return list;
}

}  // namespace

TEST_CASE("the example sites draw no complaint, have weather and pests, and are the same in JSON and CSV") {
  Diagnostics diagnostics;
  const rules::PestTable pests = rules::load(rules::shipped_files(), diagnostics);
  const auto json = load("sites.json", pests).sites;
  const auto csv = load("sites.csv", pests).sites;
  REQUIRE(json.size() == 8);
  REQUIRE(csv.size() == 8);
  for (std::size_t i = 0; i < json.size(); ++i) {
    INFO(json[i].name);
    CHECK(std::filesystem::exists(k_folder + json[i].weather.sources[0].files[0].text));
    CHECK(!pests_of(json[i], pests).empty());
    CHECK(pests_of(json[i], pests).size() < pests.pests.size());
    CHECK(csv[i].name == json[i].name);
    CHECK(csv[i].latitude == json[i].latitude);
    CHECK(csv[i].longitude == json[i].longitude);
    CHECK(csv[i].elevation_m == json[i].elevation_m);
    CHECK(csv[i].weather == json[i].weather);
    CHECK(csv[i].plants == json[i].plants);
    CHECK(csv[i].watch == json[i].watch);
    CHECK(csv[i].mute == json[i].mute);
    CHECK(csv[i].contact == json[i].contact);
    CHECK(csv[i].safety == json[i].safety);
  }
}

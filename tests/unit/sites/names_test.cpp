#include <budclock/rules/load.hpp>
#include <budclock/sites/file_name.hpp>
#include <budclock/sites/pest_names.hpp>

#include "site_files.hpp"

#include <map>

using namespace budclock;
using namespace budclock::sites;
using Texts = std::vector<std::string>;

namespace {

Texts ids(const std::vector<const rules::Pest*>& pests) {
  Texts all;
  for (const auto* pest : pests) all.push_back(pest->id);
  return all;
}

Texts on(const std::string& plant) {
  const auto table = site_files::pests();
  return ids(pests_on(table, plant));
}

}  // namespace

TEST_CASE("pests are named by any of their names") {
  const auto table = site_files::pests();
  CHECK(ids(pests_named(table, "Test-Psyllid")) == Texts{"test-psyllid"});
  CHECK(ids(pests_named(table, "psylla imaginaria")) == Texts{"test-psyllid"});
  CHECK(ids(pests_named(table, "psyllid")) == Texts{});
  CHECK(ids(pests_named(table, "")) == Texts{});
}

TEST_CASE("pests live on plants as people name them") {
  CHECK(on("Testwood hedge by the drive") == Texts{"test-psyllid"});
  CHECK(on("testwoods") == Texts{"test-psyllid"});
  CHECK(on("Arbor ficta 'Nana'") == Texts{"test-psyllid"});
  CHECK(on("fir") == Texts{"fir-adelgid"});
  CHECK(on("Fraser firs") == Texts{"fir-adelgid"});
  CHECK(on("Norway spruce") == Texts{"gall-adelgid"});
  CHECK(on("pine") == Texts{"other-psyllid"});
  CHECK(on("red pine") == Texts{});
  CHECK(on("oak") == Texts{});
  CHECK(on("firethorn") == Texts{});
  CHECK(on("") == Texts{});
}

TEST_CASE("a Douglas-fir is no fir") {
  CHECK(on("Douglas-fir") == Texts{"gall-adelgid"});
  CHECK(on("Douglas firs, two") == Texts{"gall-adelgid"});
}

TEST_CASE("the pests of a site are those of its plants and its watch list without the muted") {
  const auto table = site_files::pests();
  Site site;
  CHECK(pests_of(site, table).size() == 4);
  site.mute = {"fir-adelgid"};
  CHECK(ids(pests_of(site, table)) == Texts{"gall-adelgid", "other-psyllid", "test-psyllid"});
  site.plants = {"fir", "spruce"};
  CHECK(ids(pests_of(site, table)) == Texts{"gall-adelgid"});
  site.watch = {"test-psyllid"};
  CHECK(ids(pests_of(site, table)) == Texts{"gall-adelgid", "test-psyllid"});
}

TEST_CASE("the hosts of a pest that grow at a site are told by its plants, unless the pest is watched") {
  const auto table = site_files::pests();
  const auto hosts = [&](Texts plants, Texts watch) {
    Site site;
    site.plants = std::move(plants);
    site.watch = std::move(watch);
    auto all = hosts_at(site, table);
    return all["gall-adelgid"];
  };
  CHECK(hosts({"blue spruce", "testwood"}, {}) == Texts{"spruce"});
  CHECK(hosts({"Douglas firs"}, {}) == Texts{"Douglas-fir"});
  CHECK(hosts({"Norway spruce", "Douglas-fir"}, {}) == Texts{"spruce", "Douglas-fir"});
  CHECK(hosts({"testwood"}, {}) == Texts{});
  CHECK(hosts({"blue spruce"}, {"gall-adelgid"}) == Texts{});
}

TEST_CASE("file names are plain, and different for different names") {
  CHECK(safe_file_name("Mill Lane") == "mill_lane");
  CHECK(safe_file_name("14 Elm-Court") == "14_elm-court");
  CHECK(safe_file_name("mill_lane") == "milllane.58efa5dc448ff38e");
  CHECK(safe_file_name("../../etc/passwd") == "etcpasswd.2bef2c0bbbdefdfa");
  CHECK(safe_file_name("") == "site_.cbf29ce484222325");

  const std::vector<std::string> names{"Mill Lane",
                                       "mill_lane",
                                       "milllane",
                                       "Mill/Lane",
                                       "Mill\\Lane",
                                       "Mill\"Lane",
                                       "con",
                                       "COM1",
                                       "com10",
                                       "-rf",
                                       "rf",
                                       "..",
                                       ".",
                                       "\xFF\xFE",
                                       "M\xC3\xBCller",
                                       "Mller",
                                       "a\nb",
                                       "\x1B[2J",
                                       "site_",
                                       std::string(300, 'x'),
                                       std::string(301, 'x'),
                                       std::string("a\0b", 3)};
  std::map<std::string, std::string> seen;
  for (const std::string& name : names) {
    const std::string safe = safe_file_name(name);
    INFO(name);
    CHECK(seen.emplace(safe, name).second);
    CHECK(safe.size() <= 82);
    CHECK(safe.find_first_not_of("abcdefghijklmnopqrstuvwxyz0123456789_-.") == std::string::npos);
    CHECK(safe.front() != '-');
    CHECK(safe.front() != '.');
    CHECK(safe.substr(0, safe.find('.')) != "con");
  }
}

TEST_CASE("a misspelt host is found among the words of a plant's name") {
  const auto table = site_files::pests();
  CHECK(misspelt_host(table, "testwod") == "testwood");
  CHECK(misspelt_host(table, "testwod hedge") == "testwood");
  CHECK(misspelt_host(table, "two Tsetwoods by the gate") == "testwood");
  CHECK(misspelt_host(table, "Norway spuce") == "spruce");
  CHECK(misspelt_host(table, "three Fraser frs") == "Fraser fir");
  CHECK(misspelt_host(table, "easter white pine") == "eastern white pine");
  CHECK(misspelt_host(table, "testwood hedge") == "");
  CHECK(misspelt_host(table, "mapel") == "");
  CHECK(misspelt_host(table, "") == "");
}

TEST_CASE("no common plant of landscapes is taken for a misspelt host of the pests that ship") {
  const auto table = rules::shipped_table();
  CHECK(misspelt_host(table, "boxwod hedge") == "boxwood");
  CHECK(misspelt_host(table, "Colorado blue spuce") == "blue spruce");
  CHECK(misspelt_host(table, "hemlok") == "hemlock");
  for (const char* plant : {"maple",
                            "red maple",
                            "Norway maple",
                            "boxelder",
                            "oak",
                            "pin oak",
                            "white oak",
                            "willow oak",
                            "yew",
                            "taxus",
                            "arborvitae",
                            "dogwood",
                            "flowering dogwood",
                            "redbud",
                            "spirea",
                            "lilac",
                            "azalea",
                            "rhododendron",
                            "mountain laurel",
                            "pieris",
                            "holly",
                            "inkberry",
                            "winterberry",
                            "hydrangea",
                            "viburnum",
                            "burning bush",
                            "barberry",
                            "privet",
                            "forsythia",
                            "weigela",
                            "crape myrtle",
                            "crabapple",
                            "apple",
                            "pear",
                            "cherry",
                            "plum",
                            "peach",
                            "hawthorn",
                            "serviceberry",
                            "birch",
                            "river birch",
                            "beech",
                            "elm",
                            "ash",
                            "linden",
                            "basswood",
                            "sycamore",
                            "sweetgum",
                            "black gum",
                            "tulip tree",
                            "magnolia",
                            "ginkgo",
                            "honeylocust",
                            "juniper",
                            "eastern redcedar",
                            "false cypress",
                            "larch",
                            "Scots pine",
                            "red pine",
                            "pachysandra",
                            "Japanese spurge",
                            "periwinkle",
                            "ivy",
                            "hosta",
                            "daylily",
                            "euonymus",
                            "cotoneaster",
                            "nandina",
                            "rose of Sharon",
                            "rose",
                            "blueberry",
                            "raspberry",
                            "blackberry",
                            "bayberry",
                            "wisteria",
                            "clematis",
                            "abelia",
                            "caryopteris",
                            "heather",
                            "hellebore",
                            "buttonbush",
                            "bottlebrush buckeye",
                            "horse chestnut",
                            "hazel",
                            "hornbeam",
                            "walnut"}) {
    INFO(plant);
    CHECK(misspelt_host(table, plant).empty());
  }
}

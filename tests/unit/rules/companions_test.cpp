#include "rule_files.hpp"

#include <set>

using namespace budclock;
using namespace budclock::rules;
using rule_files::changed;
using rule_files::Loaded;
using rule_files::read;

namespace {

using Texts = std::vector<std::string>;

Loaded load_companions(const std::string& text) {
  Loaded loaded;
  loaded.table = load({{"companions/test.json", text}, {"sources.json", read("sources.json")}}, loaded.diagnostics);
  return loaded;
}

/// What is said of the companions with `from` replaced by `to`; the file must then contribute nothing.
Texts said_after(const std::string& from, const std::string& to) {
  const Loaded loaded = load_companions(changed(read("test-companions.json"), from, to));
  CHECK(loaded.table.companions.empty());
  return loaded.texts();
}

}  // namespace

TEST_CASE("companions become plain values, each event with the count it was made with") {
  const Loaded loaded = load_companions(read("test-companions.json"));
  CHECK(loaded.texts() == Texts{});
  REQUIRE(loaded.table.companions.size() == 2);
  CHECK(loaded.table.pests.empty());
  CHECK(loaded.table.companions.at(0).id == "test-maple");  // by name
  const Companion* scale = loaded.table.find_companion("test-scale");
  REQUIRE(scale);
  CHECK(scale->kind == CompanionKind::pest);
  CHECK(scale->scientific_name.empty());
  const CompanionEvent& high = scale->events.at(1);
  CHECK(high.says == "crawlers, high end");
  CHECK(high.cue.printed == "1,448");
  CHECK(high.cue.sum == DegreeDays::in(TemperatureUnit::fahrenheit, 1448));
  CHECK(high.cue.meaning == Meaning::range_high);
  CHECK(high.count.lower == Temperature::celsius(10));
  CHECK(high.count.start.assumed);
  CHECK(iso(high.count.start.value) == "03-01");
  CHECK(high.citation.region == "New York");
  const Companion& maple = *loaded.table.find_companion("test-maple");
  CHECK(maple.kind == CompanionKind::indicator_plant);
  CHECK(maple.events.at(0).citation.grade == Grade::quoted);
  CHECK(loaded.table.find_companion("nothing") == nullptr);
}

TEST_CASE("a later companion file replaces companions of the same id") {
  Loaded loaded;
  const std::string first = read("test-companions.json");
  const std::string second = changed(first, "\"printed\": \"44\"", "\"printed\": \"45\"");
  const std::string sources = read("sources.json");
  loaded.table = load({{"a.json", first}, {"b.json", second}, {"sources.json", sources}}, loaded.diagnostics);
  CHECK(loaded.texts() == Texts{});
  CHECK(loaded.table.companions.size() == 2);
  CHECK(loaded.table.find_companion("test-maple")->events.at(0).cue.printed == "45");
}

TEST_CASE("a companion's figure needs a source, a count, and no dose beside it") {
  CHECK(said_after("\"source\": \"first-2001\"", "\"source\": \"frist-2001\"") ==
        Texts{"companions/test.json:12:32: there is no source \"frist-2001\" at "
              "/companions/0/events/0/citation/source: did you mean \"first-2001\"?"});
  CHECK(said_after("{\"source\": \"first-2001\", \"region\": \"New York\"}", "{\"grade\": \"common practice\"}") ==
        Texts{"companions/test.json:12:21: a figure stands on common practice at /companions/0/events/0/citation: "
              "name the source it is printed in, or remove the figure"});
  CHECK(said_after("\"count\": \"plain\"", "\"count\": \"plan\"") ==
        Texts{"companions/test.json:11:34: there is no count \"plan\" at "
              "/companions/0/events/0/degree_days/count: did you mean \"plain\"?"});
  CHECK(said_after("crawlers, low end", "crawlers, 2 % oil") ==
        Texts{"companions/test.json:10:39: \"2 %\" reads as a dose at /companions/0/events/0/says: leave amounts to "
              "the product's label"});
}

TEST_CASE("a companion's range has a low end and then a high end") {
  const Texts refused{
      "companions/test.json:8:5: the ranges of count \"plain\" do not have a low and then a high end each at "
      "/companions/0: write each \"range low\" before its \"range high\", and correct the figures"};
  CHECK(said_after("\"298\"", "\"2980\"") == refused);
  CHECK(said_after("range high", "unspecified") == refused);
}

TEST_CASE("ids, kinds and keys of companions are checked") {
  CHECK(said_after("\"id\": \"test-maple\"", "\"id\": \"test-scale\"") ==
        Texts{"companions/test.json:17:12: the id \"test-scale\" stands twice at /companions/1/id: give each its own"});
  CHECK(said_after("indicator plant", "indicatorplant") ==
        Texts{"companions/test.json:17:90: \"indicatorplant\" is not known here at /companions/1/kind: did you mean "
              "\"indicator plant\"?"});
  CHECK(said_after("\"id\": \"crawlers-high\"", "\"id\": \"crawlers-low\"") ==
        Texts{"companions/test.json:13:15: the id \"crawlers-low\" stands twice at /companions/0/events/1/id: give "
              "each its own"});
  CHECK(said_after("\"kind\": \"pest\"", "\"kind\": \"pest\", \"windows\": []").size() == 1);
}

TEST_CASE("the shipped companions load, apart from the pests") {
  Loaded loaded;
  loaded.table = load(shipped_files(), loaded.diagnostics);
  CHECK(loaded.texts() == Texts{});
  CHECK(loaded.table.pests.size() == 13);
  std::size_t plants = 0;
  std::size_t events = 0;
  for (const Companion& companion : loaded.table.companions) {
    CHECK(loaded.table.find_pest(companion.id) == nullptr);
    plants += companion.kind == CompanionKind::indicator_plant ? 1 : 0;
    events += companion.events.size();
  }
  CHECK(loaded.table.companions.size() == 23);
  CHECK(plants == 12);
  CHECK(events == 78);
}

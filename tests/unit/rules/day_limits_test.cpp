// The file of limits: what is shipped is sound, and every fault has its place.
#include <budclock/rules/load.hpp>

#include <catch2/catch.hpp>

using namespace budclock;
using namespace budclock::rules;

namespace {

struct Loaded {
  std::vector<DayLimit> limits;
  std::vector<std::string> said;
};

Loaded load_text(const std::string& limits) {
  const std::string text = "{\"schema\": \"budclock/day-limits/1\", \"limits\": [\n" + limits + "]}";
  Diagnostics found;
  Loaded result{load({{"own.json", text}}, found).day_limits, {}};
  for (const Diagnostic& entry : found) result.said.push_back(to_text(entry));
  return result;
}

}  // namespace

TEST_CASE("every shipped limit is sound, and one without a source says so") {
  Diagnostics found;
  const PestTable table = load(shipped_files(), found);
  const auto& limits = table.day_limits;
  CHECK(found.empty());
  REQUIRE(limits.size() == 12);
  for (const DayLimit& limit : limits) {
    INFO(limit.id);
    CHECK(limit.citation.source.empty() == (limit.citation.grade == Grade::common_practice));
    CHECK(is_of_site(limit.measure) == !values_of(limit.measure));
  }
}

TEST_CASE("a limit with a fault is named by its place, and its file contributes nothing") {
  const Loaded loaded = load_text(R"({"id": "a", "actions": ["oil"], "measure": "wind mph", "is": "over", "value": 5,
 "effect": "flags", "text": "windy", "citation": {"grade": "common practice"}},
{"id": "b", "actions": ["oil"], "measure": "wind mph", "is": "above", "value": 5,
 "effect": "flags", "text": "windy", "citation": {"grade": "common practice"}}
)");
  CHECK(loaded.limits.empty());
  REQUIRE(loaded.said.size() == 1);
  CHECK(loaded.said[0].find("own.json:2:62: \"over\" is not known here at /limits/0/is") == 0);
}

TEST_CASE("a limit needs a source or says that it is common practice") {
  const Loaded loaded = load_text(
      R"({"id": "a", "actions": ["oil"], "measure": "wind mph", "is": "above", "value": 5, "effect": "flags", "text": "w", "citation": {}})");
  CHECK(loaded.limits.empty());
  REQUIRE(loaded.said.size() == 1);
  CHECK(loaded.said[0].find("no source is named at /limits/0/citation") != std::string::npos);
}

TEST_CASE("a firm's own limit replaces value and effect, and is told to be its own") {
  Diagnostics found;
  const PestTable table = load(shipped_files(), found);
  const auto limits = with_own(table.day_limits, {{"wind", 8, {}}, {"calm", {}, Effect::rules_out}});
  for (const DayLimit& limit : limits) {
    CHECK(limit.own == (limit.id == "wind" || limit.id == "calm"));
    if (limit.id == "wind") CHECK(limit.text == "wind above 8 mph");
    if (limit.id == "wind") CHECK(limit.value == 8);
    if (limit.id == "calm") CHECK(limit.effect == Effect::rules_out);
  }
}

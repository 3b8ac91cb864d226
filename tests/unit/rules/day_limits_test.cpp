// The file of limits: what is shipped is sound, and every fault has its place.
#include <budclock/rules/day_limits.hpp>

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
  Loaded result{load_day_limits({{"own.json", text}}, {}, found), {}};
  for (const Diagnostic& entry : found) result.said.push_back(to_text(entry));
  return result;
}

}  // namespace

TEST_CASE("every shipped limit is sound, and one without a source says so") {
  Diagnostics found;
  const PestTable table = load(shipped_files(), found);
  const auto limits = load_day_limits(shipped_files(), table, found);
  CHECK(found.empty());
  REQUIRE(limits.size() == 12);
  for (const DayLimit& limit : limits) {
    INFO(limit.id);
    CHECK(limit.citation.source.empty() == (limit.citation.grade == Grade::common_practice));
    CHECK((limit.measure == Measure::not_in_forecast) == (limit.effect == Effect::not_known));
  }
}

TEST_CASE("a limit with a fault is named by its place and left out, the others stand") {
  const Loaded loaded = load_text(R"({"id": "a", "actions": ["oil"], "measure": "wind mph", "is": "over", "value": 5,
 "effect": "flags", "text": "windy", "citation": {"grade": "common practice"}},
{"id": "b", "actions": ["oil"], "measure": "wind mph", "is": "above", "value": 5,
 "effect": "flags", "text": "windy", "citation": {"grade": "common practice"}}
)");
  REQUIRE(loaded.limits.size() == 1);
  CHECK(loaded.limits[0].id == "b");
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

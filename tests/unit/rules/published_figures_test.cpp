// Every figure of the shipped table stands in tests/data/rules/published_figures.csv beside what its source prints.
// The rows were written from the sources' own statements, not from data/: a figure that either side lacks is a fault.
#include "rule_files.hpp"

#include <algorithm>
#include <fmt/format.h>
#include <sstream>
#include <variant>

using namespace budclock;
using namespace budclock::rules;

namespace {

using Lines = std::vector<std::string>;

constexpr const char* k_header = "of,source,unit,lower,upper,start,printed,what";

std::string unit_text(TemperatureUnit unit) { return unit == TemperatureUnit::fahrenheit ? "F" : "C"; }

/// The first seven cells of a row. A start that the source does not state must be marked as assumed in the table.
std::string row_of(const std::string& owner, const Citation& citation, const Count& count, const DegreeDayCue& cue) {
  const std::string start = count.start.assumed ? "not stated" : iso(count.start.value);
  return fmt::format("{},{},{},{},{},{},\"{}\"", owner, citation.source, unit_text(count.unit), count.lower_printed,
                     count.upper_printed, start, cue.printed);
}

/// The degree-day figure a cue holds, if it holds one.
const DegreeDayCue* figure_in(const Cue& cue) {
  if (const auto* plain = std::get_if<DegreeDayCue>(&cue)) return plain;
  const auto* after = std::get_if<AfterStageCue>(&cue);
  if (after != nullptr && after->degree_days) return &*after->degree_days;
  const auto* plant = std::get_if<PlantCue>(&cue);
  return plant != nullptr && plant->degree_days ? &*plant->degree_days : nullptr;
}

Lines figures_of(const Pest& pest) {
  Lines rows;
  for (const Stage& stage : pest.stages) {
    for (const auto* list : {&stage.begins, &stage.ends}) {
      for (const Trigger& trigger : *list) {
        if (const DegreeDayCue* cue = figure_in(trigger.cue)) {
          rows.push_back(row_of(pest.id, trigger.citation, *find_count(pest, cue->count), *cue));
        } else if (const auto* soil = std::get_if<SoilTemperatureCue>(&trigger.cue)) {
          const bool fahrenheit = Temperature::fahrenheit(std::stod(soil->printed)) == soil->value;
          rows.push_back(fmt::format("{},{},{},,,,\"{}\"", pest.id, trigger.citation.source, fahrenheit ? "F" : "C",
                                     soil->printed));
        }
      }
    }
  }
  return rows;
}

Lines shipped_figures() {
  Diagnostics diagnostics;
  const PestTable table = load(shipped_files(), diagnostics);
  REQUIRE(diagnostics.empty());
  Lines rows;
  for (const Pest& pest : table.pests) {
    const Lines figures = figures_of(pest);
    rows.insert(rows.end(), figures.begin(), figures.end());
  }
  for (const Companion& companion : table.companions) {
    for (const CompanionEvent& event : companion.events) {
      rows.push_back(row_of(companion.id, event.citation, event.count, event.cue));
    }
  }
  std::sort(rows.begin(), rows.end());
  return rows;
}

/// The rows as printed by their sources, with the printed value always quoted and without the last cell.
Lines published_figures() {
  std::istringstream in{rule_files::read("published_figures.csv")};
  std::string line;
  REQUIRE(std::getline(in, line));
  REQUIRE(line == k_header);
  Lines rows;
  while (std::getline(in, line)) {
    std::size_t at = 0;
    for (int comma = 0; comma < 6; ++comma) at = line.find(',', at) + 1;
    const bool quoted = line[at] == '"';
    const std::size_t end = line.find(quoted ? "\"," : ",", at + 1);
    const std::string printed = line.substr(at, end - at) + (quoted ? "\"" : "");
    rows.push_back(line.substr(0, at) + (quoted ? printed : "\"" + printed + "\""));
  }
  std::sort(rows.begin(), rows.end());
  return rows;
}

Lines without(const Lines& rows, const Lines& others) {
  Lines left;
  std::set_difference(rows.begin(), rows.end(), others.begin(), others.end(), std::back_inserter(left));
  return left;
}

}  // namespace

TEST_CASE("every shipped figure is as its source prints it, and every printed one is shipped") {
  const Lines shipped = shipped_figures();
  const Lines published = published_figures();
  CHECK(shipped.size() == 141);
  CHECK(without(shipped, published) == Lines{});
  CHECK(without(published, shipped) == Lines{});
}

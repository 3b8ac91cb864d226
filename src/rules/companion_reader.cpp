// Companions: other pests and indicator plants, known only by their degree-day figures.
#include <budclock/rules/names.hpp>

#include "reading.hpp"

#include <algorithm>
#include <fmt/format.h>
#include <map>

namespace budclock::rules {
namespace {

using Kind = JsonNode::Kind;

CompanionEvent read_event(const JsonNode& node, const std::vector<std::string>& taken, const std::vector<Count>& counts,
                          const PestTable& known, Faults& faults) {
  ObjectReader reader{node, faults};
  CompanionEvent event;
  event.id = read_id(reader, taken);
  event.says = reader.text("says");
  if (const JsonNode* figure = reader.member("degree_days", Kind::object)) {
    event.cue = read_degree_days(*figure, counts, faults);
  }
  for (const Count& count : counts) {
    if (count.id == event.cue.count) event.count = count;
  }
  event.citation = read_citation(reader, known);
  reader.finish();
  const JsonNode* citation = node.find("citation");
  if (citation != nullptr && event.citation.source.empty()) {
    faults.add(*citation, "a figure stands on common practice",
               "name the source it is printed in, or remove the figure");
  }
  return event;
}

/// The low and high ends of one source's ranges belong together in their order.
void check_ranges(const JsonNode& node, const Companion& companion, Faults& faults) {
  struct Ends {
    std::vector<DegreeDays> low, high;
  };
  std::map<std::pair<std::string, std::string>, Ends> ranges;
  for (const CompanionEvent& event : companion.events) {
    Ends& ends = ranges[{event.cue.count, event.citation.source}];
    if (event.cue.meaning == Meaning::range_low) ends.low.push_back(event.cue.sum);
    if (event.cue.meaning == Meaning::range_high) ends.high.push_back(event.cue.sum);
  }
  for (const auto& [key, ends] : ranges) {
    bool in_order = ends.low.size() == ends.high.size();
    for (std::size_t i = 0; in_order && i < ends.low.size(); ++i) in_order = ends.low[i] <= ends.high[i];
    if (in_order) continue;
    faults.add(node, fmt::format("the ranges of count \"{}\" do not have a low and then a high end each", key.first),
               "write each \"range low\" before its \"range high\", and correct the figures");
  }
}

Companion read_companion(const JsonNode& node, const std::vector<std::string>& taken, const std::vector<Count>& counts,
                         const PestTable& known, Faults& faults) {
  ObjectReader reader{node, faults};
  const std::size_t faults_before = faults.count();
  Companion companion;
  companion.id = read_id(reader, taken);
  companion.name = reader.text("name");
  companion.scientific_name = reader.text("scientific_name", Presence::optional);
  companion.kind = reader.choice("kind", k_companion_kind_names).value_or(CompanionKind::pest);
  for (const JsonNode& item : reader.items("events")) {
    companion.events.push_back(read_event(item, ids_of(companion.events), counts, known, faults));
  }
  reader.finish();
  if (faults.count() == faults_before) check_ranges(node, companion, faults);
  return companion;
}

}  // namespace

std::vector<Companion> read_companions(const JsonNode& root, const PestTable& known, Faults& faults) {
  ObjectReader reader{root, faults};
  reader.text("schema");
  const std::vector<Count> counts = read_counts(reader, Presence::required);
  std::vector<Companion> companions;
  for (const JsonNode& node : reader.items("companions")) {
    companions.push_back(read_companion(node, ids_of(companions), counts, known, faults));
  }
  reader.finish();
  return companions;
}

}  // namespace budclock::rules

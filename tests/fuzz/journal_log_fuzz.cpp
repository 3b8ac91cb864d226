// Any bytes as a scouting log: no crash, no hang, and what comes out keeps its promises.
#include <budclock/core/utf8.hpp>
#include <budclock/journal/log.hpp>

#include "fuzz.hpp"

#include <algorithm>
#include <cstdlib>

using namespace budclock;

namespace {

void demand(bool held) {
  if (!held) std::abort();
}

rules::PestTable pests() {
  rules::Pest pest;
  pest.id = "test-psyllid";
  pest.name = "test psyllid";
  pest.stages.resize(2);
  pest.stages[0].id = "hatch";
  pest.stages[1].id = "adult";
  pest.stages[1].begins.resize(1);
  rules::AfterStageCue after;
  after.stage = "hatch";
  pest.stages[1].begins[0].cue = after;
  pest.observations = {{"nymphs", "", 7, {}}, {"cupping", "", {}, {}}};
  rules::PestTable table;
  table.pests = {pest};
  return table;
}

}  // namespace

int fuzz_one(const std::uint8_t* data, std::size_t size) {
  const std::string_view text{reinterpret_cast<const char*>(data), size};
  static const rules::PestTable table = pests();
  const Day today = *make_day(2014, 6, 30);
  Diagnostics diagnostics;
  const auto log = journal::read_log(text, "log", {table, {"Mill Lane", "Elm"}, today}, diagnostics);
  for (const Diagnostic& diagnostic : diagnostics) {
    demand(!diagnostic.message.empty() && !diagnostic.remedy.empty());
    demand(find_invalid_utf8(to_text(diagnostic)) == std::string_view::npos);
  }
  demand(log.empty() || !any_at_least(diagnostics, Severity::error));
  demand(std::is_sorted(log.begin(), log.end(), [](const auto& a, const auto& b) { return a.date < b.date; }));
  for (const journal::Sighting& row : log) {
    demand(row.date <= today && row.pest == "test-psyllid" && (row.site == "Elm" || row.site == "Mill Lane"));
    demand(!row.count || !row.count->of || row.count->found <= *row.count->of);
  }
  const rules::Gate gate{{"nymphs"}, {"cupping"}};
  const auto state = journal::gate_state(table.pests[0], gate, log, "Elm", today);
  demand(state.met() == state.met_until().has_value());
  const auto found = journal::stage_found(log, "Elm", "test-psyllid", "hatch", 2014, today);
  demand(!found || !found->last_not_found || *found->last_not_found < found->first);
  return 0;
}

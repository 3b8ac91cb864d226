// Any bytes as an action log: no crash, no hang, and what comes out keeps its promises.
#include <budclock/core/utf8.hpp>
#include <budclock/journal/action_log.hpp>
#include <budclock/weather/value_text.hpp>

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
  rules::PestTable table;
  table.pests = {pest};
  return table;
}

void demand_promises(const journal::ActionTaken& action, const journal::LogContext& context) {
  demand(action.date <= context.today && action.pest == "test-psyllid");
  demand(action.site == "Elm" || action.site == "Mill Lane");
  demand(action.action != rules::Action::look);
  for (const weather::DayValue& value : {action.tmin, action.tmax}) {
    demand(!has_value(value.origin) || (value.value >= weather::k_coldest && value.value <= weather::k_warmest));
  }
  // What was read can be recorded anew and says the same.
  Diagnostics faults;
  const auto again = journal::read_action(journal::row_of(action), context, faults);
  demand(again && faults.empty() && again->date == action.date && again->action == action.action);
  demand(again->tmin.origin == action.tmin.origin && again->tmax.origin == action.tmax.origin);
}

}  // namespace

int fuzz_one(const std::uint8_t* data, std::size_t size) {
  const std::string_view text{reinterpret_cast<const char*>(data), size};
  static const rules::PestTable table = pests();
  const journal::LogContext context{table, {"Mill Lane", "Elm"}, *make_day(2014, 6, 30)};
  Diagnostics diagnostics;
  const auto log = journal::read_actions(text, "log", context, diagnostics);
  for (const Diagnostic& diagnostic : diagnostics) {
    demand(!diagnostic.message.empty() && !diagnostic.remedy.empty());
    demand(find_invalid_utf8(to_text(diagnostic)) == std::string_view::npos);
  }
  demand(log.empty() || !any_at_least(diagnostics, Severity::error));
  demand(std::is_sorted(log.begin(), log.end(), [](const auto& a, const auto& b) { return a.date < b.date; }));
  for (const journal::ActionTaken& action : log) demand_promises(action, context);
  return 0;
}

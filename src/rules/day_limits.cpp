#include <budclock/rules/day_limits.hpp>

#include "reading.hpp"

namespace budclock::rules {
namespace {

constexpr std::string_view k_schema = "budclock/day-limits/1";

template <class E, std::size_t N>
using Names = std::array<document::NamedValue<E>, N>;

constexpr Names<Measure, 7> k_measures{{{"temperature F", Measure::temperature},
                                        {"humidity percent", Measure::humidity},
                                        {"wind mph", Measure::wind},
                                        {"wind mph near sunrise or sunset", Measure::calm},
                                        {"rain chance ahead percent", Measure::rain_ahead},
                                        {"rain chance before percent", Measure::rain_before},
                                        {"not in the forecast", Measure::not_in_forecast}}};
constexpr Names<Comparison, 4> k_comparisons{{{"below", Comparison::below},
                                              {"at most", Comparison::at_most},
                                              {"at least", Comparison::at_least},
                                              {"above", Comparison::above}}};
constexpr Names<Effect, 3> k_effects{
    {{"rules out", Effect::rules_out}, {"flags", Effect::flags}, {"not known", Effect::not_known}}};

DayLimit read_limit(const JsonNode& node, const PestTable& known, const std::vector<std::string>& taken,
                    Faults& faults) {
  constexpr int k_most_hours = 72;
  constexpr double k_most = 1000;
  ObjectReader reader{node, faults};
  DayLimit limit;
  limit.id = read_id(reader, taken);
  limit.actions = reader.choices("actions", k_day_action_names);
  limit.measure = reader.choice("measure", k_measures).value_or(Measure::not_in_forecast);
  limit.effect = reader.choice("effect", k_effects).value_or(Effect::not_known);
  limit.text = reader.text("text");
  limit.citation = read_citation(reader, known);
  if (limit.measure != Measure::not_in_forecast) {
    limit.comparison = reader.choice("is", k_comparisons).value_or(Comparison::above);
    limit.value = reader.number("value", -k_most, k_most).value_or(0);
  }
  if (limit.measure == Measure::calm || limit.measure == Measure::rain_ahead || limit.measure == Measure::rain_before) {
    limit.hours = reader.whole_number("hours", 1, k_most_hours).value_or(1);
  }
  reader.finish();
  return limit;
}

}  // namespace

std::vector<DayLimit> load_day_limits(const std::vector<RuleFile>& files, const PestTable& known,
                                      Diagnostics& diagnostics) {
  std::vector<DayLimit> limits;
  std::vector<std::string> taken;
  for (const RuleFile& file : files) {
    Diagnostics syntax;  // told by `load`, which reads the same files
    const auto root = document::parse_json(file.text, file.name, syntax);
    const JsonNode* const schema = root ? root->find("schema") : nullptr;
    if (schema == nullptr || schema->text != k_schema) continue;
    Faults faults{std::string{file.name}, diagnostics};
    ObjectReader reader{*root, faults};
    reader.text("schema");
    for (const JsonNode& node : reader.items("limits")) {
      const std::size_t before = faults.count();
      DayLimit limit = read_limit(node, known, taken, faults);
      taken.push_back(limit.id);
      if (faults.count() == before) limits.push_back(std::move(limit));
    }
    reader.finish();
  }
  return limits;
}

}  // namespace budclock::rules

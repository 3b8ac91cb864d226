#include <budclock/rules/day_limits.hpp>
#include <budclock/rules/names.hpp>

#include "reading.hpp"

#include <fmt/format.h>

namespace budclock::rules {
namespace {

template <class E, std::size_t N>
using Names = std::array<document::NamedValue<E>, N>;

constexpr Names<Measure, 8> k_measures{{{"temperature F", Measure::temperature},
                                        {"humidity percent", Measure::humidity},
                                        {"wind mph", Measure::wind},
                                        {"wind mph near sunrise or sunset", Measure::calm},
                                        {"rain chance ahead percent", Measure::rain_ahead},
                                        {"rain chance before percent", Measure::rain_before},
                                        {"soil of the site", Measure::soil},
                                        {"drought at the site", Measure::drought}}};
constexpr Names<Comparison, 4> k_comparisons{{{"below", Comparison::below},
                                              {"at most", Comparison::at_most},
                                              {"at least", Comparison::at_least},
                                              {"above", Comparison::above}}};
constexpr Names<Effect, 2> k_effects{{{"rules out", Effect::rules_out}, {"flags", Effect::flags}}};

DayLimit read_limit(const JsonNode& node, const PestTable& known, const std::vector<std::string>& taken,
                    Faults& faults) {
  constexpr int k_most_hours = 72;
  constexpr double k_most = 1000;
  ObjectReader reader{node, faults};
  DayLimit limit;
  limit.id = read_id(reader, taken);
  limit.actions = reader.choices("actions", k_day_action_names);
  limit.measure = reader.choice("measure", k_measures).value_or(Measure::drought);
  limit.effect = reader.choice("effect", k_effects).value_or(Effect::rules_out);
  limit.text = reader.text("text");
  limit.citation = read_citation(reader, known);
  if (!is_of_site(limit.measure)) {
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

std::vector<DayLimit> read_day_limits(const JsonNode& root, const PestTable& known, Faults& faults) {
  std::vector<DayLimit> limits;
  std::vector<std::string> taken;
  ObjectReader reader{root, faults};
  reader.text("schema");
  for (const JsonNode& node : reader.items("limits")) {
    limits.push_back(read_limit(node, known, taken, faults));
    taken.push_back(limits.back().id);
  }
  reader.finish();
  return limits;
}

std::optional<std::pair<double, double>> values_of(Measure measure) {
  // No thermometer and no gust on Earth has read more (from memory); a slip of the pen does.
  constexpr std::pair<double, double> k_fahrenheit{-130, 135};
  constexpr std::pair<double, double> k_mph{0, 300};
  constexpr std::pair<double, double> k_percent{0, 100};
  switch (measure) {
    case Measure::temperature:
      return k_fahrenheit;
    case Measure::wind:
    case Measure::calm:
      return k_mph;
    case Measure::humidity:
    case Measure::rain_ahead:
    case Measure::rain_before:
      return k_percent;
    case Measure::soil:
    case Measure::drought:
      break;
  }
  return std::nullopt;
}

namespace {

/// "wind above 8 mph": what the shipped words say holds for the shipped value only.
std::string words_of(const DayLimit& limit) {
  const std::string_view is = name_in(k_comparisons, limit.comparison);
  switch (limit.measure) {
    case Measure::temperature:
      return fmt::format("temperature {} {:g} F", is, limit.value);
    case Measure::humidity:
      return fmt::format("humidity {} {:g} percent", is, limit.value);
    case Measure::wind:
      return fmt::format("wind {} {:g} mph", is, limit.value);
    case Measure::calm:
      return fmt::format("wind {} {:g} mph within {} h of sunrise or sunset", is, limit.value, limit.hours);
    case Measure::rain_ahead:
      return fmt::format("chance of rain {} {:g} percent within {} h", is, limit.value, limit.hours);
    case Measure::rain_before:
      return fmt::format("chance of rain {} {:g} percent in the {} h before", is, limit.value, limit.hours);
    case Measure::soil:
    case Measure::drought:
      break;
  }
  return limit.text;
}

}  // namespace

std::vector<DayLimit> with_own(std::vector<DayLimit> limits, const std::vector<OwnLimit>& own) {
  for (const OwnLimit& entry : own) {
    for (DayLimit& limit : limits) {
      if (limit.id != entry.id) continue;
      if (entry.value) limit.value = *entry.value;
      if (entry.effect) limit.effect = *entry.effect;
      if (entry.value) limit.text = words_of(limit);
      limit.own = true;
    }
  }
  return limits;
}

std::optional<DayAction> day_action_of(Action action) {
  switch (action) {
    case Action::contact:
    case Action::soap:
    case Action::foliar_systemic:
      return DayAction::contact;
    case Action::oil:
      return DayAction::oil;
    case Action::soil_systemic:
      return DayAction::systemic;
    default:
      return std::nullopt;
  }
}

}  // namespace budclock::rules

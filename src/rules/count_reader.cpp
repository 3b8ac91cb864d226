#include <budclock/rules/names.hpp>

#include "reading.hpp"

#include <algorithm>
#include <fmt/format.h>

namespace budclock::rules {
namespace {

using degree_day::Cutoff;
using degree_day::Method;

constexpr double k_most_degree_days = 20'000;

std::optional<Method> method_of(const JsonNode& node, Faults& faults) {
  std::vector<document::NamedValue<Method>> names;
  for (const Method method : {Method::average, Method::average_clipped, Method::single_sine, Method::double_sine,
                              Method::single_triangle, Method::double_triangle}) {
    names.emplace_back(degree_day::name(method), method);
  }
  return document::choice_of<Method>(node, names, faults);
}

std::optional<Cutoff> cutoff_of(const JsonNode& node, Faults& faults) {
  std::vector<document::NamedValue<Cutoff>> names;
  for (const Cutoff cutoff : {Cutoff::none, Cutoff::horizontal, Cutoff::vertical, Cutoff::intermediate}) {
    names.emplace_back(degree_day::name(cutoff), cutoff);
  }
  return document::choice_of<Cutoff>(node, names, faults);
}

/// A part that is stated or assumed: {"value": ..., "assumed": true, "alternatives": [...], "note": "..."}.
template <class T>
Stated<T> read_stated(ObjectReader& count, std::string_view key,
                      std::optional<T> (*value_of)(const JsonNode&, Faults&)) {
  Stated<T> stated;
  const JsonNode* node = count.member(key, JsonNode::Kind::object);
  if (node == nullptr) return stated;
  ObjectReader reader{*node, count.faults()};
  if (const JsonNode* value = reader.member("value", JsonNode::Kind::string)) {
    stated.value = value_of(*value, count.faults()).value_or(T{});
  }
  stated.assumed = reader.flag("assumed");
  for (const JsonNode& item : reader.items("alternatives", Presence::optional)) {
    if (const auto other = value_of(item, count.faults())) stated.alternatives.push_back(*other);
  }
  stated.note = reader.text("note", Presence::optional);
  reader.finish();
  if (!stated.assumed && !stated.alternatives.empty()) {
    count.faults().add(*node->find("alternatives"), "alternatives stand beside a stated value",
                       "add \"assumed\": true, or remove them");
  }
  return stated;
}

/// Faults of the count as a whole; each alternative is tried with the other part as it stands.
void check_formula(const JsonNode& node, const Count& count, Faults& faults) {
  constexpr const char* k_remedy = "correct the thresholds, method or cutoff";
  if (const auto problem = degree_day::problem(formula(count))) {
    faults.add(node, *problem, k_remedy);
    return;
  }
  for (const Method method : count.method.alternatives) {
    const degree_day::Formula other{method, count.cutoff.value, count.lower, count.upper};
    if (const auto problem = degree_day::problem(other)) faults.add(*node.find("method"), *problem, k_remedy);
  }
  for (const Cutoff cutoff : count.cutoff.alternatives) {
    degree_day::Formula other{count.method.value, cutoff, count.lower, count.upper};
    if (cutoff == Cutoff::none) other.upper.reset();
    if (const auto problem = degree_day::problem(other)) faults.add(*node.find("cutoff"), *problem, k_remedy);
  }
}

Count read_count(const JsonNode& node, const std::vector<std::string>& taken, Faults& faults) {
  ObjectReader reader{node, faults};
  const std::size_t faults_before = faults.count();
  Count count;
  count.id = read_id(reader, taken);
  count.unit = read_unit(reader);
  count.lower = read_temperature(reader, "lower", count.unit, count.lower_printed).value_or(Temperature{});
  count.upper = read_temperature(reader, "upper", count.unit, count.upper_printed, Presence::optional);
  count.method = read_stated<Method>(reader, "method", method_of);
  count.cutoff = read_stated<Cutoff>(reader, "cutoff", cutoff_of);
  count.start = read_stated<MonthDay>(reader, "start", month_day_of);
  reader.finish();
  if (faults.count() == faults_before) check_formula(node, count, faults);
  return count;
}

}  // namespace

std::vector<Count> read_counts(ObjectReader& owner, Presence presence) {
  std::vector<Count> counts;
  for (const JsonNode& node : owner.items("counts", presence)) {
    counts.push_back(read_count(node, ids_of(counts), owner.faults()));
  }
  return counts;
}

DegreeDayCue read_degree_days(const JsonNode& node, const std::vector<Count>& counts, Faults& faults) {
  ObjectReader reader{node, faults};
  DegreeDayCue cue;
  cue.count = read_reference(reader, "count", "count", ids_of(counts));
  const Printed printed = read_printed(reader, "printed", 0, k_most_degree_days);
  cue.printed = printed.text;
  const auto is_named = [&](const Count& count) { return count.id == cue.count; };
  const auto count = std::find_if(counts.begin(), counts.end(), is_named);
  if (count != counts.end() && printed.value) cue.sum = DegreeDays::in(count->unit, *printed.value);
  cue.meaning = reader.choice("meaning", k_meaning_names).value_or(Meaning::unspecified);
  const JsonNode* scatter_node = node.find("scatter");
  const Printed scatter = read_printed(reader, "scatter", 0, k_most_degree_days, Presence::optional);
  if (count != counts.end() && scatter.value) cue.scatter = DegreeDays::in(count->unit, *scatter.value);
  if (cue.scatter && (*cue.scatter <= DegreeDays{} || *cue.scatter >= cue.sum)) {
    faults.add(*scatter_node, "a scatter lies between zero and the figure itself",
               "write the standard deviation as printed, or leave it out");
    cue.scatter.reset();
  }
  reader.finish();
  return cue;
}

}  // namespace budclock::rules

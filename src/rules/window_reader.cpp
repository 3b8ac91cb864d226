#include <budclock/rules/action.hpp>
#include <budclock/rules/names.hpp>

#include "reading.hpp"

#include <algorithm>
#include <fmt/format.h>

namespace budclock::rules {
namespace {

using Kind = JsonNode::Kind;

constexpr std::string_view k_label_caution = "label";

/// Which way an edge must lean. A window to act is only as wide as every source allows; a window to look, and one to
/// abstain, is as wide as any source asks.
Direction direction(WindowKind kind, bool opens) {
  const bool narrow = kind == WindowKind::act;
  return narrow == opens ? Direction::latest : Direction::earliest;
}

void check_trigger_use(const JsonNode& node, const std::string& id, Reading& reading) {
  const Trigger* trigger = find_trigger(reading.pest, id);
  if (trigger == nullptr || trigger->use == Use::date || trigger->use == Use::warning) return;
  reading.faults.add(node, fmt::format("the trigger \"{}\" is for \"{}\" and decides no edge", id, name(trigger->use)),
                     "name another trigger, or change its use");
}

void check_direction(const JsonNode& edge, Direction take, WindowKind kind, bool opens, Reading& reading) {
  const Direction wanted = direction(kind, opens);
  if (take == wanted) return;
  reading.faults.add(
      *edge.find("take"),
      fmt::format("a window to {} {} at the {} of its triggers", name(kind), opens ? "opens" : "closes", name(wanted)),
      fmt::format("write \"{}\"", name(wanted)));
}

Edge read_edge(ObjectReader& window, std::string_view key, std::optional<WindowKind> kind, Reading& reading) {
  Edge edge;
  const JsonNode* node = window.member(key, Kind::object);
  if (node == nullptr) return edge;
  ObjectReader reader{*node, reading.faults};
  const auto take = reader.choice("take", k_direction_names);
  edge.take = take.value_or(Direction::earliest);
  edge.triggers = read_references(reader, "triggers", "trigger", reading.trigger_ids, Presence::required);
  reader.finish();

  if (take && kind) check_direction(*node, *take, *kind, key == "opens", reading);
  const JsonNode* triggers = node->find("triggers");
  if (triggers == nullptr || triggers->kind != Kind::array) return edge;
  if (triggers->items.empty()) reading.faults.add(*triggers, "no trigger decides this edge", "name at least one");
  for (const JsonNode& item : triggers->items) check_trigger_use(item, item.text, reading);
  return edge;
}

Gate read_gate(ObjectReader& window, Reading& reading) {
  Gate gate;
  const JsonNode* node = window.member("gate", Kind::object, Presence::optional);
  if (node == nullptr) return gate;
  ObjectReader reader{*node, reading.faults};
  const std::vector<std::string> known = ids_of(reading.pest.observations);
  gate.seen = read_references(reader, "seen", "observation", known, Presence::optional);
  gate.absent = read_references(reader, "absent", "observation", known, Presence::optional);
  reader.finish();
  for (const std::string& id : gate.absent) {
    if (std::find(gate.seen.begin(), gate.seen.end(), id) == gate.seen.end()) continue;
    reading.faults.add(*node, fmt::format("\"{}\" must be both seen and absent", id), "remove one of them");
  }
  return gate;
}

/// What the kind of a window asks of its actions, gate and cautions.
void check_kind(const JsonNode& node, const Window& window, Reading& reading) {
  Faults& faults = reading.faults;
  const auto is_look = [](Action action) { return action == Action::look; };
  if (window.actions.empty()) faults.add(node, "the window names no action", "add one to \"actions\"");
  if (window.kind == WindowKind::look) {
    if (std::all_of(window.actions.begin(), window.actions.end(), is_look)) return;
    faults.add(*node.find("actions"), "a window to look offers another action", "make it a window to act, with a gate");
    return;
  }
  if (std::any_of(window.actions.begin(), window.actions.end(), is_look)) {
    faults.add(*node.find("actions"), fmt::format("a window to {} names \"look\"", name(window.kind)),
               "make looking a window of its own");
  }
  if (window.kind == WindowKind::abstain) return;
  if (window.gate.empty()) {
    faults.add(node, "a window to act has no gate", "add what a scout must have seen, or not found, to \"gate\"");
  }
  const auto& cautions = window.cautions;
  const bool labelled = std::find(cautions.begin(), cautions.end(), k_label_caution) != cautions.end();
  if (!labelled && std::any_of(window.actions.begin(), window.actions.end(), is_pesticide)) {
    faults.add(node, "a window for a pesticide lacks the caution \"label\"", "add it to \"cautions\"");
  }
}

std::vector<std::string> host_names(const Pest& pest) {
  std::vector<std::string> names;
  for (const Host& host : pest.hosts) names.push_back(host.name);
  return names;
}

Window read_window(const JsonNode& node, Reading& reading) {
  ObjectReader reader{node, reading.faults};
  const std::size_t faults_before = reading.faults.count();
  Window window;
  window.id = read_id(reader, ids_of(reading.pest.windows));
  window.name = reader.text("name");
  const auto kind = reader.choice("kind", k_window_kind_names);
  window.kind = kind.value_or(WindowKind::look);
  window.actions = reader.choices("actions", k_action_names);
  window.opens = read_edge(reader, "opens", kind, reading);
  window.closes = read_edge(reader, "closes", kind, reading);
  window.gate = read_gate(reader, reading);
  window.reason = reader.text("reason");
  window.find = reader.text("find", window.kind == WindowKind::look ? Presence::required : Presence::optional);
  window.cautions = read_references(reader, "cautions", "caution", caution_ids(reading.known), Presence::optional);
  window.stages = read_references(reader, "stages", "stage", reading.stage_ids, Presence::required);
  window.host = read_reference(reader, "host", "host", host_names(reading.pest), Presence::optional);
  window.citation = read_citation(reader, reading.known);
  reader.finish();
  if (reading.faults.count() == faults_before) check_kind(node, window, reading);
  return window;
}

}  // namespace

void read_windows(ObjectReader& pest, Reading& reading) {
  for (const JsonNode& node : pest.items("windows")) reading.pest.windows.push_back(read_window(node, reading));
}

}  // namespace budclock::rules

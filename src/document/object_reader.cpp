#include <budclock/core/nearest.hpp>
#include <budclock/document/object_reader.hpp>

#include <algorithm>
#include <cmath>
#include <fmt/format.h>

namespace budclock::document {
namespace {

using Kind = JsonNode::Kind;

const std::vector<JsonNode> k_no_items;

std::string_view kind_name(Kind kind) {
  switch (kind) {
    case Kind::null:
      return "null";
    case Kind::boolean:
      return "true or false";
    case Kind::number:
      return "a number";
    case Kind::string:
      return "a text";
    case Kind::array:
      return "a list";
    case Kind::object:
      break;
  }
  return "an object";
}

std::string kind_remedy(Kind kind) {
  switch (kind) {
    case Kind::null:
      return "write null";
    case Kind::boolean:
      return "write true or false, without quotes";
    case Kind::number:
      return "write a number, without quotes";
    case Kind::string:
      return "write a text in double quotes";
    case Kind::array:
      return "write a list in [ ]";
    case Kind::object:
      break;
  }
  return "write an object in { }";
}

}  // namespace

void Faults::add(const JsonNode& node, std::string_view message, std::string remedy) {
  add_at(node.line, node.column, node.pointer, message, std::move(remedy));
}

void Faults::add(const JsonNode::Member& member, std::string_view message, std::string remedy) {
  add_at(member.line, member.column, member.value.pointer, message, std::move(remedy));
}

void Faults::add_at(std::size_t line, std::size_t column, std::string_view pointer, std::string_view message,
                    std::string remedy) {
  ++count_;
  const std::string where = pointer.empty() ? "at the top" : fmt::format("at {}", pointer);
  diagnostics_.push_back(
      {Severity::error, {file_, line, column}, fmt::format("{} {}", message, where), std::move(remedy)});
}

std::string suggestion(std::string_view text, const std::vector<std::string_view>& candidates) {
  if (const auto near = nearest_name(text, candidates)) return fmt::format("did you mean \"{}\"?", *near);
  if (candidates.empty()) return "remove it; nothing may stand here";
  return fmt::format("write one of: {}", fmt::join(candidates, ", "));
}

bool expect(const JsonNode& node, Kind kind, Faults& faults) {
  if (node.kind == kind) return true;
  faults.add(node, fmt::format("{} stands where {} should", kind_name(node.kind), kind_name(kind)), kind_remedy(kind));
  return false;
}

std::string text_of(const JsonNode& node, Faults& faults) {
  if (!expect(node, Kind::string, faults)) return {};
  if (node.text.find_first_not_of(" \t\r\n") == std::string::npos) {
    faults.add(node, "the text is empty", "write something, or leave the key out");
    return {};
  }
  return node.text;
}

ObjectReader::ObjectReader(const JsonNode& node, Faults& faults)
    : node_{node}, faults_{faults}, is_object_{expect(node, Kind::object, faults)} {}

const JsonNode* ObjectReader::member(std::string_view key, Kind kind, Presence presence) {
  asked_.emplace_back(key);
  if (!is_object_) return nullptr;
  const JsonNode* found = node_.find(key);
  if (found == nullptr) {
    if (presence == Presence::required) faults_.add(node_, fmt::format("\"{}\" is missing", key), "add it");
    return nullptr;
  }
  return expect(*found, kind, faults_) ? found : nullptr;
}

std::string ObjectReader::text(std::string_view key, Presence presence) {
  const JsonNode* found = member(key, Kind::string, presence);
  return found ? text_of(*found, faults_) : std::string{};
}

std::optional<double> ObjectReader::number(std::string_view key, double low, double high, Presence presence) {
  const JsonNode* found = member(key, Kind::number, presence);
  if (found == nullptr) return std::nullopt;
  if (found->number < low || found->number > high) {
    faults_.add(*found, fmt::format("{} is out of range", found->text),
                fmt::format("write a number from {} to {}", low, high));
    return std::nullopt;
  }
  return found->number;
}

std::optional<int> ObjectReader::whole_number(std::string_view key, int low, int high, Presence presence) {
  const auto value = number(key, low, high, presence);
  if (!value) return std::nullopt;
  if (std::trunc(*value) != *value) {
    const JsonNode& found = *node_.find(key);
    faults_.add(found, fmt::format("{} is not a whole number", found.text), "write it without a fraction");
    return std::nullopt;
  }
  return static_cast<int>(*value);
}

bool ObjectReader::flag(std::string_view key) {
  const JsonNode* found = member(key, Kind::boolean, Presence::optional);
  return found != nullptr && found->boolean;
}

const std::vector<JsonNode>& ObjectReader::items(std::string_view key, Presence presence) {
  const JsonNode* found = member(key, Kind::array, presence);
  return found ? found->items : k_no_items;
}

std::vector<std::string> ObjectReader::texts(std::string_view key, Presence presence) {
  std::vector<std::string> values;
  for (const JsonNode& item : items(key, presence)) {
    std::string value = text_of(item, faults_);
    if (!value.empty()) values.push_back(std::move(value));
  }
  return values;
}

void ObjectReader::finish() {
  for (const JsonNode::Member& member : node_.members) {
    if (std::find(asked_.begin(), asked_.end(), member.key) != asked_.end()) continue;
    std::vector<std::string_view> absent;
    for (const std::string& key : asked_) {
      if (node_.find(key) == nullptr) absent.emplace_back(key);
    }
    const auto near = nearest_name(member.key, absent);
    const std::string known = fmt::format("remove it; the keys here are: {}", fmt::join(asked_, ", "));
    faults_.add(member, fmt::format("unknown key \"{}\"", member.key),
                near ? fmt::format("did you mean \"{}\"?", *near) : known);
  }
}

}  // namespace budclock::document

// Reads a JSON object member by member into plain values and collects every fault on the way.
//
//   ObjectReader count{node, faults};
//   result.id = count.text("id");
//   result.lower = count.number("lower", -40, 60).value_or(0);
//   result.kind = count.choice("kind", k_kind_names).value_or(Kind::plain);
//   count.finish();  // any key not asked for is unknown
//
// After a fault the reader goes on with an empty value, so that one pass finds all faults; the caller throws the
// result away when `faults` says so. Each message ends with the JSON pointer of what is wrong.
#pragma once

#include <budclock/document/json_tree.hpp>

#include <array>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace budclock::document {

/// The faults of one file.
class Faults {
 public:
  Faults(std::string file, Diagnostics& diagnostics) : file_{std::move(file)}, diagnostics_{diagnostics} {}

  /// Adds "message at /json/pointer: remedy" at the place of `node`.
  void add(const JsonNode& node, std::string_view message, std::string remedy);
  /// The same at the place of a member's key.
  void add(const JsonNode::Member& member, std::string_view message, std::string remedy);

  std::size_t count() const { return count_; }
  const std::string& file() const { return file_; }

 private:
  void add_at(std::size_t line, std::size_t column, std::string_view pointer, std::string_view message,
              std::string remedy);

  std::string file_;
  Diagnostics& diagnostics_;
  std::size_t count_ = 0;
};

enum class Presence { required, optional };

/// A value of an enumeration and the word that stands for it in a file.
template <class E>
using NamedValue = std::pair<std::string_view, E>;

/// "did you mean "x"?" when a candidate is near, else "write one of: a, b, c".
std::string suggestion(std::string_view text, const std::vector<std::string_view>& candidates);

/// True when the node is of that kind; else a fault says what it is and should be.
bool expect(const JsonNode& node, JsonNode::Kind kind, Faults& faults);

/// The node's text, "" after a fault: not a text, or an empty one.
std::string text_of(const JsonNode& node, Faults& faults);

/// The value the node's text stands for; nothing after a fault.
template <class E>
std::optional<E> choice_of(const JsonNode& node, std::span<const NamedValue<E>> names, Faults& faults) {
  const std::string text = text_of(node, faults);
  if (text.empty()) return std::nullopt;
  std::vector<std::string_view> known;
  for (const auto& [name, value] : names) {
    if (name == text) return value;
    known.push_back(name);
  }
  faults.add(node, "\"" + text + "\" is not known here", suggestion(text, known));
  return std::nullopt;
}

class ObjectReader {
 public:
  /// A node that is no object is a fault; every member then counts as absent without further faults.
  ObjectReader(const JsonNode& node, Faults& faults);

  const JsonNode& node() const { return node_; }
  Faults& faults() const { return faults_; }

  /// The member of that kind; null when it is absent (a fault if required) or of another kind (a fault).
  const JsonNode* member(std::string_view key, JsonNode::Kind kind, Presence presence = Presence::required);

  /// A text that is not empty; "" when it is absent.
  std::string text(std::string_view key, Presence presence = Presence::required);

  /// A number within [low, high].
  std::optional<double> number(std::string_view key, double low, double high, Presence presence = Presence::required);

  /// A whole number within [low, high].
  std::optional<int> whole_number(std::string_view key, int low, int high, Presence presence = Presence::required);

  /// true or false; false when it is absent.
  bool flag(std::string_view key);

  /// The items of a list; none when it is absent.
  const std::vector<JsonNode>& items(std::string_view key, Presence presence = Presence::required);

  /// The texts of a list.
  std::vector<std::string> texts(std::string_view key, Presence presence = Presence::required);

  /// One of a fixed set of words.
  template <class E, std::size_t N>
  std::optional<E> choice(std::string_view key, const std::array<NamedValue<E>, N>& names,
                          Presence presence = Presence::required) {
    const JsonNode* found = member(key, JsonNode::Kind::string, presence);
    return found ? choice_of<E>(*found, names, faults_) : std::nullopt;
  }

  /// A list of words of a fixed set.
  template <class E, std::size_t N>
  std::vector<E> choices(std::string_view key, const std::array<NamedValue<E>, N>& names,
                         Presence presence = Presence::required) {
    std::vector<E> values;
    for (const JsonNode& item : items(key, presence)) {
      if (const auto value = choice_of<E>(item, names, faults_)) values.push_back(*value);
    }
    return values;
  }

  /// Call last: every key that was never asked for is a fault.
  void finish();

 private:
  const JsonNode& node_;
  Faults& faults_;
  bool is_object_;
  std::vector<std::string> asked_;
};

}  // namespace budclock::document

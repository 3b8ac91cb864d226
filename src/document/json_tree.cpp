#include <budclock/core/utf8.hpp>
#include <budclock/document/json_tree.hpp>

#include "syntax_error.hpp"
#include "text_lines.hpp"

#include <algorithm>
#include <fmt/format.h>
#include <nlohmann/json.hpp>
#include <numeric>

namespace budclock::document {
namespace {

// Bounds far above any file a person writes; they keep a hostile or broken file from claiming memory or stack.
// Of values and pointers for a text of k_most_json_bytes, and in proportion for others.
constexpr std::size_t k_most_values = 1'000'000;
constexpr std::size_t k_most_pointer_bytes = std::size_t{64} << 20;
constexpr std::size_t k_deepest = 64;

/// A key as one step of a JSON pointer (RFC 6901).
std::string pointer_step(std::string_view key) {
  std::string step = "/";
  for (const char c : key) {
    if (c == '~') step += "~0";
    if (c == '/') step += "~1";
    if (c != '~' && c != '/') step += c;
  }
  return step;
}

/// Offset just after the sound string that opens at `start`.
std::size_t string_end(std::string_view text, std::size_t start) {
  std::size_t at = start + 1;
  while (text[at] != '"') at += text[at] == '\\' ? 2 : 1;
  return at + 1;
}

/// Offset just after the sound number that starts at `start`. It stops where the grammar does: "01" is 0, then 1.
std::size_t number_end(std::string_view text, std::size_t start) {
  const auto skip_digits = [text](std::size_t from) {
    return std::min(text.find_first_not_of("0123456789", from), text.size());
  };
  const auto holds = [text](std::size_t at, std::string_view any) {
    return at < text.size() && any.find(text[at]) != std::string_view::npos;
  };
  std::size_t at = start + (text[start] == '-' ? 1 : 0);
  at = holds(at, "0") ? at + 1 : skip_digits(at);
  if (holds(at, ".")) at = skip_digits(at + 1);
  if (!holds(at, "eE")) return at;
  return skip_digits(holds(at + 1, "+-") ? at + 2 : at + 1);
}

/// Receives the parser's events and builds the tree. It follows the parser through the text token by token, which
/// gives each token its place: the parser itself reports none.
class TreeBuilder {
 public:
  TreeBuilder(std::string_view text, std::string_view file, std::size_t most_bytes, Diagnostics& diagnostics)
      : text_{text},
        file_{file},
        lines_{text},
        diagnostics_{diagnostics},
        times_{std::max<std::size_t>(most_bytes / k_most_json_bytes, 1)} {}

  bool null() { return scalar(JsonNode::Kind::null) != nullptr; }
  bool boolean(bool value) {
    JsonNode* node = scalar(JsonNode::Kind::boolean);
    if (node) node->boolean = value;
    return node != nullptr;
  }
  bool number_integer(std::int64_t value) { return number(static_cast<double>(value)); }
  bool number_unsigned(std::uint64_t value) { return number(static_cast<double>(value)); }
  bool number_float(double value, const std::string&) { return number(value); }
  bool string(std::string& value) {
    JsonNode* node = scalar(JsonNode::Kind::string);
    if (node) node->text = std::move(value);
    return node != nullptr;
  }
  bool binary(std::vector<std::uint8_t>&) { return false; }  // JSON text holds none

  bool start_object(std::size_t) { return open(JsonNode::Kind::object); }
  bool start_array(std::size_t) { return open(JsonNode::Kind::array); }
  bool end_array() { return close(); }
  bool end_object() {
    drop_duplicates(*open_.back());
    return close();
  }

  bool key(std::string& value) {
    const std::size_t start = next_token();
    const auto [line, column] = lines_.at(start);
    open_.back()->members.push_back({std::move(value), line, column, {}});
    sound_.end = string_end(text_, start);
    sound_.last = SoundPart::Last::key;
    return true;
  }

  bool parse_error(std::size_t position, const std::string&, const nlohmann::detail::exception& exception) {
    if (const auto* range = dynamic_cast<const nlohmann::detail::out_of_range*>(&exception); range != nullptr) {
      const std::size_t start = next_token();
      const std::string number{text_.substr(start, number_end(text_, start) - start)};
      refuse(start, fmt::format("{} is too large for a number", number), "write a smaller number");
      return false;
    }
    const SyntaxError error = explain_syntax_error(text_, sound_, position > 0 ? position - 1 : 0);
    refuse(error.offset, error.message, error.remedy);
    return false;
  }

  JsonNode take() { return std::move(root_); }

 private:
  /// Where the next token but a comma or colon starts.
  std::size_t next_token() const { return std::min(text_.find_first_not_of(" \t\r\n,:", sound_.end), text_.size()); }

  std::size_t token_end(std::size_t start, JsonNode::Kind kind) const {
    switch (kind) {
      case JsonNode::Kind::string:
        return string_end(text_, start);
      case JsonNode::Kind::number:
        return number_end(text_, start);
      case JsonNode::Kind::null:
        return start + 4;
      case JsonNode::Kind::boolean:
        return start + (text_[start] == 't' ? 4 : 5);
      case JsonNode::Kind::array:
      case JsonNode::Kind::object:
        break;
    }
    return start + 1;
  }

  void refuse(std::size_t offset, std::string message, std::string remedy) {
    const auto [line, column] = lines_.at(offset);
    diagnostics_.push_back(
        {Severity::error, {std::string{file_}, line, column}, std::move(message), std::move(remedy)});
  }

  /// Adds the value that starts at the next token; nothing when a bound is passed.
  JsonNode* add(JsonNode::Kind kind) {
    const std::size_t start = next_token();
    JsonNode* node = &root_;
    if (!open_.empty() && open_.back()->kind == JsonNode::Kind::array) {
      JsonNode& parent = *open_.back();
      node = &parent.items.emplace_back();
      node->pointer = fmt::format("{}/{}", parent.pointer, parent.items.size() - 1);
    } else if (!open_.empty()) {
      JsonNode& parent = *open_.back();
      node = &parent.members.back().value;
      node->pointer = parent.pointer + pointer_step(parent.members.back().key);
    }
    pointer_bytes_ += node->pointer.size();
    if (++values_ > times_ * k_most_values || pointer_bytes_ > times_ * k_most_pointer_bytes) {
      refuse(start, "the file holds too many values", "split it into several files");
      return nullptr;
    }
    node->kind = kind;
    const auto [line, column] = lines_.at(start);
    node->line = line;
    node->column = column;
    sound_.end = token_end(start, kind);
    sound_.last = SoundPart::Last::value;
    return node;
  }

  JsonNode* scalar(JsonNode::Kind kind) { return add(kind); }

  bool number(double value) {
    const std::size_t start = next_token();
    JsonNode* node = add(JsonNode::Kind::number);
    if (node == nullptr) return false;
    node->number = value;
    node->text = text_.substr(start, sound_.end - start);
    return true;
  }

  bool open(JsonNode::Kind kind) {
    if (open_.size() == k_deepest) {
      refuse(next_token(), fmt::format("lists and objects are nested more than {} deep", k_deepest),
             "write it flatter");
      return false;
    }
    JsonNode* node = add(kind);
    if (node == nullptr) return false;
    open_.push_back(node);
    note_open();
    sound_.last = SoundPart::Last::open;
    return true;
  }

  bool close() {
    sound_.end = next_token() + 1;
    sound_.last = SoundPart::Last::value;
    open_.pop_back();
    note_open();
    return true;
  }

  void note_open() {
    sound_.inside = SoundPart::Inside::nothing;
    if (open_.empty()) return;
    const bool object = open_.back()->kind == JsonNode::Kind::object;
    sound_.inside = object ? SoundPart::Inside::object : SoundPart::Inside::array;
    sound_.opened = open_.back()->line;
  }

  /// Of members with the same key only the first stays; each other is a fault.
  void drop_duplicates(JsonNode& object) {
    std::vector<JsonNode::Member>& members = object.members;
    std::vector<std::size_t> order(members.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::stable_sort(order.begin(), order.end(),
                     [&](std::size_t a, std::size_t b) { return members[a].key < members[b].key; });
    std::vector<bool> dropped(members.size());
    std::size_t first = 0;  // of the members with this key
    for (std::size_t i = 1; i < order.size(); ++i) {
      if (members[order[i]].key != members[order[first]].key) {
        first = i;
        continue;
      }
      report_duplicate(members[order[i]], members[order[first]]);
      dropped[order[i]] = true;
    }
    std::vector<JsonNode::Member> kept;
    for (std::size_t i = 0; i < members.size(); ++i) {
      if (!dropped[i]) kept.push_back(std::move(members[i]));
    }
    members = std::move(kept);
  }

  void report_duplicate(const JsonNode::Member& again, const JsonNode::Member& first) {
    diagnostics_.push_back({Severity::error,
                            {std::string{file_}, again.line, again.column},
                            fmt::format("the key \"{}\" stands twice, first on line {}, at {}", again.key, first.line,
                                        again.value.pointer),
                            "remove one of them"});
  }

  std::string_view text_;
  std::string_view file_;
  TextLines lines_;
  Diagnostics& diagnostics_;
  std::size_t times_;  ///< as many values as a file of people may hold
  JsonNode root_;
  std::vector<JsonNode*> open_;  ///< from the root inwards; each stays put while it is open, as only the last grows
  SoundPart sound_;
  std::size_t values_ = 0;
  std::size_t pointer_bytes_ = 0;
};

/// Faults of the bytes themselves; true when there are none.
bool bytes_are_sound(std::string_view text, std::string_view file, std::size_t most_bytes, Diagnostics& diagnostics) {
  const auto refuse = [&](std::size_t offset, std::string message, std::string remedy) {
    const auto [line, column] = TextLines{text}.at(offset);
    diagnostics.push_back({Severity::error, {std::string{file}, line, column}, std::move(message), std::move(remedy)});
    return false;
  };
  if (text.size() > most_bytes) {
    diagnostics.push_back({Severity::error,
                           {std::string{file}, 0, 0},
                           fmt::format("the file is larger than {} MiB", most_bytes >> 20),
                           "split it into several files"});
    return false;
  }
  if (const auto invalid = find_invalid_utf8(text); invalid != std::string_view::npos) {
    return refuse(invalid, "this byte is not UTF-8", "save the file as UTF-8");
  }
  // The parser would take a zero byte for the end of the text and believe what follows unseen.
  if (const auto zero = text.find('\0'); zero != std::string_view::npos) {
    return refuse(zero, "a zero byte stands here", "save the file as plain UTF-8 text");
  }
  return true;
}

}  // namespace

const JsonNode* JsonNode::find(std::string_view key) const {
  const auto found = std::find_if(members.begin(), members.end(), [&](const Member& m) { return m.key == key; });
  return found == members.end() ? nullptr : &found->value;
}

std::optional<JsonNode> parse_json(std::string_view text, std::string_view file_name, Diagnostics& diagnostics,
                                   std::size_t most_bytes) {
  constexpr std::string_view k_byte_order_mark = "\xEF\xBB\xBF";
  if (text.starts_with(k_byte_order_mark)) text.remove_prefix(k_byte_order_mark.size());
  if (!bytes_are_sound(text, file_name, most_bytes, diagnostics)) return std::nullopt;
  TreeBuilder builder{text, file_name, most_bytes, diagnostics};
  if (!nlohmann::json::sax_parse(text.begin(), text.end(), &builder)) return std::nullopt;
  return builder.take();
}

}  // namespace budclock::document

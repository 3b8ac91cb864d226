// JSON with places: every value knows the line, column and JSON pointer it stands at, and a key given twice is a
// fault. Our readers of hand-written files (pests, sites) work on this tree, so that each fault can be named exactly.
#pragma once

#include <budclock/core/diagnostic.hpp>

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace budclock::document {

/// A JSON value and where it stands. Only the members that belong to `kind` are filled.
struct JsonNode {
  enum class Kind { null, boolean, number, string, array, object };
  struct Member;

  Kind kind = Kind::null;
  std::size_t line = 0;
  std::size_t column = 0;
  std::string pointer;  ///< RFC 6901, "" for the root
  bool boolean = false;
  double number = 0;
  std::string text;             ///< a string's value, or a number as written
  std::vector<JsonNode> items;  ///< of an array
  std::vector<Member> members;  ///< of an object, in file order

  const JsonNode* find(std::string_view key) const;
};

struct JsonNode::Member {
  std::string key;
  std::size_t line = 0;
  std::size_t column = 0;
  JsonNode value;
};

/// Larger texts are refused: a bound far above any file a person writes.
inline constexpr std::size_t k_most_json_bytes = std::size_t{8} << 20;

/// The bound for what programs write.
inline constexpr std::size_t k_most_written_json_bytes = std::size_t{128} << 20;

/// Parses `text`; faults (syntax, duplicate keys, invalid UTF-8) are added to `diagnostics` as errors with place and
/// remedy. Nothing comes back when the text is not JSON at all.
std::optional<JsonNode> parse_json(std::string_view text, std::string_view file_name, Diagnostics& diagnostics,
                                   std::size_t most_bytes = k_most_json_bytes);

}  // namespace budclock::document

#include "syntax_error.hpp"

#include <algorithm>
#include <fmt/format.h>

namespace budclock::document {
namespace {

using Inside = SoundPart::Inside;
using Last = SoundPart::Last;

constexpr std::string_view k_space = " \t\r\n";
constexpr std::string_view k_value_remedy =
    "write a number, a text in double quotes, true, false, null, a list in [ ] or an object in { }";

std::size_t skip_space(std::string_view text, std::size_t from) {
  return std::min(text.find_first_not_of(k_space, from), text.size());
}

/// The word that starts at `at`, cut to a readable length.
std::string_view word_at(std::string_view text, std::size_t at) {
  constexpr std::size_t k_longest = 30;
  const std::string_view rest = text.substr(at);
  std::size_t length = std::min({rest.find_first_of(" \t\r\n,:[]{}\"", 1), rest.size(), k_longest});
  while (length > 1 && length < rest.size() && (static_cast<unsigned char>(rest[length]) & 0xC0) == 0x80) --length;
  return rest.substr(0, length);
}

SyntaxError at_end(std::string_view text, const SoundPart& sound) {
  if (sound.inside == Inside::nothing) return {text.size(), "the file holds no JSON", std::string{k_value_remedy}};
  const bool object = sound.inside == Inside::object;
  return {text.size(),
          fmt::format("the file ends inside the {} that opens on line {}", object ? "object" : "list", sound.opened),
          fmt::format("complete it and close it with {}", object ? '}' : ']')};
}

SyntaxError bad_string(std::string_view text, std::size_t start, std::size_t parser_offset) {
  if (parser_offset >= text.size()) {
    return {start, "a text is not closed", "end it with a double quote"};
  }
  if (static_cast<unsigned char>(text[parser_offset]) < 0x20) {
    return {parser_offset, "a text holds a line break, tab or other control character",
            "close the text on its line; write \\n for a line break and \\t for a tab"};
  }
  return {parser_offset, "a text holds a backslash that starts no JSON escape",
          "write \\\\ for a backslash, \\\" for a quote, or four hexadecimal digits after \\u"};
}

SyntaxError bad_value(std::string_view text, std::size_t at, std::size_t parser_offset) {
  const char first = text[at];
  if (first == '"') return bad_string(text, at, parser_offset);
  if (first == '/' || first == '#') return {at, "JSON has no comments", "remove the comment"};
  if (first == '\'') return {at, "a text stands in single quotes", "use double quotes"};
  if (first == ',' || first == ':' || first == ']' || first == '}') {
    return {at, fmt::format("a value is missing before '{}'", first), std::string{k_value_remedy}};
  }
  return {at, fmt::format("{} is no JSON value", word_at(text, at)), std::string{k_value_remedy}};
}

SyntaxError bad_key(std::string_view text, std::size_t at, std::size_t parser_offset) {
  if (text[at] == '"') return bad_string(text, at, parser_offset);
  if (text[at] == '/' || text[at] == '#') return {at, "JSON has no comments", "remove the comment"};
  return {at, fmt::format("{} stands where a key should", word_at(text, at)), "write the key in double quotes"};
}

/// The fault in what follows a value: a comma and another member, or the end of what is open.
SyntaxError after_value(std::string_view text, std::size_t at, const SoundPart& sound, std::size_t parser_offset) {
  const bool object = sound.inside == Inside::object;
  const char close = object ? '}' : ']';
  if (text[at] == ']' || text[at] == '}') {
    return {at,
            fmt::format("'{}' cannot close the {} that opens on line {}", text[at], object ? "object" : "list",
                        sound.opened),
            fmt::format("close it with {}", close)};
  }
  if (text[at] == '/' || text[at] == '#') return {at, "JSON has no comments", "remove the comment"};
  if (text[at] != ',') {
    return {at, fmt::format("{} follows without a comma", word_at(text, at)),
            fmt::format("put a comma before it, or close the {} with {}", object ? "object" : "list", close)};
  }
  const std::size_t next = skip_space(text, at + 1);
  if (next == text.size()) return at_end(text, sound);
  if (text[next] == close) {
    return {at, fmt::format("a comma stands before '{}'", close), "remove the comma, or add what should follow it"};
  }
  return object ? bad_key(text, next, parser_offset) : bad_value(text, next, parser_offset);
}

}  // namespace

SyntaxError explain_syntax_error(std::string_view text, const SoundPart& sound, std::size_t parser_offset) {
  const std::size_t at = skip_space(text, sound.end);
  if (at == text.size()) return at_end(text, sound);
  if (sound.inside == Inside::nothing && sound.last == Last::value) {
    return {at, fmt::format("{} follows the end of the JSON", word_at(text, at)), "remove what follows"};
  }
  if (sound.last == Last::key) {
    if (text[at] != ':') return {at, fmt::format("{} follows a key", word_at(text, at)), "put a colon after the key"};
    const std::size_t value = skip_space(text, at + 1);
    return value == text.size() ? at_end(text, sound) : bad_value(text, value, parser_offset);
  }
  if (sound.last == Last::value) return after_value(text, at, sound, parser_offset);
  return sound.inside == Inside::object ? bad_key(text, at, parser_offset) : bad_value(text, at, parser_offset);
}

}  // namespace budclock::document

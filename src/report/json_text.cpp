#include "json_text.hpp"

#include <budclock/core/utf8.hpp>

#include <fmt/format.h>
#include <string_view>

namespace budclock::report {
namespace {

/// The code point of a character of two or three bytes.
unsigned code_point(std::string_view character) {
  unsigned value = static_cast<unsigned char>(character[0]) & (character.size() == 2 ? 0x1FU : 0x0FU);
  for (const char byte : character.substr(1)) value = value << 6 | (static_cast<unsigned char>(byte) & 0x3FU);
  return value;
}

/// The library escapes the controls below U+0020 alone; the others, which a terminal would act on, are escaped here.
/// Outside strings JSON has none.
std::string dumped(const nlohmann::ordered_json& json, int indent) {
  const std::string text = json.dump(indent, ' ', false, nlohmann::ordered_json::error_handler_t::replace) + "\n";
  std::string out;
  out.reserve(text.size());
  for (std::size_t at = 0; at < text.size();) {
    const std::string_view character =
        std::string_view{text}.substr(at, utf8_length(std::string_view{text}.substr(at)));
    at += character.size();
    if (character.size() == 1 ? character[0] == '\x7F' : is_control_character(character)) {
      out += fmt::format("\\u{:04x}", character.size() == 1 ? 0x7FU : code_point(character));
    } else {
      out += character;
    }
  }
  return out;
}

}  // namespace

std::string json_text(const nlohmann::ordered_json& json) { return dumped(json, 2); }

std::string json_line(const nlohmann::ordered_json& json) { return dumped(json, -1); }

}  // namespace budclock::report

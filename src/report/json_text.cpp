#include "json_text.hpp"

#include <budclock/core/utf8.hpp>

#include <algorithm>
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

bool is_plain(char c) { return static_cast<unsigned char>(c) < 0x7F; }

/// The library escapes the controls below U+0020 alone; the others, which a terminal would act on, are escaped here.
/// Outside strings JSON has none.
std::string dumped(const nlohmann::ordered_json& json, int indent) {
  const std::string text = json.dump(indent, ' ', false, nlohmann::ordered_json::error_handler_t::replace) + "\n";
  std::string out;
  out.reserve(text.size());
  for (std::string_view left{text}; !left.empty();) {
    const auto plain = static_cast<std::size_t>(std::find_if_not(left.begin(), left.end(), is_plain) - left.begin());
    out += left.substr(0, plain);
    left.remove_prefix(plain);
    if (left.empty()) break;
    const std::string_view character = left.substr(0, utf8_length(left));
    left.remove_prefix(character.size());
    if (character == "\x7F" || (character.size() > 1 && is_control_character(character))) {
      out += fmt::format("\\u{:04x}", character.size() == 1 ? 0x7FU : code_point(character));
    } else {
      out += character;
    }
  }
  return out;
}

/// Without what ends it.
std::string_view without(std::string_view end, std::string_view text) {
  return text.substr(0, text.size() - end.size());
}

}  // namespace

JsonStream::JsonStream(const nlohmann::ordered_json& head, const Sink& out) : out_{out} {
  out_(without("\n}\n", json_text(head)));
}

void JsonStream::begin_array(std::string_view name) {
  end_array();
  out_(fmt::format(",\n  \"{}\": [", name));
  in_ = In::empty_array;
}

void JsonStream::end_array() {
  if (in_ == In::array) out_("\n  ]");
  if (in_ == In::empty_array) out_("]");
}

void JsonStream::add(const nlohmann::ordered_json& element) {
  if (in_ == In::array) out_(",");
  in_ = In::array;
  const std::string text = json_text(element);
  for (std::string_view left = without("\n", text); !left.empty();) {  // no string holds a raw line break
    const std::string_view line = left.substr(0, left.find('\n'));
    out_("\n    ");
    out_(line);
    left.remove_prefix(std::min(line.size() + 1, left.size()));
  }
}

void JsonStream::finish() {
  end_array();
  out_("\n}\n");
}

std::string json_text(const nlohmann::ordered_json& json) { return dumped(json, 2); }

std::string json_line(const nlohmann::ordered_json& json) { return dumped(json, -1); }

}  // namespace budclock::report

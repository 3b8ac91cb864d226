#include <budclock/core/diagnostic.hpp>
#include <budclock/core/utf8.hpp>

#include <algorithm>
#include <fmt/format.h>
#include <string_view>

namespace budclock {

std::string printable(const std::string& text) {
  std::string shown;
  shown.reserve(text.size());
  std::string_view rest = text;
  while (!rest.empty()) {
    const std::size_t valid = utf8_length(rest);
    const std::size_t length = std::max<std::size_t>(valid, 1);
    const std::string_view character = rest.substr(0, length);
    if (valid == 0 || is_control_character(character)) {
      for (const char c : character) shown += fmt::format("\\x{:02X}", static_cast<unsigned char>(c));
    } else {
      shown += character;
    }
    rest.remove_prefix(length);
  }
  return shown;
}

std::string to_text(const Diagnostic& diagnostic) {
  std::string text;
  const Place& place = diagnostic.place;
  if (!place.file.empty()) text += place.file + ":";
  if (place.line > 0) text += fmt::format("{}:", place.line);
  if (place.line > 0 && place.column > 0) text += fmt::format("{}:", place.column);
  if (!text.empty()) text += ' ';
  text += diagnostic.message;
  if (!diagnostic.remedy.empty()) text += ": " + diagnostic.remedy;
  return printable(text);
}

bool any_at_least(const Diagnostics& diagnostics, Severity severity) {
  return std::any_of(diagnostics.begin(), diagnostics.end(),
                     [severity](const Diagnostic& entry) { return entry.severity >= severity; });
}

}  // namespace budclock

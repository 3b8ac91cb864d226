// Texts of a sites file. Private to this folder.
#pragma once

#include <budclock/document/object_reader.hpp>

#include <fmt/format.h>
#include <string>

namespace budclock::sites {

/// Whether a text is without control characters, which no name or path needs; else a fault.
inline bool is_plain(const document::JsonNode& node, const std::string& text, document::Faults& faults) {
  if (printable(text) == text) return true;
  faults.add(node, fmt::format("\"{}\" holds a control character", text), "remove it");
  return false;
}

}  // namespace budclock::sites

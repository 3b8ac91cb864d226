// JSON text as all our reports write it.
#pragma once

#include <nlohmann/json.hpp>
#include <string>

namespace budclock::report {

/// Indented text with a final newline. Bytes that are not UTF-8 (a site's name from a careless file) become U+FFFD,
/// where the library's default would throw.
std::string json_text(const nlohmann::ordered_json& json);

/// The same without indents or line breaks, but for the newline at its end.
std::string json_line(const nlohmann::ordered_json& json);

}  // namespace budclock::report

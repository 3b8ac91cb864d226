// JSON text as all our reports write it.
#pragma once

#include <nlohmann/json.hpp>
#include <string>

namespace budclock::report {

/// Indented text with a final newline. Bytes that are not UTF-8 (a site's name from a careless file) become U+FFFD,
/// where the library's default would throw.
std::string json_text(const nlohmann::ordered_json& json);

}  // namespace budclock::report

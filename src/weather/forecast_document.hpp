// A Weather Service forecast as a tree.
#pragma once

#include <budclock/document/json_tree.hpp>
#include <budclock/weather/byte_source.hpp>
#include <budclock/weather/problem_list.hpp>

#include <optional>

namespace budclock::weather {

/// The tree of a JSON text; nothing, with errors that have line and column, when it is none.
std::optional<document::JsonNode> parse_forecast(ByteSource& source, ProblemList& problems);

/// The list of periods, or null, with an error that says what the document is instead.
const document::JsonNode* periods_of(const document::JsonNode& root, ProblemList& problems);

}  // namespace budclock::weather

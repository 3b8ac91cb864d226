#include "forecast_document.hpp"

#include <fmt/format.h>
#include <string>
#include <utility>

namespace budclock::weather {
namespace {

using document::JsonNode;
using Kind = JsonNode::Kind;

/// All bytes; more than a JSON document may have are left unread.
std::string text_of(ByteSource& source) {
  constexpr std::size_t k_block = std::size_t{64} << 10;
  std::string text;
  while (text.size() <= document::k_most_json_bytes) {
    const std::size_t size = text.size();
    text.resize(size + k_block);
    const std::size_t count = source.read({text.data() + size, k_block});
    text.resize(size + count);
    if (count == 0) break;
  }
  return text;
}

}  // namespace

std::optional<JsonNode> parse_forecast(ByteSource& source, ProblemList& problems) {
  const std::string text = text_of(source);
  Diagnostics diagnostics;
  auto root = document::parse_json(text, "", diagnostics);
  for (Diagnostic& entry : diagnostics) {
    problems.add(entry.severity, entry.place.line, entry.place.column, std::move(entry.message),
                 std::move(entry.remedy));
  }
  return diagnostics.empty() ? std::move(root) : std::nullopt;
}

const JsonNode* periods_of(const JsonNode& root, ProblemList& problems) {
  const JsonNode* const properties = root.find("properties");
  const JsonNode* const periods = (properties == nullptr ? root : *properties).find("periods");
  if (periods != nullptr && periods->kind == Kind::array) return periods;
  const JsonNode* const title = root.find("title");
  if (root.find("status") != nullptr && title != nullptr && title->kind == Kind::string) {
    problems.add(Severity::error, title->line, title->column,
                 fmt::format("this is no forecast but an answer that there is none: \"{}\"", title->text),
                 "get the forecast again");
  } else {
    problems.add(Severity::error, 0, 0, "this JSON is not a Weather Service forecast with periods",
                 "get the forecast or the hourly forecast of the place");
  }
  return nullptr;
}

}  // namespace budclock::weather

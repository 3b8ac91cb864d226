// Any bytes as a JSON document and as a rule file: no crash, no hang, and every complaint has a place and a remedy.
#include <budclock/document/json_tree.hpp>
#include <budclock/rules/day_limits.hpp>
#include <budclock/rules/load.hpp>

#include "fuzz.hpp"

#include <cstdlib>

using namespace budclock;

namespace {

constexpr std::string_view k_sources = R"({"schema": "budclock/sources/1", "sources": {
  "first-2001": {"author": "A", "year": "2001", "title": "T"}}})";
constexpr std::string_view k_cautions = R"({"schema": "budclock/cautions/1", "cautions": {
  "label": {"text": "The label decides.", "citation": {"grade": "common practice"}}}})";

void demand(bool held) {
  if (!held) std::abort();
}

/// Places lie within the file, and pointers lead back to their value.
void check_tree(const document::JsonNode& root, const document::JsonNode& node, std::size_t bytes) {
  demand(node.line >= 1 && node.line <= bytes && node.column >= 1 && node.column <= bytes);
  for (const auto& item : node.items) check_tree(root, item, bytes);
  for (const auto& member : node.members) {
    demand(node.find(member.key) == &member.value);
    check_tree(root, member.value, bytes);
  }
}

}  // namespace

int fuzz_one(const std::uint8_t* data, std::size_t size) {
  const std::string_view text{reinterpret_cast<const char*>(data), size};
  Diagnostics syntax;
  const auto root = document::parse_json(text, "pests/test-psyllid.json", syntax);
  demand(root.has_value() || !syntax.empty());
  if (root) check_tree(*root, *root, size);

  Diagnostics diagnostics;
  const rules::PestTable table = rules::load(
      {{"sources.json", k_sources}, {"cautions.json", k_cautions}, {"pests/test-psyllid.json", text}}, diagnostics);
  for (const Diagnostic& diagnostic : diagnostics) demand(!diagnostic.message.empty() && !diagnostic.remedy.empty());
  demand(table.pests.empty() || diagnostics.empty());
  for (const rules::DayLimit& limit : table.day_limits) {
    demand(!limit.id.empty() && !limit.text.empty() && limit.hours >= 0);
  }
  for (const rules::SiteRule& rule : table.site_rules) {
    demand(!rule.id.empty() && !rule.text.empty() && !rule.actions.empty());
    demand(!rule.within_ft || !rule.citation.source.empty());
  }
  return 0;
}

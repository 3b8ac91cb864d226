// Every member of a sound pest file is spoiled in turn; each time the loader must say so at exactly that place.
#include <budclock/document/json_tree.hpp>

#include "rule_files.hpp"

#include <algorithm>
#include <set>

using namespace budclock;
using document::JsonNode;

namespace {

/// A member somewhere in the file, and the object that holds it.
struct Found {
  const JsonNode* parent;
  const JsonNode::Member* member;
};

void collect(const JsonNode& node, std::vector<Found>& found) {
  for (const JsonNode::Member& member : node.members) {
    found.push_back({&node, &member});
    collect(member.value, found);
  }
  for (const JsonNode& item : node.items) collect(item, found);
}

/// Offset of a place; the file has LF line ends.
std::size_t offset(const std::string& text, std::size_t line, std::size_t column) {
  std::size_t at = 0;
  for (std::size_t i = 1; i < line; ++i) at = text.find('\n', at) + 1;
  return at + column - 1;
}

/// Offset just after the value that starts at `at`.
std::size_t value_end(const std::string& text, std::size_t at) {
  int depth = 0;
  bool quoted = false;
  for (;; ++at) {
    const char c = text[at];
    if (c == '"') quoted = !quoted;
    if (quoted) continue;
    if (depth == 0 && (c == ',' || c == '}' || c == ']' || c == '\n')) return at;
    if (c == '{' || c == '[') ++depth;
    if (c == '}' || c == ']') --depth;
  }
}

/// The text without a member and one of the commas beside it.
std::string without(const std::string& text, const Found& found) {
  std::size_t from = offset(text, found.member->line, found.member->column);
  std::size_t to = value_end(text, offset(text, found.member->value.line, found.member->value.column));
  const std::size_t next = text.find_first_not_of(" \n", to);
  if (text[next] == ',') {
    to = next + 1;
  } else if (const std::size_t before = text.find_last_not_of(" \n", from - 1); text[before] == ',') {
    from = before;
  }
  return text.substr(0, from) + text.substr(to);
}

/// Whether the loader says `what` at that place, and takes nothing from the file.
bool refused_at(const std::string& text, std::size_t line, std::size_t column, const std::string& what) {
  const rule_files::Loaded loaded = rule_files::load_pest(text);
  for (const std::string& said : loaded.texts()) UNSCOPED_INFO(said);
  const auto here = [&](const Diagnostic& diagnostic) {
    return diagnostic.place == Place{"pests/test-psyllid.json", line, column} &&
           diagnostic.message.find(what) != std::string::npos && !diagnostic.remedy.empty();
  };
  return loaded.table.pests.empty() && std::any_of(loaded.diagnostics.begin(), loaded.diagnostics.end(), here);
}

struct Sound {
  std::string text = rule_files::read("test-psyllid.json");
  JsonNode root;
  std::vector<Found> members;

  Sound() {
    Diagnostics diagnostics;
    root = document::parse_json(text, "", diagnostics).value();
    collect(root, members);
    REQUIRE(members.size() > 250);
  }
};

/// Keys that may be absent wherever they stand in the test file.
const std::set<std::string> k_optional{"scientific_name",
                                       "also_called",
                                       "note",
                                       "where",
                                       "region",
                                       "grade",
                                       "valid_days",
                                       "upper",
                                       "assumed",
                                       "alternatives",
                                       "to",
                                       "days",
                                       "sun_below_horizon",
                                       "gate",
                                       "seen",
                                       "absent",
                                       "host",
                                       "do_not",
                                       "conflicts",
                                       "sample",
                                       "action_threshold",
                                       "follow_up",
                                       "effect",
                                       "cautions",
                                       "counts",
                                       "observations",
                                       "ends"};

bool may_be_absent(const Found& found) {
  const std::string& pointer = found.member->value.pointer;
  const auto in = [&](const char* part) { return pointer.find(part) != std::string::npos; };
  if (found.member->key == "where") return in("/citation");
  if (found.member->key == "citation") return in("/observations");
  if (found.member->key == "source") return true;             // its absence is a fault of the whole citation
  if (found.member->key == "find") return !in("/windows/0");  // only a look must say what to find
  if (found.member->key == "degree_days") return true;        // a kind of cue, or an addition to one
  if (found.parent->pointer.ends_with("/cue")) return true;   // a kind of cue
  return k_optional.contains(found.member->key);
}

}  // namespace

TEST_CASE("a misspelt key is named where it stands") {
  const Sound sound;
  for (const Found& found : sound.members) {
    if (found.member->key == "schema") continue;  // without it no key is known
    INFO(found.member->value.pointer);
    std::string text = sound.text;
    text.insert(offset(text, found.member->line, found.member->column) + 1, "q");
    CHECK(refused_at(text, found.member->line, found.member->column, "\"q" + found.member->key + "\""));
  }
}

TEST_CASE("a value of another type is named where it stands") {
  const Sound sound;
  for (const Found& found : sound.members) {
    const JsonNode& value = found.member->value;
    INFO(value.pointer);
    std::string text = sound.text;
    const std::size_t at = offset(text, value.line, value.column);
    const bool list = value.kind == JsonNode::Kind::array;
    text.replace(at, value_end(text, at) - at, list ? "{}" : "[]");
    CHECK(refused_at(text, value.line, value.column, list ? "an object stands where" : "a list stands where"));
  }
}

TEST_CASE("a missing member is named at its object's brace") {
  const Sound sound;
  int missing = 0;
  for (const Found& found : sound.members) {
    if (may_be_absent(found)) continue;
    INFO(found.member->value.pointer);
    ++missing;
    CHECK(refused_at(without(sound.text, found), found.parent->line, found.parent->column,
                     "\"" + found.member->key + "\" is missing"));
  }
  CHECK(missing > 150);
}

TEST_CASE("a repeated key is named where it stands again") {
  const Sound sound;
  for (const Found& found : sound.members) {
    INFO(found.member->value.pointer);
    const std::string copy = "\"" + found.member->key + "\": 0, ";
    std::string text = sound.text;
    text.insert(offset(text, found.member->line, found.member->column), copy);
    CHECK(refused_at(text, found.member->line, found.member->column + copy.size(), "stands twice"));
  }
}

TEST_CASE("a number out of range is named where it stands") {
  const Sound sound;
  int numbers = 0;
  for (const Found& found : sound.members) {
    const JsonNode& value = found.member->value;
    const bool printed =
        value.kind == JsonNode::Kind::string && value.text.find_first_not_of("0123456789.,") == std::string::npos;
    if (value.kind != JsonNode::Kind::number && !printed) continue;
    ++numbers;
    for (const std::string number : {"999999", "-999999"}) {
      INFO(value.pointer);
      std::string text = sound.text;
      const std::size_t at = offset(text, value.line, value.column);
      text.replace(at, value_end(text, at) - at, printed ? "\"" + number + "\"" : number);
      CHECK(refused_at(text, value.line, value.column, number + " is out of range"));
    }
  }
  CHECK(numbers == 14);
}

TEST_CASE("an unknown word of a fixed set is named where it stands") {
  const Sound sound;
  const std::set<std::string> sets{"schema", "usually", "unit", "use", "meaning", "grade", "change", "kind", "take"};
  int words = 0;
  for (const Found& found : sound.members) {
    const JsonNode& value = found.member->value;
    if (!sets.contains(found.member->key)) continue;
    INFO(value.pointer);
    ++words;
    std::string text = sound.text;
    text.insert(offset(text, value.line, value.column) + 1, "q");
    CHECK(refused_at(text, value.line, value.column, "\"q" + value.text + "\" is not known here"));
  }
  CHECK(words > 30);
}

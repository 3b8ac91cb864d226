// Every member of a sound sites file is spoiled in turn; each time the loader must say so at exactly that place.
#include <budclock/document/json_tree.hpp>

#include "site_files.hpp"

#include <algorithm>
#include <set>

using namespace budclock;
using document::JsonNode;

namespace {

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
    if (c == '\\') {
      ++at;
      continue;
    }
    if (c == '"') quoted = !quoted;
    if (quoted) continue;
    if (depth == 0 && (c == ',' || c == '}' || c == ']' || c == '\n')) return at;
    if (c == '{' || c == '[') ++depth;
    if (c == '}' || c == ']') --depth;
  }
}

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

std::string replaced(const std::string& text, const JsonNode& value, const std::string& with) {
  const std::size_t at = offset(text, value.line, value.column);
  return text.substr(0, at) + with + text.substr(value_end(text, at));
}

/// Which site a pointer lies in: 0, 1, or -1 for none.
int site_of(const std::string& pointer) {
  return pointer.starts_with("/sites/0") ? 0 : pointer.starts_with("/sites/1") ? 1 : -1;
}

/// Whether the loader says `what` at that place, and takes from the file at most the other site.
bool refused_at(const std::string& text, const std::string& pointer, std::size_t line, std::size_t column,
                const std::string& what) {
  const site_files::Loaded loaded = site_files::load(text);
  for (const std::string& said : loaded.texts()) UNSCOPED_INFO(said);
  const auto here = [&](const Diagnostic& diagnostic) {
    return diagnostic.place == Place{"sites.json", line, column} &&
           diagnostic.message.find(what) != std::string::npos && !diagnostic.remedy.empty();
  };
  const int site = site_of(pointer);
  const bool others_stand =
      site < 0 ? loaded.list.sites.empty()
               : loaded.list.sites.size() == 1 && loaded.list.sites[0].name.starts_with(site == 0 ? "Hof" : "Mill");
  return others_stand && std::any_of(loaded.diagnostics.begin(), loaded.diagnostics.end(), here);
}

struct Sound {
  std::string text = site_files::read("sites.json");
  JsonNode root;
  std::vector<Found> members;

  Sound() {
    Diagnostics diagnostics;
    root = document::parse_json(text, "", diagnostics).value();
    collect(root, members);
    REQUIRE(members.size() == 41);
  }
};

bool is_contact(const Found& found) { return found.parent->pointer.ends_with("/contact"); }

}  // namespace

TEST_CASE("a misspelt key of a sites file is named where it stands") {
  const Sound sound;
  for (const Found& found : sound.members) {
    if (is_contact(found)) continue;  // free fields
    INFO(found.member->value.pointer);
    std::string text = sound.text;
    text.insert(offset(text, found.member->line, found.member->column) + 1, "q");
    CHECK(refused_at(text, found.member->value.pointer, found.member->line, found.member->column,
                     "\"q" + found.member->key + "\""));
  }
}

TEST_CASE("a value of another type in a sites file is named where it stands") {
  const Sound sound;
  for (const Found& found : sound.members) {
    const JsonNode& value = found.member->value;
    INFO(value.pointer);
    const bool list = value.kind == JsonNode::Kind::array;
    CHECK(refused_at(replaced(sound.text, value, list ? "{}" : "[]"), value.pointer, value.line, value.column,
                     list ? "an object stands where" : "a list stands where"));
  }
}

TEST_CASE("a missing member of a sites file is named at its object's brace") {
  const Sound sound;
  const std::set<std::string> required{"schema",    "sites",   "name",    "place", "latitude",
                                       "longitude", "weather", "sources", "files"};
  int missing = 0;
  for (const Found& found : sound.members) {
    const std::string text = without(sound.text, found);
    INFO(found.member->value.pointer);
    if (!required.contains(found.member->key)) {
      CHECK(site_files::load(text).texts() == std::vector<std::string>{});
      continue;
    }
    ++missing;
    CHECK(refused_at(text, found.parent->pointer, found.parent->line, found.parent->column,
                     "\"" + found.member->key + "\" is missing"));
  }
  CHECK(missing == 17);
}

TEST_CASE("a repeated key of a sites file is named where it stands again") {
  const Sound sound;
  for (const Found& found : sound.members) {
    INFO(found.member->value.pointer);
    const std::string copy = "\"" + found.member->key + "\": 0, ";
    std::string text = sound.text;
    text.insert(offset(text, found.member->line, found.member->column), copy);
    CHECK(refused_at(text, found.member->value.pointer, found.member->line, found.member->column + copy.size(),
                     "stands twice"));
  }
}

TEST_CASE("a number out of range in a sites file is named where it stands") {
  const Sound sound;
  int numbers = 0;
  for (const Found& found : sound.members) {
    const JsonNode& value = found.member->value;
    if (value.kind != JsonNode::Kind::number) continue;
    ++numbers;
    for (const std::string number : {"99999", "-99999"}) {
      INFO(value.pointer);
      CHECK(refused_at(replaced(sound.text, value, number), value.pointer, value.line, value.column,
                       number + " is out of range"));
    }
  }
  CHECK(numbers == 8);
}

TEST_CASE("an unknown word of a fixed set in a sites file is named where it stands") {
  const Sound sound;
  const std::set<std::string> sets{"schema", "units", "date_order", "gaps", "read_time"};
  int words = 0;
  for (const Found& found : sound.members) {
    const JsonNode& value = found.member->value;
    if (!sets.contains(found.member->key)) continue;
    ++words;
    INFO(value.pointer);
    CHECK(refused_at(replaced(sound.text, value, "\"q" + value.text + "\""), value.pointer, value.line, value.column,
                     "\"q" + value.text + "\" is not known here"));
  }
  CHECK(words == 6);
}

#include <budclock/document/json_tree.hpp>

#include <catch2/catch.hpp>

using namespace budclock;
using document::JsonNode;
using document::parse_json;

namespace {

JsonNode parsed(std::string_view text) {
  Diagnostics diagnostics;
  auto root = parse_json(text, "f.json", diagnostics);
  for (const Diagnostic& diagnostic : diagnostics) UNSCOPED_INFO(to_text(diagnostic));
  REQUIRE(diagnostics.empty());
  return root.value();
}

/// The one diagnostic of a text that is refused.
std::string refusal(std::string_view text) {
  Diagnostics diagnostics;
  const bool refused = !parse_json(text, "f.json", diagnostics);
  INFO(text);
  REQUIRE(refused);
  REQUIRE(diagnostics.size() == 1);
  CHECK(diagnostics.front().severity == Severity::error);
  return to_text(diagnostics.front());
}

std::string place(const JsonNode& node) {
  return std::to_string(node.line) + ":" + std::to_string(node.column) + " " + node.pointer;
}

constexpr const char* k_values =
    "write a number, a text in double quotes, true, false, null, a list in [ ] or an object in { }";

}  // namespace

TEST_CASE("every value knows its line, its column in bytes and its pointer") {
  const JsonNode root =
      parsed("{\n  \"a\": [1, -2.5e1 ,\"x\\\"]\", {\"b/c~d\": null}],\n\t\"Bl\xC3\xBCte\":true , \"e\": false}");
  CHECK(place(root) == "1:1 ");
  const JsonNode& list = *root.find("a");
  CHECK(place(list) == "2:8 /a");
  CHECK(place(list.items[0]) == "2:9 /a/0");
  CHECK(place(list.items[1]) == "2:12 /a/1");
  CHECK(list.items[1].number == -25.0);
  CHECK(list.items[1].text == "-2.5e1");
  CHECK(place(list.items[2]) == "2:20 /a/2");
  CHECK(list.items[2].text == "x\"]");
  CHECK(place(list.items[3]) == "2:28 /a/3");
  CHECK(place(list.items[3].members[0].value) == "2:38 /a/3/b~1c~0d");
  CHECK(list.items[3].members[0].column == 29);
  CHECK(place(*root.find("Bl\xC3\xBCte")) == "3:11 /Bl\xC3\xBCte");
  CHECK(root.find("Bl\xC3\xBCte")->boolean);
  CHECK(place(*root.find("e")) == "3:23 /e");
  CHECK(root.members[2].column == 18);
}

TEST_CASE("lines end at LF, CR LF or CR alike") {
  for (const char* text : {"[\n\n1]", "[\r\n\r\n1]", "[\r\r1]"}) CHECK(place(parsed(text).items[0]) == "3:1 /0");
}

TEST_CASE("a byte order mark is no part of the text") { CHECK(place(parsed("\xEF\xBB\xBF[7]").items[0]) == "1:2 /0"); }

TEST_CASE("a single value is a whole document") {
  CHECK(parsed(" 12 ").number == 12);
  CHECK(parsed("\"a\"").text == "a");
  CHECK(parsed("18446744073709551615").number == 18446744073709551615.0);
}

TEST_CASE("a key that stands twice is a fault, and the first stands") {
  Diagnostics diagnostics;
  const auto root = parse_json("{\"b\": 1, \"a\": 2,\n \"b\": 3, \"b\": [4]}", "f.json", diagnostics);
  REQUIRE(diagnostics.size() == 2);
  CHECK(to_text(diagnostics[0]) ==
        "f.json:2:2: the key \"b\" stands twice, first on line 1, at /b: remove one of them");
  CHECK(to_text(diagnostics[1]) ==
        "f.json:2:10: the key \"b\" stands twice, first on line 1, at /b: remove one of them");
  REQUIRE(root);
  CHECK(root->members.size() == 2);
  CHECK(root->find("b")->number == 1);
}

TEST_CASE("a syntax error says where it is and what to do") {
  CHECK(refusal("") == std::string{"f.json:1:1: the file holds no JSON: "} + k_values);
  CHECK(refusal("[1,\n 2,\n]") ==
        "f.json:2:3: a comma stands before ']': remove the comma, or add what should follow it");
  CHECK(refusal("{\"a\":1,}") ==
        "f.json:1:7: a comma stands before '}': remove the comma, or add what should follow it");
  CHECK(refusal("[1 2]") == "f.json:1:4: 2 follows without a comma: put a comma before it, or close the list with ]");
  CHECK(refusal("{\"a\":1 \"b\":2}") ==
        "f.json:1:8: \"b follows without a comma: put a comma before it, or close the object with }");
  CHECK(refusal("{\"a\" 1}") == "f.json:1:6: 1 follows a key: put a colon after the key");
  CHECK(refusal("{\"a\":}") == std::string{"f.json:1:6: a value is missing before '}': "} + k_values);
  CHECK(refusal("[,1]") == std::string{"f.json:1:2: a value is missing before ',': "} + k_values);
  CHECK(refusal("{a:1}") == "f.json:1:2: a stands where a key should: write the key in double quotes");
  CHECK(refusal("{'a':1}") == "f.json:1:2: 'a' stands where a key should: write the key in double quotes");
  CHECK(refusal("['a']") == "f.json:1:2: a text stands in single quotes: use double quotes");
  CHECK(refusal("[1}") == "f.json:1:3: '}' cannot close the list that opens on line 1: close it with ]");
  CHECK(refusal("{\"a\":\n[1,2") ==
        "f.json:2:5: the file ends inside the list that opens on line 2: complete it and close it with ]");
  CHECK(refusal("{\"a\":1") ==
        "f.json:1:7: the file ends inside the object that opens on line 1: complete it and close it with }");
  CHECK(refusal("{\"a\":1} x") == "f.json:1:9: x follows the end of the JSON: remove what follows");
  CHECK(refusal("[1, // one\n2]") == "f.json:1:5: JSON has no comments: remove the comment");
  CHECK(refusal("{\"a\":1 /* one */}") == "f.json:1:8: JSON has no comments: remove the comment");
}

TEST_CASE("a broken text inside quotes is named at its byte") {
  CHECK(refusal("[\"ab\ncd\"]") ==
        "f.json:1:5: a text holds a line break, tab or other control character: close the text on its line; write \\n "
        "for a "
        "line break and \\t for a tab");
  CHECK(refusal("[\"a\\q\"]") ==
        "f.json:1:5: a text holds a backslash that starts no JSON escape: write \\\\ for a "
        "backslash, \\\" for a quote, or four hexadecimal digits after \\u");
  CHECK(refusal("[\"abc]") == "f.json:1:2: a text is not closed: end it with a double quote");
}

TEST_CASE("what is no number in JSON is no number here") {
  for (const char* word : {"NaN", "Infinity", "-Infinity", "+1", ".5", "1.", "-", "1e", "True", "nan", "inf"}) {
    INFO(word);
    const std::string text = refusal(std::string{"["} + word + "]");
    CHECK(text.substr(0, 11) == "f.json:1:2:");
  }
  CHECK(refusal("[NaN]") == std::string{"f.json:1:2: NaN is no JSON value: "} + k_values);
  CHECK(refusal("[01]") == "f.json:1:3: 1 follows without a comma: put a comma before it, or close the list with ]");
  CHECK(refusal("[0x10]") ==
        "f.json:1:3: x10 follows without a comma: put a comma before it, or close the list with ]");
  CHECK(refusal("[1e999]") == "f.json:1:2: 1e999 is too large for a number: write a smaller number");
  CHECK(refusal("[-1e999]") == "f.json:1:2: -1e999 is too large for a number: write a smaller number");
}

TEST_CASE("bytes that are not UTF-8, and zero bytes, are refused at their place") {
  CHECK(refusal("{\n\"a\xFF\": 1}") == "f.json:2:3: this byte is not UTF-8: save the file as UTF-8");
  CHECK(refusal(std::string_view{"[1]\0[2]", 7}) ==
        "f.json:1:4: a zero byte stands here: save the file as plain UTF-8 text");
}

TEST_CASE("nesting is bounded") {
  const auto nested = [](std::size_t depth) { return std::string(depth, '[') + std::string(depth, ']'); };
  CHECK(parsed(nested(64)).items.size() == 1);
  CHECK(refusal(nested(65)) == "f.json:1:65: lists and objects are nested more than 64 deep: write it flatter");
  CHECK(refusal(std::string(1'000'000, '[')).substr(0, 12) == "f.json:1:65:");
}

TEST_CASE("size is bounded") {
  CHECK(refusal(std::string((std::size_t{8} << 20) + 1, ' ')) ==
        "f.json: the file is larger than 8 MiB: split it into several files");
  std::string many = "[0";
  for (int i = 0; i < 1'000'000; ++i) many += ",0";
  CHECK(refusal(many + "]") == "f.json:1:2000000: the file holds too many values: split it into several files");
}

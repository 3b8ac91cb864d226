#include <budclock/report/csv.hpp>
#include <budclock/report/layout.hpp>

#include <catch2/catch.hpp>

using namespace budclock::report;

namespace {

std::string text_row(std::string_view cell) {
  CsvText csv;
  csv.text(cell).end_row();
  return csv.str();
}

}  // namespace

TEST_CASE("a paragraph breaks at spaces and indents what follows") {
  CHECK(paragraph("one two three four", 2, {.width = 10}) == "  one two\n  three\n  four\n");
  CHECK(paragraph("one two", 4, {.width = 40}, "  - ") == "  - one two\n");
  CHECK(paragraph("one two three", 4, {.width = 12}, "  - ") == "  - one two\n    three\n");
}

TEST_CASE("a word wider than the line stands alone") {
  CHECK(paragraph("a bbbbbbbbbbbb c", 0, {.width = 5}) == "a\nbbbbbbbbbbbb\nc\n");
}

TEST_CASE("a table lines up by characters, not bytes, and trails no spaces") {
  CHECK(table({{"pest", "when"}, {"M\xc3\xbc", "x"}, {"abcdef", ""}}, 1, {}) ==
        " pest    when\n M\xc3\xbc      x\n abcdef\n");
}

TEST_CASE("colour marks the header and never changes the words") {
  CHECK(table({{"a"}, {"b"}}, 0, {.width = 80, .colour = true}) == "\x1b[2ma\x1b[0m\nb\n");
  CHECK(bold("x", {.width = 80, .colour = true}) == "\x1b[1mx\x1b[0m");
  CHECK(bold("x", {}) == "x");
}

TEST_CASE("lists read as people write them") {
  CHECK(list({}) == "");
  CHECK(list({"a"}) == "a");
  CHECK(list({"a", "b"}, "or") == "a or b");
  CHECK(list({"a", "b", "c"}) == "a, b and c");
}

TEST_CASE("CSV quotes what holds a comma, a quote or a line break, doubling quotes") {
  CHECK(text_row("plain") == "plain\n");
  CHECK(text_row("a,b") == "\"a,b\"\n");
  CHECK(text_row("a\"b") == "\"a\"\"b\"\n");
  CHECK(text_row("a\nb") == "\"a\nb\"\n");
}

TEST_CASE("a text cell cannot run as a formula, and a number stays a number") {
  CHECK(text_row("=1+1") == "'=1+1\n");
  CHECK(text_row("+1") == "'+1\n");
  CHECK(text_row("-x") == "'-x\n");
  CHECK(text_row("@SUM(A1)") == "'@SUM(A1)\n");
  CHECK(text_row("\tx") == "'\tx\n");
  CsvText csv;
  csv.plain("-12.5").plain("").end_row();
  CHECK(csv.str() == "-12.5,\n");
}

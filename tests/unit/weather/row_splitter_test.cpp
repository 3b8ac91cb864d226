#include <budclock/weather/row_splitter.hpp>

#include "reading.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <fmt/format.h>

using namespace budclock::weather;
using budclock::weather::test::Lines;
using budclock::weather::test::PieceSource;

namespace {

const char* fault_name(RowFault fault) {
  switch (fault) {
    case RowFault::none:
      return "none";
    case RowFault::open_quote:
      return "open quote";
    case RowFault::text_after_quote:
      return "text after quote";
    case RowFault::too_long:
      return "too long";
    case RowFault::holds_nul:
      return "NUL";
  }
  return "";
}

/// Each row as "line: [field][field]", or "line:column fault".
Lines rows_of(ByteSource& source, char delimiter = ',') {
  RowSplitter rows{source};
  rows.set_delimiter(delimiter);
  Lines lines;
  while (rows.next()) {
    std::string text = fmt::format("{}:", rows.line());
    for (const Field& field : rows.fields()) text += fmt::format(" [{}]", field.text);
    if (rows.fault() != RowFault::none) {
      text += fmt::format("{} {}", rows.position(rows.fault_offset()).column, fault_name(rows.fault()));
    }
    lines.push_back(text);
  }
  return lines;
}

Lines rows_of(std::string_view text, char delimiter = ',') {
  MemorySource source{text};
  return rows_of(source, delimiter);
}

}  // namespace

TEST_CASE("rows end at LF, CRLF or CR, and at the end of the file") {
  const Lines expected{"1: [a] [b]", "2: [c] [d]"};
  CHECK(rows_of("a,b\nc,d\n") == expected);
  CHECK(rows_of("a,b\r\nc,d\r\n") == expected);
  CHECK(rows_of("a,b\rc,d\r") == expected);
  CHECK(rows_of("a,b\nc,d") == expected);
  CHECK(rows_of("a,b\rc,d") == expected);
}

TEST_CASE("a byte order mark, blank lines and comments are skipped, and lines still count") {
  CHECK(rows_of("\xEF\xBB\xBF"
                "a,b\n\n  \n# note\n  # note\nc,d\n") == Lines{"1: [a] [b]", "6: [c] [d]"});
}

TEST_CASE("empty fields are fields") { CHECK(rows_of(",\n,,x,\n") == Lines{"1: [] []", "2: [] [] [x] []"}); }

TEST_CASE("the delimiter is chosen at run time") {
  CHECK(rows_of("a;b,c;d\n", ';') == Lines{"1: [a] [b,c] [d]"});
  CHECK(rows_of("a\t\td\n", '\t') == Lines{"1: [a] [] [d]"});
  CHECK(rows_of("\"a\"\t\"b\"\n", '\t') == Lines{"1: [a] [b]"});
}

TEST_CASE("quotes hide delimiters and line ends, and doubled quotes are one") {
  CHECK(rows_of("\"a,b\",c\n") == Lines{"1: [a,b] [c]"});
  CHECK(rows_of("\"say \"\"hi\"\"\",\"\"\"\"\n") == Lines{"1: [say \"hi\"] [\"]"});
  CHECK(rows_of("\"a\nb\",c\nd,e\n") == Lines{"1: [a\nb] [c]", "3: [d] [e]"});
  CHECK(rows_of("\"a\r\nb\rc\",d\r\ne,f\r\n") == Lines{"1: [a\r\nb\rc] [d]", "4: [e] [f]"});
  CHECK(rows_of("  \"a\"  , b \n") == Lines{"1: [a] [ b ]"});
  CHECK(rows_of("5\" pot,b\n") == Lines{"1: [5\" pot] [b]"});
}

TEST_CASE("a quote that is never closed costs its own line only") {
  CHECK(rows_of("a,b\nc,\"d\ne,f\ng,h\n") == Lines{"1: [a] [b]", "2:3 open quote", "3: [e] [f]", "4: [g] [h]"});
  CHECK(rows_of("\"") == Lines{"1:1 open quote"});
  CHECK(rows_of("a,\"b\nc,\"d\"\ne\n") == Lines{"1:3 open quote", "2: [c] [d]", "3: [e]"});
}

TEST_CASE("text after a closing quote costs its own line only") {
  CHECK(rows_of("\"a\"b,c\nd,e\n") == Lines{"1:4 text after quote", "2: [d] [e]"});
}

TEST_CASE("a quoted field runs over at most 32 line ends") {
  const auto quoted = [](std::size_t breaks) { return "\"" + std::string(breaks, '\n') + "\",x\nlast\n"; };
  CHECK(rows_of(quoted(32)) == Lines{"1: [" + std::string(32, '\n') + "] [x]", "34: [last]"});
  CHECK(rows_of(quoted(33)).front() == "1:1 open quote");
  CHECK(rows_of(quoted(33)).back() == "35: [last]");
}

TEST_CASE("a line that is longer than a row may be is passed over in flat memory") {
  const std::string longest(RowSplitter::k_max_row, 'x');
  CHECK(rows_of(longest + "\nb\n") == Lines{"1: [" + longest + "]", "2: [b]"});
  CHECK(rows_of(longest + "y\nb\n") == Lines{"1:1 too long", "2: [b]"});
  CHECK(rows_of(std::string(3'000'000, 'x') + "\r\nb\n") == Lines{"1:1 too long", "2: [b]"});
  CHECK(rows_of("a\n" + std::string(3'000'000, 'x')) == Lines{"1: [a]", "2:1 too long"});
  CHECK(rows_of("\"a\"," + longest + "\nb\n") == Lines{"1:1 too long", "2: [b]"});
}

TEST_CASE("a NUL byte costs its own line only") {
  using namespace std::string_view_literals;
  CHECK(rows_of("a\nb\0c\nd\n"sv) == Lines{"1: [a]", "2:2 NUL", "3: [d]"});
}

TEST_CASE("positions count lines and columns inside a row that runs over lines") {
  MemorySource source{"\"a\nbc\",d,\"e\"\n"};
  RowSplitter rows{source};
  REQUIRE(rows.next());
  REQUIRE(rows.fields().size() == 3);
  CHECK(rows.position(rows.fields()[1].offset).line == 2);
  CHECK(rows.position(rows.fields()[1].offset).column == 5);
  CHECK(rows.position(rows.fields()[2].offset).column == 7);
  CHECK_FALSE(rows.next());
  CHECK(rows.multi_line_rows() == 1);
}

TEST_CASE("a look ahead goes back to where it began, whatever was read since") {
  std::string text;
  for (int i = 0; i < 200'000; ++i) text += fmt::format("row,{}\n", i);
  MemorySource source{text};
  RowSplitter rows{source};
  REQUIRE(rows.next());
  rows.mark();
  std::size_t ahead = 0;
  while (rows.next()) ++ahead;
  CHECK(ahead == 199'999);
  CHECK_FALSE(rows.lookahead_spent());
  rows.rewind();
  REQUIRE(rows.next());
  CHECK(rows.line() == 2);
  CHECK(rows.fields()[1].text == "1");
}

TEST_CASE("a look ahead ends before it holds the whole of a big file") {
  const std::string text(30'000'000, 'x');
  std::string lines;
  lines.reserve(text.size());
  while (lines.size() < 30'000'000) lines += "0123456789\n";
  for (const std::string& bytes : {text, lines}) {
    MemorySource source{bytes};
    RowSplitter rows{source};
    rows.mark();
    while (rows.next()) {
    }
    CHECK(rows.lookahead_spent());
    rows.rewind();
    std::size_t count = 0;
    while (rows.next()) ++count;
    CHECK(count == (bytes == text ? 1 : (30'000'000 + 10) / 11));
  }
}

TEST_CASE("a CRLF of which the halves come in two blocks is one line end") {
  for (std::size_t at = TextBuffer::k_block - 20; at <= TextBuffer::k_block + 20; ++at) {
    std::string text;
    while (text.size() + 100 < at) text += "some,row\n";
    const auto lines = static_cast<std::size_t>(std::count(text.begin(), text.end(), '\n'));
    text += std::string(at - text.size(), 'x') + "\r\nnext,row\r\nlast,row\r\n";
    const Lines rows = rows_of(text);
    REQUIRE(rows.size() == lines + 3);
    CHECK(rows[lines + 1] == fmt::format("{}: [next] [row]", lines + 2));
    CHECK(rows.back() == fmt::format("{}: [last] [row]", lines + 3));
  }
}

TEST_CASE("rows of many fields are split as rows of few") {
  for (const std::size_t count : {15, 16, 17, 31, 32, 33, 1000}) {
    std::string line = "a";
    for (std::size_t i = 1; i < count; ++i) line += ",a";
    const std::string text = "b,c\n" + line + "\n" + line + "\n";
    MemorySource source{text};
    RowSplitter rows{source};
    REQUIRE(rows.next());
    REQUIRE(rows.next());
    CHECK(rows.fields().size() == count);
    REQUIRE(rows.next());
    CHECK(rows.fields().size() == count);
    CHECK(rows.fields().back().offset == 2 * (count - 1));
    CHECK_FALSE(rows.next());
  }
}

TEST_CASE("how the source cuts its bytes changes no row") {
  std::string text = "\xEF\xBB\xBFid,\"na\"\"me\",x\r\n# c\r\n\r\n1,\"a\r\nb\",2\r\"open\n5,\"x\"y,6\n7,,\n";
  text += "\"q\"," + std::string(RowSplitter::k_max_row, 'z') + "\r\nend,1\r";
  const Lines whole = rows_of(text);
  REQUIRE(whole.size() == 7);
  for (const std::size_t piece : {1, 2, 3, 7, 4096}) {
    PieceSource source{text, piece};
    CHECK(rows_of(source) == whole);
  }
}

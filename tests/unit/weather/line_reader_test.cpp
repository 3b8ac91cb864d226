// Lines, whatever ends them and however the bytes come.
#include <budclock/weather/line_reader.hpp>

#include "reading.hpp"

#include <catch2/catch.hpp>
#include <fmt/format.h>

using namespace budclock::weather;
using namespace budclock::weather::test;

namespace {

/// "1 text" for each line, "1 (long)" for one that is too long.
Lines lines_of(std::string_view bytes, std::size_t piece) {
  PieceSource source{bytes, piece};
  LineReader reader{source};
  Lines lines;
  while (reader.next()) {
    lines.push_back(fmt::format("{} {}", reader.line(), reader.too_long() ? "(long)" : reader.text()));
  }
  return lines;
}

Lines lines_of(std::string_view bytes) { return lines_of(bytes, bytes.size() + 1); }

}  // namespace

TEST_CASE("lines end at LF, CRLF, CR or CR CR LF, and the last one may have no end") {
  CHECK(lines_of("a\nb\r\nc\rd\r\r\ne") == Lines{"1 a", "2 b", "3 c", "4 d", "5 e"});
  CHECK(lines_of("a\n") == Lines{"1 a"});
  CHECK(lines_of("a\r") == Lines{"1 a"});
  CHECK(lines_of("a\r\r") == Lines{"1 a", "2 "});
  CHECK(lines_of("\n\r\n\n") == Lines{"1 ", "2 ", "3 "});
  CHECK(lines_of("").empty());
}

TEST_CASE("a byte order mark is no part of the first line") {
  CHECK(lines_of("\xEF\xBB\xBF"
                 "a\n\xEF\xBB\xBF\n") == Lines{"1 a", "2 \xEF\xBB\xBF"});
}

TEST_CASE("lines are the same in any pieces") {
  std::string text;
  for (int i = 0; i < 40'000; ++i) {
    text += std::string(static_cast<std::size_t>(i % 83), static_cast<char>('a' + i % 26));
    text += i % 4 == 0 ? "\n" : i % 4 == 1 ? "\r\n" : i % 4 == 2 ? "\r\r\n" : "\r";
    if (i % 4 == 3) text += "x\n";
  }
  const Lines whole = lines_of(text);
  CHECK(whole.size() == 50'000);
  CHECK(lines_of(text, 1) == whole);
  CHECK(lines_of(text, 4'093) == whole);
}

TEST_CASE("a line of the longest length is read, a longer one is dropped, however long") {
  const std::string longest(LineReader::k_longest_line, 'x');
  CHECK(lines_of(longest + "\nb") == Lines{"1 " + longest, "2 b"});
  CHECK(lines_of(longest + "x\nb") == Lines{"1 (long)", "2 b"});
  const std::string endless(std::size_t{3} << 20, 'x');
  CHECK(lines_of("a\n" + endless + "\r\nb") == Lines{"1 a", "2 (long)", "3 b"});
  CHECK(lines_of("a\n" + endless) == Lines{"1 a", "2 (long)"});
}

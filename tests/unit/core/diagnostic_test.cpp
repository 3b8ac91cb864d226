#include <budclock/core/diagnostic.hpp>

#include <catch2/catch.hpp>

using namespace budclock;

TEST_CASE("a diagnostic reads file:line:column: what is wrong: what to do") {
  CHECK(to_text(Diagnostic{Severity::fault, {"w.csv", 3, 14}, "tmax is empty", "fill it in"}) ==
        "w.csv:3:14: tmax is empty: fill it in");
  CHECK(to_text(Diagnostic{Severity::note, {"w.csv", 3, 0}, "a gap", ""}) == "w.csv:3: a gap");
  CHECK(to_text(Diagnostic{Severity::error, {"w.csv", 0, 0}, "empty", "export it again"}) ==
        "w.csv: empty: export it again");
  CHECK(to_text(Diagnostic{Severity::error, {}, "no weather", "give --weather"}) == "no weather: give --weather");
}

TEST_CASE("control characters and broken UTF-8 are shown, never sent to the terminal") {
  CHECK(printable("a\x1b[31mb") == "a\\x1B[31mb");
  CHECK(printable("tab\there") == "tab\\x09here");
  CHECK(printable("\xff\xfe") == "\\xFF\\xFE");
  CHECK(printable("\xc0\xaf") == "\\xC0\\xAF");           // overlong slash
  CHECK(printable("\xed\xa0\x80") == "\\xED\\xA0\\x80");  // surrogate
  CHECK(printable("\xc2\x9b") == "\\xC2\\x9B");           // C1 control sequence introducer
  CHECK(printable("\xe2\x80\xae"
                  "cod.exe") == "\\xE2\\x80\\xAEcod.exe");  // turns the rest of the line round
  CHECK(printable("\xe2\x81\xa6\xe2\x80\xa8") == "\\xE2\\x81\\xA6\\xE2\\x80\\xA8");
  CHECK(printable("\xe2\x80\x8f\xe2\x80\xaf\xe2\x80\xa7") == "\xe2\x80\x8f\xe2\x80\xaf\xe2\x80\xa7");
  CHECK(printable("M\xc3\xbcller \xf0\x9f\x8c\xb2") == "M\xc3\xbcller \xf0\x9f\x8c\xb2");
}

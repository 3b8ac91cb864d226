#include <budclock/core/spreadsheet.hpp>

#include <catch2/catch.hpp>
#include <rapidcheck/catch.h>

using namespace budclock;

TEST_CASE("a cell that a spreadsheet could run gets an apostrophe, and no other") {
  CHECK(guarded_cell("=1+1") == "'=1+1");
  CHECK(guarded_cell("\tx") == "'\tx");
  CHECK(guarded_cell("\rx") == "'\rx");
  CHECK(guarded_cell("boxwood = box") == "boxwood = box");
  CHECK(guarded_cell("'t Hof") == "'t Hof");
  CHECK(guarded_cell("") == "");
}

TEST_CASE("a cell that no program guarded comes back as it is") {
  CHECK(unguarded_cell("-") == "-");
  CHECK(unguarded_cell("'t Hof") == "'t Hof");
  CHECK(unguarded_cell("'") == "'");
}

TEST_CASE("every cell comes back from its guard") {
  const auto cells = rc::gen::container<std::string>(rc::gen::element('\'', '=', '+', '-', '@', '\t', '\r', '\n', 'a'));
  rc::prop("guarded and unguarded", [&] {
    const std::string cell = *cells;
    RC_ASSERT(unguarded_cell(guarded_cell(cell)) == cell);
    RC_ASSERT(cell.empty() || std::string{"=+-@\t\r"}.find(guarded_cell(cell).front()) == std::string::npos);
  });
}

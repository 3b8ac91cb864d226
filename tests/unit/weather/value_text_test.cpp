#include <budclock/weather/value_text.hpp>

#include <catch2/catch.hpp>
#include <fmt/format.h>

using namespace budclock;
using namespace budclock::weather;

namespace {

/// The hundredths of a number, or what else the cell is.
std::string read(std::string_view text, char mark = '.') {
  const Cell cell = read_cell(text, mark);
  if (cell.kind == CellKind::number) return std::to_string(cell.hundredths);
  return cell.kind == CellKind::missing ? "missing" : "malformed";
}

}  // namespace

TEST_CASE("plain decimal numbers are read exactly") {
  CHECK(read("61.5") == "6150");
  CHECK(read("-0.6") == "-60");
  CHECK(read("+3") == "300");
  CHECK(read("0") == "0");
  CHECK(read("-0.0") == "0");
  CHECK(read("007.25") == "725");
  CHECK(read("5.") == "500");
  CHECK(read(".5") == "50");
  CHECK(read("45,3", ',') == "4530");
}

TEST_CASE("every hundredth from -150 to 150 degrees is read exactly") {
  int wrong = 0;
  for (int h = -15'000; h <= 15'000; ++h) {
    const std::string text = fmt::format("{}{}.{:02}", h < 0 ? "-" : "", std::abs(h) / 100, std::abs(h) % 100);
    wrong += read_cell(text, '.').hundredths != h ? 1 : 0;
  }
  CHECK(wrong == 0);
}

TEST_CASE("more decimals are rounded to the nearest hundredth") {
  CHECK(read("60.980000000000004") == "6098");
  CHECK(read("71.96000000000001") == "7196");
  CHECK(read("29.999999999999996") == "3000");
  CHECK(read("1.005") == "101");
  CHECK(read("-1.005") == "-101");
  CHECK(read("1.0049999") == "100");
}

TEST_CASE("a number too large for a temperature is cut, not wrapped round") {
  CHECK(read("99999999999999999999") == "100000000");
  CHECK(read("-4294967297.5") == "-100000050");
}

TEST_CASE("what is not a plain number is malformed") {
  for (const char* text : {"61F", "61.5 F", "1e3", "0x1F", "inf", "-inf", "4O.1", "45,3", "1.2.3", "--5", "+-5", "T",
                           "5 6", "+", "?", "61.5a", "missingx"}) {
    CHECK(read(text) == "malformed");
  }
}

TEST_CASE("the usual marks for no value are missing") {
  for (const char* text : {"",     "NA",   "n/a", "#N/A", "M",    "m",   "-",  "--",      "---",     ".",
                           "null", "NULL", "NaN", "nan",  "None", "nil", "ND", "missing", "Missing", "*"}) {
    CHECK(read(text) == "missing");
  }
}

TEST_CASE("numbers of nines stand for no value when no thermometer could show them") {
  for (const int h : {-999900, 999900, -99900, 99900, 99990, -99990, -9999900, 9999900, -9900, -9990, -9999, 999990}) {
    CHECK(is_missing_mark(h));
  }
  for (const int h : {9900, 9990, 9999, -9000, 900, 0, -9950, 99950, 50000, -2000000}) CHECK_FALSE(is_missing_mark(h));
}

TEST_CASE("values are shown with as many decimals as they need") {
  CHECK(with_unit(Temperature::hundredths_fahrenheit(6150), TemperatureUnit::fahrenheit) == "61.5 F");
  CHECK(with_unit(Temperature::hundredths_fahrenheit(10000), TemperatureUnit::fahrenheit) == "100 F");
  CHECK(with_unit(k_coldest, TemperatureUnit::fahrenheit) == "-128.92 F");
  CHECK(with_unit(k_warmest, TemperatureUnit::celsius) == "57.7 C");
}

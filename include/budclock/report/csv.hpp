// CSV after RFC 4180, safe to open in a spreadsheet.
#pragma once

#include <string>
#include <string_view>
#include <utility>

namespace budclock::report {

/// How cells are parted and numbers written. Offices whose decimal mark is the comma need semicolons between cells.
struct CsvDialect {
  char delimiter = ',';
  char decimal = '.';
};

/// Builds CSV text row by row. Lines end in LF.
class CsvText {
 public:
  CsvText() = default;
  explicit CsvText(const CsvDialect& dialect) : dialect_{dialect} {}

  /// Free text: quoted where needed, and a cell that a spreadsheet could run as a formula (it starts with = + - @, a
  /// tab or a carriage return; CWE-1236) gets an apostrophe in front.
  CsvText& text(std::string_view cell);
  /// A whole number, a date, or one of our own words: quoted where needed, never changed.
  CsvText& plain(std::string_view cell);
  /// A number written with a decimal point, which becomes the dialect's mark.
  CsvText& number(std::string_view cell);
  CsvText& empty() { return plain({}); }
  void end_row();

  const std::string& str() const { return out_; }
  /// What was built since it was last taken.
  std::string take() { return std::exchange(out_, {}); }

 private:
  void separate();

  CsvDialect dialect_;
  std::string out_;
  bool row_started_ = false;
};

}  // namespace budclock::report

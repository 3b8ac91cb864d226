// Splits delimited text into rows of fields, one row at a time, in flat memory.
//
// Our own code, because the packaged reader (libfccp) knows neither CR-only line ends, nor line breaks in quotes, nor
// a delimiter chosen at run time, and gives no column for a message.
#pragma once

#include <budclock/weather/byte_source.hpp>

#include <cstddef>
#include <cstdint>
#include <limits>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace budclock::weather {

/// One field of a row. `text` has no quotes around it and doubled quotes made single; spaces are kept.
struct Field {
  std::string_view text;
  std::size_t offset = 0;  ///< bytes from the row's first byte to the field's first byte (its quote, if quoted)
};

/// Why a row could not be split. Such a row has no fields and spans one line.
enum class RowFault : std::uint8_t {
  none,
  open_quote,        ///< a quote that is not closed within k_max_row bytes and k_max_quoted_breaks line breaks
  text_after_quote,  ///< something between a closing quote and the next delimiter
  too_long,          ///< more than k_max_row bytes
  holds_nul,         ///< a NUL byte: not text
};

/// Rows of a byte source. Line ends are LF, CRLF or CR, mixed as they come; a UTF-8 byte order mark is skipped; blank
/// lines and lines whose first mark is '#' are skipped. Quoting is RFC 4180's, with spaces allowed around the quotes.
/// A stray quote costs its own line, never the lines after it.
class RowSplitter {
 public:
  static constexpr std::size_t k_max_row = std::size_t{64} << 10;
  static constexpr std::size_t k_max_quoted_breaks = 32;

  explicit RowSplitter(ByteSource& source);

  /// The delimiter of the rows read from now on.
  void set_delimiter(char delimiter) { delimiter_ = delimiter; }

  /// Goes to the next row; false at the end. What the last row gave is void then.
  bool next();

  std::span<const Field> fields() const { return {fields_.data(), field_count_}; }
  RowFault fault() const { return fault_; }
  std::size_t fault_offset() const { return fault_offset_; }

  /// The line on which the row begins, from 1.
  std::size_t line() const { return row_line_; }
  /// Line and column (from 1) of an offset into the row.
  struct Position {
    std::size_t line;
    std::size_t column;
  };
  Position position(std::size_t offset) const;

  /// The first bytes of the input (up to `count`), without consuming them. Only before the first row.
  std::string_view peek(std::size_t count);

  /// Remembers this place, so that rows can be looked at ahead: `rewind` goes back to it. Looking ahead ends, as if
  /// the input did, when about k_max_lookahead bytes are kept; `lookahead_spent` tells that from the real end.
  static constexpr std::size_t k_max_lookahead = std::size_t{8} << 20;
  void mark();
  void rewind();
  bool lookahead_spent() const { return lookahead_spent_; }

  /// Rows that ran over several lines inside quotes so far.
  std::size_t multi_line_rows() const { return multi_line_rows_; }

 private:
  static constexpr std::size_t k_block = std::size_t{256} << 10;
  static constexpr std::size_t k_none = std::numeric_limits<std::size_t>::max();

  /// The next place of one byte, searched again only after it has been passed.
  struct Finder {
    char byte;
    std::size_t place = 0;
    bool known = false;
  };
  std::size_t find(Finder& finder) const;
  void forget_finds();

  bool refill();
  bool line_is_whole() const;
  bool find_line_end();
  bool skip_line_if_empty();
  void skip_long_line();
  void split_plain();
  void split_quoted();
  std::size_t quoted_field(std::size_t open, std::size_t limit, std::size_t& line_breaks);
  std::string_view without_doubled_quotes(std::string_view text);
  void add_field(std::string_view text, std::size_t begin);
  void fail(RowFault fault, std::size_t at);
  void end_row(std::size_t end, std::size_t line_breaks);
  std::size_t after_line_end(std::size_t at) const;
  bool is_line_end(std::size_t at) const { return buffer_[at] == '\n' || buffer_[at] == '\r'; }
  bool ends_field(std::size_t at) const { return buffer_[at] == delimiter_ || is_line_end(at); }

  ByteSource& source_;
  char delimiter_ = ',';
  std::vector<char> buffer_;
  std::size_t position_ = 0;  ///< start of what has not been split yet
  std::size_t end_ = 0;       ///< end of what has been read
  bool source_ended_ = false;
  std::size_t line_ = 1;  ///< line number at position_
  std::size_t mark_ = k_none;
  std::size_t mark_line_ = 0;
  bool lookahead_spent_ = false;

  Finder line_feed_{'\n'};
  Finder carriage_return_{'\r'};
  Finder quote_{'"'};
  Finder nul_{'\0'};
  std::size_t line_end_ = 0;  ///< end of the physical line at position_, without its CR and LF

  std::size_t row_begin_ = 0;
  std::size_t row_line_ = 0;
  std::vector<Field> fields_;
  std::size_t field_count_ = 0;
  std::string unquoted_;  ///< text of fields whose doubled quotes were made single
  RowFault fault_ = RowFault::none;
  std::size_t fault_offset_ = 0;
  std::size_t multi_line_rows_ = 0;
};

}  // namespace budclock::weather

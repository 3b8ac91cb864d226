// Splits delimited text into rows of fields, one row at a time, in flat memory.
//
// Our own code, because the packaged reader (libfccp) knows neither CR-only line ends, nor line breaks in quotes, nor
// a delimiter chosen at run time, and gives no column for a message.
#pragma once

#include <budclock/weather/text_buffer.hpp>

#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <utility>
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
  bool next() {
    field_count_ = 0;
    fault_ = RowFault::none;
    return split_common_row() || next_of_any_kind();
  }

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
  std::string_view peek(std::size_t count) const;

  /// Remembers this place, so that rows can be looked at ahead: `rewind` goes back to it. Looking ahead ends, as if
  /// the input did, when about TextBuffer::k_max_lookahead bytes are kept; `lookahead_spent` tells that from the end.
  void mark();
  void rewind();
  bool lookahead_spent() const { return text_.lookahead_spent(); }

  /// A splitter of its own for the next rows, which are skipped here: whole lines, as many as stand in memory. Nothing
  /// when they hold a quote or a NUL byte, which may concern the lines after them too, or are few.
  std::optional<RowSplitter> split_off();

  /// Rows that ran over several lines inside quotes so far.
  std::size_t multi_line_rows() const { return multi_line_rows_; }

 private:
  RowSplitter(TextBuffer&& text, char delimiter, std::size_t line)
      : text_{std::move(text)}, delimiter_{delimiter}, line_{line}, fields_(16) {}

  /// The next place of one byte, searched again only after it has been passed.
  struct Finder {
    char byte;
    std::size_t place = 0;
    bool known = false;
  };
  std::size_t find(Finder& finder) const;
  void forget_places();
  bool refill();

  bool split_common_row();
  bool next_of_any_kind();
  bool line_is_whole() const;
  bool find_line_end();
  bool skip_line_if_empty();
  void skip_long_line();
  void split_plain();
  void split_quoted();
  std::size_t quoted_field(std::size_t open, std::size_t limit, std::size_t& line_breaks);
  std::string_view without_doubled_quotes(std::string_view text);
  void add_field(std::size_t begin, std::size_t end) { add_field({text_.bytes() + begin, end - begin}, begin); }
  void add_field(std::string_view text, std::size_t begin) {
    if (field_count_ == fields_.size()) fields_.resize(fields_.size() * 2);
    fields_[field_count_++] = Field{text, begin - row_begin_};
  }
  void end_row(std::size_t end, std::size_t line_breaks);
  void fail(RowFault fault, std::size_t at);
  std::size_t after_line_end(std::size_t at) const;
  bool is_line_end(std::size_t at) const { return text_[at] == '\n' || text_[at] == '\r'; }
  bool ends_field(std::size_t at) const { return text_[at] == delimiter_ || is_line_end(at); }

  TextBuffer text_;
  char delimiter_ = ',';
  std::size_t line_ = 1;  ///< line number at the text's position
  std::size_t mark_line_ = 0;

  Finder line_feed_{'\n'};
  Finder carriage_return_{'\r'};
  Finder quote_{'"'};
  Finder nul_{'\0'};
  std::size_t line_end_ = 0;    ///< end of the physical line at the position, without its CR and LF
  std::size_t common_end_ = 0;  ///< up to here there is no quote and no NUL

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

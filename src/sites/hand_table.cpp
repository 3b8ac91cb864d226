#include <budclock/core/utf8.hpp>
#include <budclock/document/object_reader.hpp>
#include <budclock/sites/hand_table.hpp>
#include <budclock/weather/byte_source.hpp>
#include <budclock/weather/row_splitter.hpp>
#include <budclock/weather/value_text.hpp>

#include <algorithm>
#include <fmt/format.h>

namespace budclock::sites {
namespace {

using weather::Field;
using weather::RowFault;
using weather::RowSplitter;

std::string lower_case(std::string_view text) {
  std::string lower{text};
  for (char& c : lower) {
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  }
  return lower;
}

bool holds(const std::vector<std::string_view>& names, std::string_view name) {
  return std::find(names.begin(), names.end(), name) != names.end();
}

const char* to_text(RowFault fault) {
  switch (fault) {
    case RowFault::open_quote:
      return "a quote is not closed";
    case RowFault::text_after_quote:
      return "text follows a closing quote";
    case RowFault::too_long:
      return "the row is too long";
    case RowFault::holds_nul:
      return "the row holds a NUL byte";
    case RowFault::none:
      break;
  }
  return "";
}

class TableReader {
 public:
  TableReader(std::string_view text, std::string_view file, const TableColumns& columns, Diagnostics& diagnostics)
      : text_{text}, file_{file}, columns_{columns}, diagnostics_{diagnostics}, source_{text}, rows_{source_} {}

  HandTable read() {
    if (!find_header()) return {};
    while (rows_.next()) read_row();
    note_comments();
    return std::move(table_);
  }

 private:
  void add(Severity severity, std::size_t line, std::size_t column, std::string message, std::string remedy) {
    diagnostics_.push_back({severity, {std::string{file_}, line, column}, std::move(message), std::move(remedy)});
  }

  std::ptrdiff_t known_names(std::span<const Field> fields) const {
    return std::count_if(fields.begin(), fields.end(), [this](const Field& field) {
      return holds(columns_.names, lower_case(weather::trimmed(field.text)));
    });
  }

  /// Goes to the header under the delimiter that makes the most of it.
  bool find_header() {
    std::ptrdiff_t most = -1;
    for (const char candidate : {',', ';', '\t'}) {
      rows_.mark();
      rows_.set_delimiter(candidate);
      const std::ptrdiff_t known = rows_.next() ? known_names(rows_.fields()) : -1;
      if (known > most) {
        most = known;
        table_.delimiter = candidate;
      }
      rows_.rewind();
    }
    rows_.set_delimiter(table_.delimiter);
    if (!rows_.next() || most < 1) {
      add(Severity::error, 0, 0, "the file has no header line",
          fmt::format("name its columns in the first line: {}", fmt::join(columns_.required, ",")));
      return false;
    }
    return read_header();
  }

  bool read_header() {
    for (const Field& field : rows_.fields()) {
      const auto [line, column] = rows_.position(field.offset);
      table_.header.push_back({lower_case(weather::trimmed(field.text)), line, column});
    }
    for (std::size_t i = 0; i < table_.header.size(); ++i) check_name(i);
    bool complete = true;
    for (const std::string_view name : columns_.required) {
      if (table_.column(name) != HandTable::k_none) continue;
      complete = false;
      add(Severity::error, rows_.line(), 0, fmt::format("there is no column \"{}\"", name), "add it");
    }
    return complete;
  }

  void check_name(std::size_t index) {
    HandCell& cell = table_.header[index];
    if (cell.text.empty()) return;
    if (table_.column(cell.text) != index) {
      add(Severity::fault, cell.line, cell.column,
          fmt::format("the column \"{}\" stands twice; the first is read", cell.text), "remove one of them");
      cell.text.clear();
      return;
    }
    const bool free = !columns_.free_prefix.empty() && cell.text.starts_with(columns_.free_prefix);
    if (free || holds(columns_.names, cell.text)) return;
    std::vector<std::string_view> absent;
    for (const std::string_view name : columns_.names) {
      if (table_.column(name) == HandTable::k_none) absent.push_back(name);
    }
    add(Severity::fault, cell.line, cell.column, fmt::format("unknown column \"{}\"; it is not read", cell.text),
        document::suggestion(cell.text, absent));
    cell.text.clear();
  }

  void fault(std::size_t line, std::size_t column, std::string_view what, std::string remedy) {
    add(Severity::fault, line, column, fmt::format("{}; the row is set aside", what), std::move(remedy));
  }

  void read_row() {
    if (read_cells()) return;
    table_.unread.push_back(rows_.line());
  }

  /// False, after a fault, when the row cannot be used.
  bool read_cells() {
    if (rows_.fault() != RowFault::none) {
      const auto [line, column] = rows_.position(rows_.fault_offset());
      fault(line, column, to_text(rows_.fault()), "correct the line");
      return false;
    }
    HandRow row{rows_.line(), {}};
    for (const Field& field : rows_.fields()) {
      const auto [line, column] = rows_.position(field.offset);
      row.cells.push_back({std::string{weather::trimmed(field.text)}, line, column});
    }
    if (!sound(row)) return false;
    const HandCell end{"", row.cells.back().line, row.cells.back().column};
    row.cells.resize(table_.header.size(), end);
    table_.rows.push_back(std::move(row));
    return true;
  }

  bool sound(HandRow& row) {
    for (const HandCell& cell : row.cells) {
      if (find_invalid_utf8(cell.text) == std::string_view::npos) continue;
      fault(cell.line, cell.column, "the text is not UTF-8", "save the file as UTF-8");
      return false;
    }
    while (row.cells.size() > table_.header.size() && row.cells.back().text.empty()) row.cells.pop_back();
    if (row.cells.size() <= table_.header.size()) return true;
    const HandCell& extra = row.cells[table_.header.size()];
    fault(extra.line, extra.column, fmt::format("the row has more than {} cells", table_.header.size()),
          "put quotes around a text that holds the delimiter");
    return false;
  }

  /// A name such as "#1 Elm Street" in the first column makes its row a comment: said, as nothing may vanish silently.
  void note_comments() {
    if (table_.header.size() < 3) return;
    std::size_t line = 1;
    for (std::size_t at = 0; at < text_.size(); ++line) {
      const std::size_t end = std::min(text_.find_first_of("\r\n", at), text_.size());
      const std::string_view whole = text_.substr(at, end - at);
      const auto delimiters = static_cast<std::size_t>(std::count(whole.begin(), whole.end(), table_.delimiter));
      if (whole.starts_with('#') && delimiters + 1 >= table_.header.size()) {
        add(Severity::note, line, 1, "this line begins with #, so it is a comment and no row",
            "put quotes around its first cell if it is one");
      }
      at = end + (text_.substr(end, 2) == "\r\n" ? 2 : 1);
    }
  }

  std::string_view text_;
  std::string_view file_;
  const TableColumns& columns_;
  Diagnostics& diagnostics_;
  weather::MemorySource source_;
  RowSplitter rows_;
  HandTable table_;
};

}  // namespace

std::size_t HandTable::column(std::string_view name) const {
  for (std::size_t i = 0; i < header.size(); ++i) {
    if (header[i].text == name) return i;
  }
  return k_none;
}

HandTable read_hand_table(std::string_view text, std::string_view file_name, const TableColumns& columns,
                          Diagnostics& diagnostics) {
  return TableReader{text, file_name, columns, diagnostics}.read();
}

}  // namespace budclock::sites

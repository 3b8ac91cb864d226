#include <budclock/core/spreadsheet.hpp>
#include <budclock/files/open_file.hpp>
#include <budclock/journal/append.hpp>
#include <budclock/journal/log.hpp>
#include <budclock/sites/hand_table.hpp>

#include "date_column.hpp"

#include <algorithm>
#include <cerrno>
#include <cstdio>
#include <fcntl.h>
#include <fmt/format.h>
#include <optional>
#include <sys/stat.h>
#include <unistd.h>
#include <utility>

namespace budclock::journal {
namespace {

bool exists(const std::string& path) {
  struct stat status {};
  return ::stat(path.c_str(), &status) == 0;
}

/// The file that LibreOffice keeps beside a document it has open.
bool open_in_spreadsheet(const std::string& path) {
  const std::string name = path.substr(path.find_last_of('/') + 1);
  return exists(files::folder_of(path) + ".~lock." + name + "#");
}

/// Writes `bytes` after the first `size` of the file, in one piece and down to the disk; 0, or why not. On failure
/// the file has its first `size` bytes, as before.
int write_after(const files::OpenFile& file, std::size_t size, const std::string& bytes) {
  const ssize_t count = ::pwrite(file.get(), bytes.data(), bytes.size(), static_cast<off_t>(size));
  int error = count < 0 ? errno : 0;
  if (count >= 0 && static_cast<std::size_t>(count) < bytes.size()) error = ENOSPC;
  if (error == 0 && ::fsync(file.get()) != 0) error = errno;
  if (error != 0 && ::ftruncate(file.get(), static_cast<off_t>(size)) != 0) return errno;
  return error;
}

/// How a file writes its rows.
struct Dialect {
  char delimiter = ',';
  std::string line_end = "\n";
  bool quotes_all = false;
};

/// The first line that is neither blank nor a comment, without a byte order mark.
std::string_view first_line(std::string_view text) {
  constexpr std::string_view k_byte_order_mark = "\xEF\xBB\xBF";
  if (text.starts_with(k_byte_order_mark)) text.remove_prefix(k_byte_order_mark.size());
  while (!text.empty()) {
    const std::size_t end = std::min(text.find_first_of("\r\n"), text.size());
    const std::string_view line = text.substr(0, end);
    if (!line.empty() && line.front() != '#') return line;
    text.remove_prefix(std::min(end + 1, text.size()));
  }
  return text;
}

Dialect dialect_of(std::string_view text, char delimiter) {
  Dialect dialect{delimiter, "\n", first_line(text).starts_with('"')};
  const std::size_t end = text.find_first_of("\r\n");
  if (end != std::string_view::npos && text[end] == '\r') {
    dialect.line_end = text.substr(end, 2) == "\r\n" ? "\r\n" : "\r";
  }
  return dialect;
}

void add_cell(std::string& line, std::string_view cell, bool first, const Dialect& dialect) {
  if (!first) line += dialect.delimiter;
  const bool special = cell.find_first_of("\"\r\n") != std::string_view::npos ||
                       cell.find(dialect.delimiter) != std::string_view::npos || cell.starts_with('#');
  if (!special && !dialect.quotes_all) {
    line += cell;
    return;
  }
  line += '"';
  for (const char c : cell) {
    if (c == '"') line += '"';
    line += c;
  }
  line += '"';
}

/// The row to be added, against what the file holds.
class Addition {
 public:
  Addition(const std::string& path, const TableShape& shape, std::span<const std::string> cells)
      : path_{path}, shape_{shape} {
    for (std::size_t i = 0; i < shape.columns.size(); ++i) {
      cells_.push_back(holds(shape.free_text, shape.columns[i]) ? guarded_cell(cells[i]) : cells[i]);
    }
  }

  /// What to write after `text`, or the reason not to.
  AppendResult plan(std::string_view text, std::string& bytes) const {
    if (first_line(text).empty()) {
      bytes = ends_line(text) ? "" : "\n";
      bytes += line({shape_.columns.begin(), shape_.columns.end()}, {}) + line(cells_, {});
      return {Appended::added, {}};
    }
    Diagnostics ignored;  // what is wrong with old rows is for those who read them
    const sites::TableColumns columns{{shape_.columns.begin(), shape_.columns.end()}, {}, ""};
    // A log of years is long, and a row that repeats another is rare: mostly the header is all that need be read.
    const std::string_view needed = may_hold_same(text) ? text : through_header(text);
    const sites::HandTable table = sites::read_hand_table(needed, path_, columns, ignored);
    if (table.header.empty()) return failed("the file has no header line", "name its columns in the first line");
    for (std::size_t i = 0; i < cells_.size(); ++i) {
      if (cells_[i].empty() || table.column(shape_.columns[i]) != sites::HandTable::k_none) continue;
      return failed(fmt::format("the file has no column \"{}\"", shape_.columns[i]), "add it to the header line");
    }
    if (const sites::HandRow* same = find_same(table)) {
      return {Appended::duplicate,
              {{Severity::note, {path_, same->line, 0}, "this row is there already; it is not added again", ""}}};
    }
    const Dialect dialect = dialect_of(text, table.delimiter);
    bytes = (ends_line(text) ? "" : dialect.line_end) + line(in_order_of(table), dialect);
    return {Appended::added, {}};
  }

  AppendResult failed(std::string message, std::string remedy) const {
    return {Appended::failed,
            {{Severity::error, {path_, 0, 0}, std::move(message) + "; nothing was added", std::move(remedy)}}};
  }

 private:
  static bool holds(std::span<const std::string_view> columns, std::string_view column) {
    return std::find(columns.begin(), columns.end(), column) != columns.end();
  }

  static bool ends_line(std::string_view text) {
    return text.empty() || text.back() == '\n' || text.back() == '\r' || text == "\xEF\xBB\xBF";
  }

  static std::string line(const std::vector<std::string>& cells, const Dialect& dialect) {
    std::string text;
    for (std::size_t i = 0; i < cells.size(); ++i) add_cell(text, cells[i], i == 0, dialect);
    return text + dialect.line_end;
  }

  std::vector<std::string> in_order_of(const sites::HandTable& table) const {
    std::vector<std::string> ordered(table.header.size());
    for (std::size_t i = 0; i < cells_.size(); ++i) {
      const std::size_t column = table.column(shape_.columns[i]);
      if (column != sites::HandTable::k_none) ordered[column] = cells_[i];
    }
    return ordered;
  }

  /// False when some cell occurs nowhere in the text. A date may be written otherwise, a quote is doubled.
  bool may_hold_same(std::string_view text) const {
    for (std::size_t i = 0; i < cells_.size(); ++i) {
      if (shape_.columns[i] == "date" || holds(shape_.looked_up, shape_.columns[i])) continue;
      if (cells_[i].find('"') != std::string::npos) continue;
      if (text.find(cells_[i]) == std::string_view::npos) return false;
    }
    return true;
  }

  static std::string_view through_header(std::string_view text) {
    const std::string_view line = first_line(text);
    return text.substr(0, static_cast<std::size_t>(line.data() + line.size() - text.data()));
  }

  const sites::HandRow* find_same(const sites::HandTable& table) const {
    const std::size_t date = table.column("date");
    const auto dates = date == sites::HandTable::k_none ? std::nullopt : std::optional{DateColumn{table, date}};
    const std::vector<std::string> wanted = in_order_of(table);
    const auto same_cell = [&](const sites::HandRow& row, std::size_t i) {
      if (row.cells[i].text == wanted[i] || table.header[i].text.empty()) return true;
      if (holds(shape_.looked_up, table.header[i].text)) return true;
      if (i != date) return false;
      const auto old = dates->read(row.cells[i].text);
      return old.fault == weather::DateFault::none && iso(old.day) == wanted[i];
    };
    for (const sites::HandRow& row : table.rows) {
      bool same = true;
      for (std::size_t i = 0; same && i < wanted.size(); ++i) same = same_cell(row, i);
      if (same) return &row;
    }
    return nullptr;
  }

  const std::string& path_;
  const TableShape& shape_;
  std::vector<std::string> cells_;
};

/// A new file under the name where it waits: it goes again unless it gets its own.
class Waiting {
 public:
  Waiting(std::string name, std::string own_name) : name_{std::move(name)}, own_name_{std::move(own_name)} {
    ::unlink(name_.c_str());  // what a killed run left
  }
  ~Waiting() {
    if (!named_) ::unlink(name_.c_str());
  }
  Waiting(const Waiting&) = delete;
  Waiting& operator=(const Waiting&) = delete;

  /// Never in the place of a file that has appeared meanwhile; 0, or why not.
  int give_name() {
    int error = ::renameat2(AT_FDCWD, name_.c_str(), AT_FDCWD, own_name_.c_str(), RENAME_NOREPLACE) == 0 ? 0 : errno;
    if (error == EINVAL || error == ENOSYS) {  // not on every file system
      error = ::rename(name_.c_str(), own_name_.c_str()) == 0 ? 0 : errno;
    }
    named_ = error == 0;
    return error;
  }

 private:
  std::string name_;
  std::string own_name_;
  bool named_ = false;
};

/// Of a file by that name nothing is known to the system, not even a link.
bool is_absent(const std::string& path) {
  struct stat status {};
  return ::lstat(path.c_str(), &status) != 0 && errno == ENOENT;
}

/// With the lock held. A new file is never there without its row: it gets its name when that is on the disk.
AppendResult append_locked(const std::string& path, const Addition& addition) {
  std::optional<Waiting> waiting;
  if (is_absent(path)) waiting.emplace(files::waiting_name(path), path);
  const files::OpenFile file{waiting ? files::waiting_name(path) : path, O_RDWR | O_CREAT};
  if (!file.is_open()) {
    return addition.failed("cannot be opened: " + files::reason(file.error()), "check the folder and its rights");
  }
  std::string text;
  if (const int error = files::read_all(file, text)) {
    return addition.failed("cannot be read: " + files::reason(error), "check the file");
  }
  std::string bytes;
  AppendResult result = addition.plan(text, bytes);
  if (result.outcome != Appended::added) return result;
  int error = write_after(file, text.size(), bytes);
  if (error == 0 && waiting) error = waiting->give_name();
  if (error != 0)
    return addition.failed("cannot be written: " + files::reason(error), "make room, then record it again");
  if (waiting) files::sync_folder(files::folder_of(path));
  if (open_in_spreadsheet(path)) {
    result.diagnostics.push_back({Severity::note,
                                  {path, 0, 0},
                                  "a spreadsheet seems to have the file open",
                                  "reload it there before saving, or saving takes the new row away"});
  }
  return result;
}

}  // namespace

AppendResult append_row(const std::string& path, const TableShape& shape, std::span<const std::string> cells) {
  const Addition addition{path, shape, cells};
  const files::OpenFile lock_file{path + ".lock", O_RDWR | O_CREAT};
  if (const int error = files::lock(lock_file, files::LockMode::wait)) {
    return addition.failed(fmt::format("{}.lock cannot be locked: {}", path, files::reason(error)),
                           "check the folder and its rights");
  }
  return append_locked(path, addition);
}

AppendResult append_to_log(const std::string& path, std::span<const std::string> cells) {
  static constexpr std::array<std::string_view, 4> k_free_text{"site", "plant", "by", "note"};
  return append_row(path, {k_log_columns, k_free_text}, cells);
}

}  // namespace budclock::journal

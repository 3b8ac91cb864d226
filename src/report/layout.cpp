#include <budclock/report/layout.hpp>

#include <algorithm>

namespace budclock::report {
namespace {

/// Characters of UTF-8 text: bytes that do not continue another.
std::size_t shown_width(std::string_view text) {
  return static_cast<std::size_t>(
      std::count_if(text.begin(), text.end(), [](char c) { return (static_cast<unsigned char>(c) & 0xC0) != 0x80; }));
}

std::string coded(std::string_view text, std::string_view code, const TextStyle& style) {
  if (!style.colour) return std::string{text};
  return "\x1b[" + std::string{code} + "m" + std::string{text} + "\x1b[0m";
}

}  // namespace

std::string paragraph(std::string_view text, std::size_t indent, const TextStyle& style, std::string_view lead) {
  std::string out{lead};
  std::size_t column = shown_width(lead);
  if (lead.empty()) {
    out.append(indent, ' ');
    column = indent;
  }
  bool first_word = true;
  while (!text.empty()) {
    const std::size_t space = text.find(' ');
    const std::string_view word = text.substr(0, space);
    text.remove_prefix(space == std::string_view::npos ? text.size() : space + 1);
    if (word.empty()) continue;
    const std::size_t width = shown_width(word);
    if (!first_word && column + 1 + width > style.width) {
      out += '\n';
      out.append(indent, ' ');
      column = indent;
    } else if (!first_word) {
      out += ' ';
      ++column;
    }
    out += word;
    column += width;
    first_word = false;
  }
  out += '\n';
  return out;
}

std::string bold(std::string_view text, const TextStyle& style) { return coded(text, "1", style); }
std::string dim(std::string_view text, const TextStyle& style) { return coded(text, "2", style); }

std::string table(const std::vector<std::vector<std::string>>& rows, std::size_t indent, const TextStyle& style) {
  std::vector<std::size_t> widths;
  for (const auto& row : rows) {
    widths.resize(std::max(widths.size(), row.size()), 0);
    for (std::size_t c = 0; c < row.size(); ++c) widths[c] = std::max(widths[c], shown_width(row[c]));
  }
  std::string out;
  for (const auto& row : rows) {
    std::string line;
    std::size_t pad = 0;
    for (std::size_t c = 0; c < row.size(); ++c) {
      if (row[c].empty()) {
        pad += widths[c] + 2;
        continue;
      }
      line.append(pad, ' ');
      line += row[c];
      pad = widths[c] - shown_width(row[c]) + 2;
    }
    out.append(indent, ' ');
    out += &row == &rows.front() ? dim(line, style) : line;
    out += '\n';
  }
  return out;
}

std::string list(const std::vector<std::string>& items, std::string_view last_word) {
  std::string out;
  for (std::size_t i = 0; i < items.size(); ++i) {
    if (i > 0 && i + 1 == items.size()) {
      out.append(" ").append(last_word).append(" ");
    } else if (i > 0) {
      out += ", ";
    }
    out += items[i];
  }
  return out;
}

}  // namespace budclock::report

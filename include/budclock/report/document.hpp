// A report for people as a run of parts, so that plain text, Markdown and HTML say the same words in the same order.
#pragma once

#include <budclock/core/sink.hpp>
#include <budclock/report/layout.hpp>

#include <cstdint>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace budclock::report {

enum class PartKind : std::uint8_t {
  title,
  section,
  label,      ///< a heading below a section
  group,      ///< a heading below a section, for what stands together across places
  place,      ///< whose the items below are
  paragraph,  ///< without a place in a list
  remark,     ///< a paragraph that belongs to a section
  item,       ///< of a list
  item_note,  ///< a further paragraph of the item before
  item_part,  ///< the same, set in further
  warning,    ///< an item that says what must not be done, or what is wrong
  entry,      ///< an item of a list of dates
  stop,       ///< an item below a place
  detail,     ///< an item below an entry or an item
  detail_note,
  closing,  ///< a paragraph after all lists
  source,   ///< an item that begins with its mark, "[1]"
};

struct Part {
  PartKind kind = PartKind::paragraph;
  std::string text;
  std::string mark{};  ///< of a source
};

/// The texts hold no control characters and no line breaks.
using Document = std::vector<Part>;

std::string as_text(std::span<const Part> document, const TextStyle& style);
void as_text(std::span<const Part> document, const TextStyle& style, const Sink& out);

/// CommonMark. What Markdown would read as markup is escaped.
std::string as_markdown(std::span<const Part> document);
void as_markdown(std::span<const Part> document, const Sink& out);

/// Elements for the body of a page, from h1 to lists; text is escaped.
std::string as_html(std::span<const Part> document);
void as_html(std::span<const Part> document, const Sink& out);

/// `& < > " '` as HTML wants them; usable in text and in quoted attributes.
std::string html_text(std::string_view text);

}  // namespace budclock::report

#include <budclock/report/document.hpp>

#include <algorithm>
#include <fmt/format.h>

namespace budclock::report {
namespace {

/// Text that Markdown shows as it is (CommonMark 0.31, section 2.4: a backslash before punctuation).
std::string escaped(std::string_view text) {
  constexpr std::string_view k_markup = "\\`*_[]<>|~";
  std::string out;
  for (const char c : text) {
    if (k_markup.find(c) != std::string_view::npos) out += '\\';
    out += c;
  }
  // At the start of a line these would make a heading, a list or a rule.
  const std::size_t digits = std::min(text.find_first_not_of("0123456789"), text.size());
  if (!text.empty() && std::string_view{"#+-="}.find(text.front()) != std::string_view::npos) out.insert(0, "\\");
  if (digits > 0 && digits < text.size() && (text[digits] == '.' || text[digits] == ')')) out.insert(digits, "\\");
  return out;
}

bool is_in_list(PartKind kind) { return kind >= PartKind::item && kind != PartKind::closing; }

bool is_note(PartKind kind) {
  return kind == PartKind::item_note || kind == PartKind::item_part || kind == PartKind::detail_note;
}

}  // namespace

void as_markdown(std::span<const Part> document, const Sink& out) {
  PartKind last = PartKind::title;
  for (const Part& part : document) {
    const bool goes_on = is_in_list(part.kind) && is_in_list(last) && !is_note(part.kind);
    if (&part != document.data() && !goes_on) out("\n");
    const std::string text = escaped(part.text);
    switch (part.kind) {
      case PartKind::title:
        out("# " + text);
        break;
      case PartKind::section:
        out("## " + text);
        break;
      case PartKind::label:
      case PartKind::group:
        out("### " + text);
        break;
      case PartKind::place:
        out("**" + text + "**");
        break;
      case PartKind::paragraph:
      case PartKind::remark:
      case PartKind::closing:
        out(text);
        break;
      case PartKind::item:
      case PartKind::entry:
      case PartKind::stop:
        out("- " + text);
        break;
      case PartKind::warning:
        out("- **!** " + text);
        break;
      case PartKind::item_note:
      case PartKind::item_part:
        out("  " + text);
        break;
      case PartKind::detail:
        out("  - " + text);
        break;
      case PartKind::detail_note:
        out("    " + text);
        break;
      case PartKind::source:
        out(fmt::format("- {} {}", escaped(part.mark), text));
        break;
    }
    out("\n");
    last = part.kind;
  }
}

std::string as_markdown(std::span<const Part> document) {
  return collected([&](const Sink& out) { as_markdown(document, out); });
}

}  // namespace budclock::report

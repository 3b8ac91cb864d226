#include <budclock/report/document.hpp>

#include <fmt/format.h>

namespace budclock::report {
namespace {

/// How a part stands on the page: the indent of its lines, and what its first line begins with.
struct Placing {
  std::size_t indent = 0;
  std::string_view lead{};
};

Placing placing(PartKind kind) {
  switch (kind) {
    case PartKind::remark:
    case PartKind::place:
      return {2};
    case PartKind::item:
      return {4, "  - "};
    case PartKind::item_note:
      return {4};
    case PartKind::item_part:
      return {6};
    case PartKind::warning:
      return {4, "  ! "};
    case PartKind::entry:
      return {6, "    "};
    case PartKind::stop:
      return {6, "    - "};
    case PartKind::detail:
      return {8, "      * "};
    case PartKind::detail_note:
      return {8};
    case PartKind::title:
    case PartKind::section:
    case PartKind::label:
    case PartKind::group:
    case PartKind::closing:
    case PartKind::paragraph:
    case PartKind::source:
      break;
  }
  return {};
}

}  // namespace

void as_text(std::span<const Part> document, const TextStyle& style, const Sink& out) {
  for (const Part& part : document) {
    switch (part.kind) {
      case PartKind::title:
        out(bold(part.text, style) + "\n");
        break;
      case PartKind::section:
        out("\n" + bold(part.text, style) + "\n");
        break;
      case PartKind::label:
        out(dim("  " + part.text, style) + "\n");
        break;
      case PartKind::group:
        out(bold(part.text, style) + "\n");
        break;
      case PartKind::closing:
        out("\n" + paragraph(part.text, 0, style));
        break;
      case PartKind::source:
        out(paragraph(part.text, 6, style, fmt::format("{:>5} ", part.mark)));
        break;
      default:
        out(paragraph(part.text, placing(part.kind).indent, style, placing(part.kind).lead));
    }
  }
}

std::string as_text(std::span<const Part> document, const TextStyle& style) {
  return collected([&](const Sink& out) { as_text(document, style, out); });
}

}  // namespace budclock::report

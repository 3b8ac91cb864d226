#include <budclock/report/document.hpp>

#include <fmt/format.h>

namespace budclock::report {
namespace {

/// How deep a part stands in lists.
std::size_t depth(PartKind kind) {
  switch (kind) {
    case PartKind::title:
    case PartKind::section:
    case PartKind::label:
    case PartKind::group:
    case PartKind::place:
    case PartKind::paragraph:
    case PartKind::remark:
    case PartKind::closing:
      return 0;
    case PartKind::item:
    case PartKind::item_note:
    case PartKind::item_part:
    case PartKind::warning:
    case PartKind::entry:
    case PartKind::stop:
    case PartKind::source:
      return 1;
    case PartKind::detail:
    case PartKind::detail_note:
      return 2;
  }
  return 0;
}

/// Writes parts one after the other, opening and closing the lists between them.
class HtmlWriter {
 public:
  explicit HtmlWriter(const Sink& out) : out_{out} {}

  void add(const Part& part) {
    const std::size_t wanted = depth(part.kind);
    while (open_ > wanted) close_list();
    const std::string text = html_text(part.text);
    switch (part.kind) {
      case PartKind::title:
        out_(fmt::format("<h1>{}</h1>\n", text));
        break;
      case PartKind::section:
        out_(fmt::format("<h2>{}</h2>\n", text));
        break;
      case PartKind::label:
      case PartKind::group:
        out_(fmt::format("<h3>{}</h3>\n", text));
        break;
      case PartKind::place:
        out_(fmt::format("<h4>{}</h4>\n", text));
        break;
      case PartKind::paragraph:
      case PartKind::remark:
      case PartKind::closing:
        out_(fmt::format("<p>{}</p>\n", text));
        break;
      case PartKind::item_note:
      case PartKind::item_part:
      case PartKind::detail_note:
        out_(fmt::format("<p class=\"note\">{}</p>\n", text));
        break;
      case PartKind::warning:
        item(wanted, fmt::format("<strong>!</strong> {}", text));
        break;
      case PartKind::source:
        item(wanted, fmt::format("<span class=\"mark\">{}</span> {}", html_text(part.mark), text));
        break;
      case PartKind::item:
      case PartKind::entry:
      case PartKind::stop:
      case PartKind::detail:
        item(wanted, text);
        break;
    }
  }

  void finish() {
    while (open_ > 0) close_list();
  }

 private:
  void item(std::size_t wanted, const std::string& html) {
    if (open_ == wanted) out_("</li>\n");
    for (; open_ < wanted; ++open_) out_("<ul>\n");
    out_("<li>" + html + "\n");
  }

  void close_list() {
    out_("</li>\n</ul>\n");
    --open_;
  }

  std::size_t open_ = 0;
  const Sink& out_;
};

}  // namespace

std::string html_text(std::string_view text) {
  std::string out;
  for (const char c : text) {
    switch (c) {
      case '&':
        out += "&amp;";
        break;
      case '<':
        out += "&lt;";
        break;
      case '>':
        out += "&gt;";
        break;
      case '"':
        out += "&quot;";
        break;
      case '\'':
        out += "&#39;";
        break;
      default:
        out += c;
    }
  }
  return out;
}

void as_html(std::span<const Part> document, const Sink& out) {
  HtmlWriter writer{out};
  for (const Part& part : document) writer.add(part);
  writer.finish();
}

std::string as_html(std::span<const Part> document) {
  return collected([&](const Sink& out) { as_html(document, out); });
}

}  // namespace budclock::report

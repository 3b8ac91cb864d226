#include <budclock/report/document.hpp>

#include <catch2/catch.hpp>

using namespace budclock::report;

namespace {

const Document k_document{
    {PartKind::title, "Mill Lane"},       {PartKind::paragraph, "Weather."}, {PartKind::section, "psyllid"},
    {PartKind::item, "Look now."},        {PartKind::item_note, "Why: so."}, {PartKind::item, "Leave alone."},
    {PartKind::label, "Stages"},          {PartKind::entry, "hatch"},        {PartKind::detail, "a figure"},
    {PartKind::detail_note, "its sums"},  {PartKind::warning, "No oil."},    {PartKind::remark, "Rarely needed."},
    {PartKind::source, "A title.", "[1]"}};

}  // namespace

TEST_CASE("a report as text has its indents and marks") {
  CHECK(as_text(k_document, {}) ==
        "Mill Lane\nWeather.\n\npsyllid\n  - Look now.\n    Why: so.\n  - Leave alone.\n  Stages\n    hatch\n"
        "      * a figure\n        its sums\n  ! No oil.\n  Rarely needed.\n  [1] A title.\n");
}

TEST_CASE("a report as Markdown has headings, nested lists and paragraphs of their items") {
  CHECK(as_markdown(k_document) ==
        "# Mill Lane\n\nWeather.\n\n## psyllid\n\n- Look now.\n\n  Why: so.\n- Leave alone.\n\n### Stages\n\n- hatch\n"
        "  - a figure\n\n    its sums\n- **!** No oil.\n\nRarely needed.\n\n- \\[1\\] A title.\n");
}

TEST_CASE("Markdown shows what would be markup as it is") {
  CHECK(as_markdown(Document{{PartKind::paragraph, "# a *b* <c> [d](e) `f` x_y 1|2"}}) ==
        "\\# a \\*b\\* \\<c\\> \\[d\\](e) \\`f\\` x\\_y 1\\|2\n");
  CHECK(as_markdown(Document{{PartKind::paragraph, "3. May"}, {PartKind::paragraph, "- no item"}}) ==
        "3\\. May\n\n\\- no item\n");
}

TEST_CASE("a report as HTML closes each list that it opens") {
  CHECK(as_html(k_document) ==
        "<h1>Mill Lane</h1>\n<p>Weather.</p>\n<h2>psyllid</h2>\n<ul>\n<li>Look now.\n<p class=\"note\">Why: so.</p>\n"
        "</li>\n<li>Leave alone.\n</li>\n</ul>\n<h3>Stages</h3>\n<ul>\n<li>hatch\n<ul>\n<li>a figure\n"
        "<p class=\"note\">its sums</p>\n</li>\n</ul>\n</li>\n<li><strong>!</strong> No oil.\n</li>\n</ul>\n"
        "<p>Rarely needed.</p>\n<ul>\n<li><span class=\"mark\">[1]</span> A title.\n</li>\n</ul>\n");
}

TEST_CASE("HTML escapes names") {
  CHECK(as_html(Document{{PartKind::title, "<script>'\"&"}}) == "<h1>&lt;script&gt;&#39;&quot;&amp;</h1>\n");
}

TEST_CASE("what stands at several places has headings and places over its stops") {
  const Document document{{PartKind::group, "Last days"}, {PartKind::place, "Mill Lane"},
                          {PartKind::stop, "Look."},      {PartKind::place, "Elm"},
                          {PartKind::stop, "Look."},      {PartKind::closing, "The end."}};
  CHECK(as_text(document, {}) == "Last days\n  Mill Lane\n    - Look.\n  Elm\n    - Look.\n\nThe end.\n");
  CHECK(as_markdown(document) == "### Last days\n\n**Mill Lane**\n\n- Look.\n\n**Elm**\n\n- Look.\n\nThe end.\n");
  CHECK(as_html(document) ==
        "<h3>Last days</h3>\n<h4>Mill Lane</h4>\n<ul>\n<li>Look.\n</li>\n</ul>\n<h4>Elm</h4>\n<ul>\n<li>Look.\n</li>\n"
        "</ul>\n<p>The end.</p>\n");
}

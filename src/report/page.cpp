#include <budclock/forecast/spread.hpp>
#include <budclock/report/document.hpp>
#include <budclock/report/page.hpp>
#include <budclock/report/when_report.hpp>
#include <budclock/report/words.hpp>

#include "charts.hpp"

#include <algorithm>
#include <fmt/format.h>
#include <functional>
#include <span>

namespace budclock::report {
namespace {

// Text has a contrast of at least 7:1 to the paper, drawings at least 3:1 (WCAG 2.1, 1.4.3 and 1.4.11); look, act and
// leave differ by their filling.
// No number stands before a unit of doses, not even as a size of type.
constexpr std::string_view k_style = R"(:root {
  color-scheme: light dark;
  --paper: #fbfaf6; --ink: #1c2522; --quiet: #4a5651; --accent: #1f5a7a; --band: #ccd6d0; --fan: #a9c3d2; --grid: #dcdcd2;
}
@media (prefers-color-scheme: dark) {
  :root {
    --paper: #161b1a; --ink: #e8ece8; --quiet: #b3beb8; --accent: #8cc4e0; --band: #37443f; --fan: #35566a; --grid: #2c3432;
  }
}
body { background: var(--paper); color: var(--ink); font: 1rem/1.45 system-ui, sans-serif; margin: 0; }
main { max-width: 44rem; margin: 0 auto; padding: 0.75rem; }
h1 { font-size: 1.4rem; margin: 0.25rem 0; }
h2 { font-size: 1.15rem; margin: 1.5rem 0 0.25rem; border-bottom: 2px solid var(--accent); }
h4 { font-size: 1rem; margin: 0.5rem 0 0; }
h3 { font-size: 1rem; margin: 0.75rem 0 0.25rem; color: var(--quiet); }
p { margin: 0.25rem 0; }
p.note { color: var(--quiet); }
ul { margin: 0.25rem 0; padding-left: 1.25rem; }
li { margin: 0.35rem 0; overflow-wrap: anywhere; }
figure { margin: 1rem 0; }
figcaption { font-weight: 600; }
svg { display: block; max-width: 36rem; height: auto; font: 10.5px system-ui, sans-serif; }
svg text { fill: var(--ink); }
svg .strong { font-weight: 700; }
svg .grid { stroke: var(--grid); }
svg .axis, svg .today { stroke: var(--ink); }
svg .today { stroke-width: 1.5; }
svg .look { fill: var(--paper); stroke: var(--accent); stroke-width: 1.5; }
svg .act { fill: var(--accent); stroke: var(--accent); stroke-width: 1.5; }
svg .leave { fill: url(#hatch); stroke: var(--ink); }
svg .open-end { stroke-dasharray: 3 3; }
svg .past { fill: var(--band); }
svg .ahead { fill: var(--fan); }
svg polyline { fill: none; stroke: var(--ink); stroke-width: 1; }
svg .past-middle, svg .ahead-middle { stroke-dasharray: 4 3; }
svg .this-year { stroke-width: 2.5; }
svg .mark { stroke: var(--accent); stroke-dasharray: 1 3; }
svg .hatching { stroke: var(--ink); }
table { border-collapse: collapse; font-size: 0.9rem; }
caption { text-align: left; font-weight: 600; }
th, td { text-align: left; vertical-align: top; padding: 0.2rem 0.4rem 0.2rem 0; border-bottom: 1px solid var(--grid); }
summary { cursor: pointer; }
.key { color: var(--quiet); font-size: 0.9rem; }
@media print {
  @page { margin: 1cm; }
  :root { --paper: #fff; --ink: #000; --quiet: #333; --accent: #1f5a7a; --band: #ccd6d0; --fan: #a9c3d2; --grid: #ccc; }
  body { font-size: 10px; }
  main { max-width: none; padding: 0; columns: 2; column-gap: 1cm; }
  h1 { column-span: all; }
  svg, table, tr { break-inside: avoid; }
  summary { display: none; }
}
)";

/// The hatching that charts of the page fill bans with.
constexpr std::string_view k_hatch =
    "<svg width=\"0\" height=\"0\" style=\"position:absolute\" aria-hidden=\"true\"><defs><pattern id=\"hatch\" "
    "width=\"5\" height=\"5\" patternUnits=\"userSpaceOnUse\"><path class=\"hatching\" d=\"M0 5 L5 "
    "0\"/></pattern></defs>"
    "</svg>\n";

constexpr std::string_view k_key =
    "Empty bar: look. Full bar: act, only if a scout confirms it. Hatched bar: leave alone. Dashed: no end is known.";

const char* heading(rules::WindowKind kind) {
  switch (kind) {
    case rules::WindowKind::look:
      return "Look";
    case rules::WindowKind::act:
      return "Act if confirmed";
    case rules::WindowKind::abstain:
      return "Leave alone";
  }
  return "";
}

std::string name_on(const rules::Pest& pest, const rules::Window& window) {
  return window.host.empty() ? pest.name : pest.name + " on " + window.host;
}

struct DatedWindow {
  const rules::Pest* pest = nullptr;
  const forecast::WindowForecast* forecast = nullptr;
  rules::WindowKind kind = rules::WindowKind::look;  ///< an action that is held back is to be left alone
};

/// Those not over that have a day to begin, by that day.
std::vector<DatedWindow> dated_windows(const forecast::SiteForecast& site) {
  std::vector<DatedWindow> windows;
  for (const forecast::PestForecast& pest : site.pests) {
    for (const forecast::WindowForecast& window : pest.windows) {
      if (window.from && !is_over(window)) {
        const bool held = is_held_back(site, window);
        windows.push_back({pest.pest, &window, held ? rules::WindowKind::abstain : window.window->kind});
      }
    }
  }
  std::stable_sort(windows.begin(), windows.end(),
                   [](const auto& a, const auto& b) { return *a.forecast->from < *b.forecast->from; });
  return windows;
}

std::string windows_table(const std::vector<DatedWindow>& windows) {
  std::string out =
      "<details>\n<summary>The same as a table</summary>\n<table>\n<caption>Windows by date</caption>\n<thead><tr><th "
      "scope=\"col\">What</th><th scope=\"col\">Pest</th><th scope=\"col\">From</th><th scope=\"col\">Until</th></tr>"
      "</thead>\n<tbody>\n";
  for (const DatedWindow& entry : windows) {
    const rules::Window& window = *entry.forecast->window;
    out += fmt::format("<tr><td>{}: {}</td><th scope=\"row\">{}</th><td>{}</td><td>{}</td></tr>\n", heading(entry.kind),
                       html_text(window.name), html_text(name_on(*entry.pest, window)), iso(*entry.forecast->from),
                       last_day(*entry.forecast) ? iso(*last_day(*entry.forecast)) : "not known");
  }
  return out + "</tbody>\n</table>\n</details>\n";
}

std::string windows_figure(const forecast::SiteForecast& site) {
  const std::vector<DatedWindow> windows = dated_windows(site);
  std::vector<WindowBar> bars;
  for (const DatedWindow& entry : windows) {
    const rules::Window& window = *entry.forecast->window;
    bars.push_back({fmt::format("{}: {}", name_on(*entry.pest, window), window.name), entry.kind, *entry.forecast->from,
                    last_day(*entry.forecast)});
  }
  const std::string chart = window_chart(bars, site.today, "windows");
  if (chart.empty()) return windows.empty() ? "" : windows_table(windows);
  return "<figure>\n<figcaption>Windows by date</figcaption>\n" + chart +
         fmt::format("<p class=\"key\">{}</p>\n</figure>\n", k_key) + windows_table(windows);
}

std::string curve_figures(const forecast::SiteForecast& site) {
  std::string out;
  for (std::size_t i = 0; i < site.curves.size(); ++i) {
    out += curve_chart(site.curves[i], site.today, fmt::format("curve-{}", i + 1));
  }
  if (out.empty()) return out;
  const bool few = site.curves.front().years < forecast::k_members_for_odds;
  return fmt::format(
      "<h2>Warmth this season</h2>\n<p class=\"key\">Thick line: this year. Grey band: {} the other years. Blue band: "
      "{} "
      "ways in which this year may go on. Dotted lines: the sums at which stages begin.</p>\n{}",
      few ? "all of" : "eight in ten of", few ? "all the" : "eight in ten", out);
}

/// What ends first, over all sites. What has no day to begin has begun.
std::string digest_figure(const Digest& digest) {
  constexpr std::size_t k_most = 12;  // a longer chart would push the first stops off the screen
  std::vector<WindowBar> bars;
  for (const SiteDigest& site : digest.sites) {
    for (const DigestLine& line : site.lines) {
      if ((line.until && *line.until < digest.today) || (!line.from && !line.until)) continue;
      const bool leave = line.group == DigestGroup::leave;
      bars.push_back({fmt::format("{}: {}: {}", site.site, name_on(*line.pest, *line.window), line.window->name),
                      leave ? rules::WindowKind::abstain : line.window->kind, line.from.value_or(digest.today),
                      line.until});
    }
  }
  std::stable_sort(bars.begin(), bars.end(), [&](const WindowBar& a, const WindowBar& b) {
    const auto ahead = [&](const WindowBar& bar) { return bar.from > digest.today; };
    if (ahead(a) != ahead(b)) return ahead(b);
    return a.until.value_or(Day::max()) < b.until.value_or(Day::max());
  });
  const std::size_t all = bars.size();
  bars.resize(std::min(all, k_most));
  const std::string chart = window_chart(bars, digest.today, "windows");
  if (chart.empty()) return {};
  const std::string rest = all > k_most ? fmt::format(" {} more windows are in the lists below.", all - k_most) : "";
  return fmt::format(
      "<figure>\n<figcaption>Windows, what ends first</figcaption>\n{}<p class=\"key\">{}{}</p>\n</figure>\n", chart,
      k_key, rest);
}

/// The figures stand between the head of the document and its first section.
void with_figures(const Document& document, const std::string& figures, const Sink& out) {
  const auto section =
      std::find_if(document.begin(), document.end(), [](const Part& part) { return part.kind == PartKind::section; });
  const auto head = static_cast<std::size_t>(section - document.begin());
  const std::span<const Part> parts{document};
  as_html(parts.first(head), out);
  out(figures);
  as_html(parts.subspan(head), out);
}

void page_around(std::string_view title, const std::function<void(const Sink&)>& body, const Sink& out) {
  out(fmt::format(
      "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n<meta name=\"viewport\" "
      "content=\"width=device-width, initial-scale=1\">\n<title>{}</title>\n<style>\n{}</style>\n</head>\n<body>\n"
      "<main>\n{}",
      html_text(title), k_style, k_hatch));
  body(out);
  out("</main>\n</body>\n</html>\n");
}

}  // namespace

std::string html_page(std::string_view title, std::string_view body) {
  return collected([&](const Sink& out) {
    page_around(
        title, [&](const Sink& in) { in(body); }, out);
  });
}

std::string when_page(const forecast::SiteForecast& site, const rules::PestTable& table, std::span<const Part> more) {
  const Document document = when_document(site, table, Detail::full);
  const auto body = [&](const Sink& out) {
    with_figures(document, windows_figure(site), out);
    out(curve_figures(site));
    as_html(more, out);
  };
  return collected([&](const Sink& out) { page_around(fmt::format("{}, {}", site.site, iso(site.today)), body, out); });
}

void digest_page(const Digest& digest, const Document& document, const Sink& out) {
  page_around(
      fmt::format("Pests on {}", iso(digest.today)),
      [&](const Sink& in) { with_figures(document, digest_figure(digest), in); }, out);
}

std::string digest_page(const Digest& digest, const Document& document) {
  return collected([&](const Sink& out) { digest_page(digest, document, out); });
}

}  // namespace budclock::report

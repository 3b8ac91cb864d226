#include <budclock/report/calendar.hpp>
#include <budclock/report/document.hpp>
#include <budclock/report/page.hpp>
#include <budclock/report/writers.hpp>

namespace budclock::report {

std::string_view file_extension(Format format) {
  switch (format) {
    case Format::text:
      return "txt";
    case Format::markdown:
      return "md";
    case Format::csv:
      return "csv";
    case Format::json:
      return "json";
    case Format::calendar:
      return "ics";
    case Format::page:
      return "html";
  }
  return "";
}

std::string written(Format format, std::span<const forecast::SiteForecast> sites, const rules::PestTable& table,
                    const WriteStyle& style) {
  std::string out;
  switch (format) {
    case Format::text:
      for (const forecast::SiteForecast& site : sites) {
        if (!out.empty()) out += "\n\n";
        out += when_text(site, table, style.text, style.detail);
      }
      out += as_text(style.more, style.text);
      return out;
    case Format::markdown:
      for (const forecast::SiteForecast& site : sites) {
        if (!out.empty()) out += '\n';
        out += as_markdown(when_document(site, table, style.detail));
      }
      if (!style.more.empty()) out += '\n' + as_markdown(style.more);
      return out;
    case Format::csv:
      return when_csv(sites, style.unit, style.csv);
    case Format::json:
      return when_json(sites, table);
    case Format::calendar:
      return calendar(sites);
    case Format::page:
      return sites.empty() ? out : when_page(sites.front(), table, style.more);
  }
  return out;
}

}  // namespace budclock::report

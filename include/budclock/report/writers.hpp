// The answer for sites in each form that there is.
#pragma once

#include <budclock/core/temperature.hpp>
#include <budclock/forecast/site_forecast.hpp>
#include <budclock/report/csv.hpp>
#include <budclock/report/document.hpp>
#include <budclock/report/layout.hpp>
#include <budclock/report/when_report.hpp>
#include <budclock/rules/pest.hpp>

#include <cstdint>
#include <span>
#include <string>
#include <string_view>

namespace budclock::report {

enum class Format : std::uint8_t { text, markdown, csv, json, calendar, page };

/// "txt", "md", "csv", "json", "ics", "html".
std::string_view file_extension(Format format);

/// What the forms leave open.
struct WriteStyle {
  TextStyle text{};
  Detail detail = Detail::full;                        ///< of text and Markdown
  TemperatureUnit unit = TemperatureUnit::fahrenheit;  ///< of CSV
  CsvDialect csv{};
  Document more{};  ///< parts at the end of what people read
};

/// The answer for `sites`; a page shows the first only.
std::string written(Format format, std::span<const forecast::SiteForecast> sites, const rules::PestTable& table,
                    const WriteStyle& style);

}  // namespace budclock::report

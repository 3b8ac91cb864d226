// The answer of `when` for one site, written for a person, a spreadsheet and a program.
#pragma once

#include <budclock/core/temperature.hpp>
#include <budclock/forecast/site_forecast.hpp>
#include <budclock/report/csv.hpp>
#include <budclock/report/document.hpp>
#include <budclock/report/layout.hpp>
#include <budclock/rules/pest.hpp>

#include <cstdint>
#include <span>
#include <string>

namespace budclock::report {

/// How much of the answer is written.
enum class Detail : std::uint8_t {
  brief,  ///< only what concerns now and the next 14 days
  full,
  why,  ///< with every source's figure and what it gives here
};

/// Answer first, then the stages, then what must not be done, cautions and sources.
/// Degree-days stand in the unit in which each source prints them.
Document when_document(const forecast::SiteForecast& site, const rules::PestTable& table, Detail detail);

/// That document as plain text.
std::string when_text(const forecast::SiteForecast& site, const rules::PestTable& table, const TextStyle& style,
                      Detail detail);

/// A header and one row for each stage and window of each site. Dates are ISO days, empty where there is none;
/// degree-day columns carry their unit in the name (`_ddf` or `_ddc`). Columns are only ever added at the end.
std::string when_csv(std::span<const forecast::SiteForecast> sites, TemperatureUnit unit,
                     const CsvDialect& dialect = {});

/// One JSON object: for one site "schema": "budclock/when/1", for several "budclock/when-list/1" with such objects as
/// its "answers". Members are only ever added.
std::string when_json(std::span<const forecast::SiteForecast> sites, const rules::PestTable& table);

}  // namespace budclock::report

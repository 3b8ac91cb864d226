// Reports as pages of HTML that stand alone: no script, nothing from elsewhere; for a phone, a desk and one printed
// sheet, light and dark.
#pragma once

#include <budclock/forecast/site_forecast.hpp>
#include <budclock/report/digest.hpp>
#include <budclock/report/document.hpp>
#include <budclock/rules/pest.hpp>

#include <span>
#include <string>
#include <string_view>

namespace budclock::report {

/// A page around `body`.
std::string html_page(std::string_view title, std::string_view body);

/// One site's answer: its windows on an axis of dates, the curves of the season where the forecast has them, and the
/// words of the text report, and `more` at the end.
std::string when_page(const forecast::SiteForecast& site, const rules::PestTable& table, std::span<const Part> more);

/// The digest: the windows of its first stops on an axis of dates, then its words, which are those of its document.
std::string digest_page(const Digest& digest, const Document& document);
void digest_page(const Digest& digest, const Document& document, const Sink& out);

}  // namespace budclock::report

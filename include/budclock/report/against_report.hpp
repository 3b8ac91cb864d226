// Forecasts against a scouting log, written for a person, a spreadsheet and a program.
#pragma once

#include <budclock/forecast/against.hpp>
#include <budclock/report/layout.hpp>

#include <string>
#include <vector>

namespace budclock::report {

/// "published 179, this site so far 196 +- 14 from 3 seasons", in the unit in which the figure is printed.
std::string learned_text(const forecast::FigureAgainst& against);

/// Each figure: what is learned, and its scores by lead.
std::string against_text(const std::string& site, const std::vector<forecast::FigureAgainst>& figures,
                         const TextStyle& style);

/// A header and one row for each figure and lead; a figure that is not scored has one row without lead. Columns are
/// only ever added at the end.
std::string against_csv(const std::string& site, const std::vector<forecast::FigureAgainst>& figures);

/// One JSON object, "schema": "budclock/hindcast-against/1". Members are only ever added.
std::string against_json(const std::string& site, const std::vector<forecast::FigureAgainst>& figures);

}  // namespace budclock::report

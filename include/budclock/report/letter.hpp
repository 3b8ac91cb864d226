// A letter to whoever owns the plants: what was seen, what it means, what is proposed and when, in plain words. It
// names no product, no dose and no sum.
#pragma once

#include <budclock/core/diagnostic.hpp>
#include <budclock/forecast/site_forecast.hpp>
#include <budclock/journal/sighting.hpp>
#include <budclock/report/document.hpp>

#include <map>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace budclock::report {

/// The text of one part of a letter: "# " begins its title, "## " a heading, "- " an item; all else is paragraphs,
/// parted by empty lines. {client}, {site} and {today} stand in every part, each part has others of its own
/// (`placeholders_of`); "{{" is a brace.
struct LetterPart {
  std::string_view name;  ///< "opening.txt"
  std::string_view text;
  std::string_view file;  ///< as messages name it
};

using LetterTemplates = std::map<std::string, std::string>;

/// The names of all parts, in the order of a letter.
std::vector<std::string_view> letter_part_names();

/// What may stand between braces in that part; empty: there is no such part.
std::vector<std::string_view> placeholders_of(std::string_view part);

/// Checks the parts; a later one stands in the place of an earlier of the same name. Unknown placeholders, braces
/// without their fellows and unknown parts are errors, each with its line and column.
LetterTemplates read_letter(std::span<const LetterPart> parts, Diagnostics& diagnostics);

/// Whom it is for, and what was seen there: only rows of the site up to its day, of this calendar year, are told.
struct LetterFacts {
  std::string client;  ///< empty: "client"
  std::vector<journal::Sighting> sightings{};
  std::map<std::string, std::vector<std::string>> hosts{};  ///< by pest, as in forecast::Question
};

/// A pest has a section when something of it was seen or done this year, or when it is to be looked for or acted on
/// within 14 days; the others are named together. An action is proposed where it is offered, and else only for what a
/// look may find.
Document letter(const forecast::SiteForecast& site, const LetterFacts& facts, const LetterTemplates& templates);

}  // namespace budclock::report

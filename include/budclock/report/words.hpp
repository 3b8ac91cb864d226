// The words of our reports for people: one place for each. Machine-readable output uses those of rules/names.hpp.
#pragma once

#include <budclock/forecast/site_forecast.hpp>
#include <budclock/rules/pest.hpp>

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace budclock::report {

std::string_view word(rules::Action action);    ///< "contact spray"
std::string_view word(rules::Grade grade);      ///< "read in the source"
std::string_view word(rules::Meaning meaning);  ///< "first occurrence"
std::string_view word(rules::Use use);          ///< "dates the stage"
std::string_view word(forecast::Standing standing);
std::string_view word(forecast::Evidence evidence);
std::string_view word(forecast::WindowState state);
std::string_view word(forecast::VisitState state);
std::string_view word(journal::DemandState state);
std::string_view word(forecast::DayBasis basis);  ///< "filled from a neighbour"

/// "buds open and nymphs on the new leaves. Not if you find cupped leaves or boxwood in flower".
std::string gate_text(const rules::Pest& pest, const rules::Gate& gate);

/// "Apr 20 to Apr 26": the days on which what meets the gate was found; empty when nothing does.
std::string found_days_text(const journal::GateState& gate, Day today);

/// "What was found Apr 26 meets the gate and counts until May 3", or what is recorded and still counts, and what is
/// missing; empty when nothing is recorded.
std::string gate_record_text(const journal::GateState& gate, Day today);

/// "Not open yet: it waits for egg hatch. If that is what was found, record the stage too: --stage egg-hatch", for an
/// action whose gate is met before a stage that a figure dates; else empty.
std::string waits_text(const rules::Pest& pest, const forecast::WindowForecast& window);

/// "live nymphs on the new leaves (not recorded); no cupped leaves (Apr 2, which no longer counts)"; empty when met.
std::string gate_missing_text(const journal::GateState& gate, Day today);

/// "contact spray, insecticidal soap or horticultural oil".
std::string actions_text(const std::vector<rules::Action>& kinds);
inline std::string actions_text(const rules::Window& window) { return actions_text(window.actions); }

/// "Not at this site: horticultural oil (blue spruce: oil strips the blue bloom)"; empty when nothing of the site bars.
std::string not_here_text(const forecast::WindowForecast& window);

/// "contact spray: water at 15 ft: let nothing drift into it", without the kinds where it is about all that are left.
std::string warning_text(const forecast::WindowForecast& window, const rules::SiteRestriction& warning);

/// "Apr 24", with the year where it is not that of `today`.
std::string day_text(Day day, Day today);

/// "today", "in 12 days", "12 days ago".
std::string distance_text(Day day, Day today);

/// "Apr 24 (8 years in 10: Apr 16 to May 3)", or what is known instead.
std::string summary_text(const forecast::Summary& summary, Day today);

/// "8 years in 10: Apr 16 to May 3", or "in the 3 past years: ..." where there are too few for odds.
std::string range_text(const forecast::Summary& summary, Day today);

/// "May 10 (8 years in 10: ...), in 16 days", "passed May 10", a calendar range, or why there is no date.
std::string stage_date_text(const forecast::StageForecast& stage, Day today);

/// "published 179, this site so far 196 +- 14 from 3 seasons", or, where the source prints no scatter, what the log
/// alone says; empty when there is neither scatter nor season.
std::string local_text(const forecast::LocalSum& local, TemperatureUnit unit);

/// "base 50 F, from Jan 1 (assumed), average".
std::string count_text(const rules::Count& count);

/// "179 degree-days F (first occurrence; base 50 F, from Jan 1, average)", a calendar range, a plant cue.
std::string cue_text(const rules::Pest& pest, const rules::Trigger& trigger);

/// "Opens by: egg hatch, Ohio sequence. Closes by: ... (sources disagree; a window in 4 of 29 years)."
std::string window_basis_text(const forecast::WindowForecast& window);

/// An action that the site bars, that a ban or a contrary find holds back now, or for which the weather is too old.
bool is_held_back(const forecast::SiteForecast& site, const forecast::WindowForecast& window);

/// "done Apr 18 (horticultural oil): not again unless it is found after that day".
std::string done_text(const forecast::Done& done, Day today);

/// The last day to plan for: of an action that is offered, no later than what was found counts.
std::optional<Day> last_day(const forecast::WindowForecast& window);

/// The answer a window gives, in plain words; never an order to treat.
std::string window_text(const rules::Pest& pest, const forecast::WindowForecast& window, Day today);

/// Whether a visit is told of: it is dated and not settled.
bool is_wanted(const forecast::FollowUp& visit);

/// "horticultural oil on Apr 10".
std::string action_text(const forecast::FollowUp& visit, Day today);

/// "missed: follow-up due by May 12, 9 days ago", "due from Apr 20 (in 10 days) until Jun 10", "made Jun 3", or why it
/// has no date.
std::string visit_date_text(const forecast::FollowUp& visit, Day today);

/// The same, after what it follows, with what dates it and what success looks like.
std::string visit_text(const rules::Pest& pest, const forecast::FollowUp& visit, Day today);

/// What success looks like; empty where the page does not say.
std::string success_text(const rules::Pest& pest);

/// What somebody typed, as a list may show it: where it reads as an amount of a product, that it is withheld.
std::string listed_text(const std::string& typed);

}  // namespace budclock::report

// The words for the visits that actions bring.
#include <budclock/report/words.hpp>

#include <fmt/format.h>

namespace budclock::report {

using forecast::FollowUp;
using forecast::VisitState;

std::string_view word(VisitState state) {
  switch (state) {
    case VisitState::not_known:
      return "not known";
    case VisitState::ahead:
      return "ahead";
    case VisitState::due:
      return "due";
    case VisitState::missed:
      return "missed";
    case VisitState::settled:
      return "settled";
  }
  return {};
}

bool is_wanted(const FollowUp& visit) {
  return visit.state == VisitState::ahead || visit.state == VisitState::due || visit.state == VisitState::missed;
}

std::string action_text(const FollowUp& visit, Day today) {
  return fmt::format("{} on {}", word(visit.action), day_text(visit.done, today));
}

namespace {

/// "; likely May 16 (8 years in 10: May 12 to Jun 1)", for a trigger whose date is still in doubt.
std::string likely_text(const FollowUp& visit, Day today) {
  const bool in_doubt = visit.date.members > 0 && visit.date.likely && visit.date.spread_out;
  return in_doubt ? "; likely " + summary_text(visit.date, today) : "";
}

}  // namespace

std::string visit_date_text(const FollowUp& visit, Day today) {
  const auto text = [&](Day day) { return day_text(day, today); };
  const std::string until = visit.until ? " until " + text(*visit.until) : "";
  switch (visit.state) {
    case VisitState::not_known:
      return visit.next_season ? "due next season, which has no dates yet" : "no date is known";
    case VisitState::ahead:
      return fmt::format("due from {} ({}){}{}", text(*visit.from), distance_text(*visit.from, today), until,
                         likely_text(visit, today));
    case VisitState::due:
      return "due now" + until + likely_text(visit, today);
    case VisitState::missed:
      return fmt::format("missed: follow-up due by {}, {}", text(*visit.until), distance_text(*visit.until, today));
    case VisitState::settled:
      return "made " + text(*visit.settled);
  }
  return {};
}

std::string success_text(const rules::Pest& pest) { return pest.follow_up ? pest.follow_up->success.text : ""; }

std::string visit_text(const rules::Pest& pest, const FollowUp& visit, Day today) {
  std::string text = fmt::format("Come back after {}: {}.", action_text(visit, today), visit_date_text(visit, today));
  if (visit.state == VisitState::missed) text += " Look now.";
  if (visit.state == VisitState::settled) return text;
  if (visit.page_gives_date) {
    text += fmt::format(" Dated by: {}.", visit.at);
  } else if (!visit.at.empty()) {
    text += fmt::format(" Its page gives no date: this is the next scouting window, to {}.", visit.at);
  } else {
    text += " Its page gives no date: the next scouting window counts.";
  }
  if (const std::string success = success_text(pest); !success.empty()) text += " Success: " + success;
  return text;
}

}  // namespace budclock::report

#include <budclock/report/words.hpp>
#include <budclock/rules/dose.hpp>

namespace budclock::report {

using forecast::WindowState;

std::string_view word(rules::Action action) {
  switch (action) {
    case rules::Action::look:
      return "look";
    case rules::Action::prune:
      return "pruning";
    case rules::Action::pick:
      return "picking leaves";
    case rules::Action::contact:
      return "contact spray";
    case rules::Action::soap:
      return "insecticidal soap";
    case rules::Action::oil:
      return "horticultural oil";
    case rules::Action::soil_systemic:
      return "soil systemic";
    case rules::Action::trunk_systemic:
      return "trunk systemic";
    case rules::Action::foliar_systemic:
      return "foliar systemic";
    case rules::Action::quarantine:
      return "moving plants";
  }
  return "";
}

std::string_view word(rules::Grade grade) {
  switch (grade) {
    case rules::Grade::seen:
      return "read in the source";
    case rules::Grade::quoted:
      return "quoted by another source";
    case rules::Grade::common_practice:
      return "common practice";
  }
  return "";
}

std::string_view word(rules::Meaning meaning) {
  switch (meaning) {
    case rules::Meaning::first_occurrence:
      return "first occurrence";
    case rules::Meaning::range_low:
      return "low end of a range";
    case rules::Meaning::range_high:
      return "high end of a range";
    case rules::Meaning::mean:
      return "mean";
    case rules::Meaning::completion:
      return "completion";
    case rules::Meaning::unspecified:
      return "meaning not stated";
  }
  return "";
}

std::string_view word(rules::Use use) {
  switch (use) {
    case rules::Use::date:
      return "dates the stage";
    case rules::Use::warning:
      return "a sign to look";
    case rules::Use::support:
      return "support only";
    case rules::Use::shown:
      return "shown only";
  }
  return "";
}

std::string_view word(forecast::Standing standing) {
  switch (standing) {
    case forecast::Standing::passed:
      return "passed";
    case forecast::Standing::under_way:
      return "under way";
    case forecast::Standing::ahead:
      return "ahead";
    case forecast::Standing::never:
      return "not this season";
    case forecast::Standing::not_known:
      return "not known";
  }
  return "";
}

std::string_view word(forecast::Evidence evidence) {
  switch (evidence) {
    case forecast::Evidence::none:
      return "scouting only";
    case forecast::Evidence::seen_here:
      return "seen here";
    case forecast::Evidence::calendar:
      return "calendar only";
    case forecast::Evidence::one_source:
      return "one source";
    case forecast::Evidence::sources_agree:
      return "several sources agree";
    case forecast::Evidence::sources_disagree:
      return "sources disagree";
  }
  return "";
}

std::string_view word(WindowState state) {
  switch (state) {
    case WindowState::ahead:
      return "ahead";
    case WindowState::open:
      return "open";
    case WindowState::last_days:
      return "last days";
    case WindowState::closed:
      return "closed";
    case WindowState::none_left:
      return "no window";
    case WindowState::not_known:
      return "not known";
  }
  return "";
}

std::string_view word(forecast::DayBasis basis) {
  switch (basis) {
    case forecast::DayBasis::observed:
      return "observed";
    case forecast::DayBasis::forecast:
      return "by the weather forecast";
    case forecast::DayBasis::neighbour:
      return "filled from a neighbour";
    case forecast::DayBasis::line:
      return "filled by a line";
    case forecast::DayBasis::past_years:
      return "filled from other years";
    case forecast::DayBasis::not_known:
      return "missing";
    case forecast::DayBasis::other_years:
      return "as in other years";
    case forecast::DayBasis::normals:
      return "as in a normal year";
  }
  return "";
}

std::string listed_text(const std::string& typed) {
  return rules::find_dose(typed) ? "(withheld: reads as an amount)" : typed;
}

}  // namespace budclock::report

#include "follow_ups.hpp"

#include "pest_evaluator.hpp"

#include <algorithm>
#include <fmt/format.h>
#include <utility>

namespace budclock::forecast {
namespace {

/// Time for one visit (common practice).
constexpr date::days k_visit{7};

constexpr date::days k_day{1};

const TriggerForecast* find_trigger(const PestForecast& forecast, const std::string& id) {
  for (const StageForecast& stage : forecast.stages) {
    for (const auto* list : {&stage.begins, &stage.ends}) {
      for (const TriggerForecast& entry : *list) {
        if (entry.trigger->id == id) return &entry;
      }
    }
  }
  return nullptr;
}

/// Dates the visits of one pest at one site.
class Visits {
 public:
  Visits(const PestForecast& forecast, const Question& question, Day today)
      : forecast_{forecast}, question_{question}, rule_{forecast.pest->follow_up}, today_{today} {}

  std::vector<FollowUp> all() const {
    std::vector<FollowUp> visits;
    for (const journal::ActionTaken& action : question_.actions) {
      if (action.pest != forecast_.pest->id || action.site != question_.site || !brings_visit(action)) continue;
      const bool known = std::any_of(visits.begin(), visits.end(), [&](const FollowUp& visit) {
        return visit.action == action.action && visit.done == action.date;
      });
      if (!known) visits.push_back(visit(action));
    }
    std::stable_sort(visits.begin(), visits.end(),
                     [](const FollowUp& a, const FollowUp& b) { return a.done < b.done; });
    return visits;
  }

 private:
  bool brings_visit(const journal::ActionTaken& action) const {
    if (action.date > today_) return false;
    const int age = year_of(today_) - year_of(action.date);
    if (age == 0) return true;
    if (age != 1) return false;
    if (rule_ && rule_->next_season) return true;
    if (rule_ && rule_->days && year_of(action.date + date::days{*rule_->days}) == year_of(today_)) return true;
    return !looked(action.date + k_day, Day{date::year{year_of(action.date)} / 12 / 31});
  }

  /// The first day of the range on which a scout recorded anything about the pest.
  std::optional<Day> looked(Day from, Day until) const {
    std::optional<Day> first;
    for (const journal::Sighting& row : question_.sightings) {
      if (row.pest != forecast_.pest->id || row.site != question_.site || row.date < from || row.date > until) continue;
      first = std::min(first.value_or(row.date), row.date);
    }
    return first;
  }

  FollowUp visit(const journal::ActionTaken& action) const {
    FollowUp visit{.action = action.action, .done = action.date};
    if (rule_ && rule_->days) {
      visit.page_gives_date = true;
      visit.at = fmt::format("{} days after it", *rule_->days);
      set_days(visit, action.date + date::days{*rule_->days}, action.date + date::days{*rule_->days});
    } else if (rule_ && (rule_->calendar || !rule_->trigger.empty())) {
      visit.page_gives_date = true;
      by_event(visit);
    } else {
      by_scouting_window(visit);
    }
    set_state(visit);
    return visit;
  }

  /// Due from `first`, and until a week after `last`.
  static void set_days(FollowUp& visit, Day first, std::optional<Day> last) {
    visit.from = std::max(first, visit.done + k_day);
    if (last) visit.until = *last + k_visit;
  }

  void by_event(FollowUp& visit) const {
    const bool this_year = year_of(visit.done) == year_of(today_);
    if (rule_->calendar) {
      const auto [first, last] = calendar_days(*rule_->calendar, today_);
      visit.at = "the date that its page gives";
      visit.next_season = this_year && (rule_->next_season || last <= visit.done);
      if (!visit.next_season) set_days(visit, first, last);
      return;
    }
    const TriggerForecast* trigger = find_trigger(forecast_, rule_->trigger);
    visit.at = trigger->trigger->says;
    visit.next_season = this_year && rule_->next_season;
    if (visit.next_season) return;
    std::optional<Day> first = trigger->summary.early;
    std::optional<Day> last = trigger->summary.late;
    if (trigger->seen) {
      first = last = trigger->seen;
    } else if (const auto* calendar = std::get_if<rules::CalendarCue>(&trigger->trigger->cue)) {
      std::tie(first, last) = calendar_days(*calendar, today_);
    } else {
      visit.date = trigger->summary;
    }
    if (!first) return;
    if (this_year && last && *last <= visit.done) {
      visit.next_season = true;
      visit.date = {};
      return;
    }
    set_days(visit, *first, last);
  }

  void by_scouting_window(FollowUp& visit) const {
    visit.next_season = rule_ && rule_->next_season && year_of(visit.done) == year_of(today_);
    if (visit.next_season) return;
    bool one_has_passed = false;
    for (const WindowForecast& window : forecast_.windows) {
      if (window.window->kind != rules::WindowKind::look || !window.from) continue;
      const Day from = std::max(*window.from, visit.done + k_day);
      const bool is_whole = *window.from > visit.done;
      if (!is_whole && window.until && *window.until < visit.done + k_visit) {
        one_has_passed = true;
        continue;
      }
      if (visit.from && *visit.from <= from) continue;
      visit.at = window.window->name;
      visit.from = from;
      visit.until = window.until;
    }
    visit.next_season = !visit.from && one_has_passed;
  }

  void set_state(FollowUp& visit) const {
    if (!visit.from) return;
    visit.settled = looked(*visit.from, today_);
    visit.state = visit.settled                          ? VisitState::settled
                  : visit.until && *visit.until < today_ ? VisitState::missed
                  : *visit.from <= today_                ? VisitState::due
                                                         : VisitState::ahead;
  }

  const PestForecast& forecast_;
  const Question& question_;
  const std::optional<rules::FollowUp>& rule_;
  Day today_;
};

bool keeps_log(const Question& question, Day window_end) {
  const Day since{date::year{year_of(window_end) - 1} / 1 / 1};
  return std::any_of(question.sightings.begin(), question.sightings.end(), [&](const journal::Sighting& row) {
    return row.site == question.site && row.date >= since && row.date <= window_end;
  });
}

}  // namespace

std::vector<FollowUp> follow_ups(const PestForecast& forecast, const Question& question, Day today) {
  return Visits{forecast, question, today}.all();
}

void set_missed_looks(PestForecast& forecast, const Question& question, Day today) {
  for (WindowForecast& window : forecast.windows) {
    const bool closed = window.window->kind == rules::WindowKind::look && window.state == WindowState::closed &&
                        window.from && window.until && year_of(*window.until) == year_of(today);
    if (!closed || !keeps_log(question, *window.until)) continue;
    window.missed_look =
        std::none_of(question.sightings.begin(), question.sightings.end(), [&](const journal::Sighting& row) {
          return row.site == question.site && row.pest == forecast.pest->id && row.date >= *window.from &&
                 row.date <= *window.until;
        });
  }
}

}  // namespace budclock::forecast

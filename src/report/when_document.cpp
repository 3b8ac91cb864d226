#include <budclock/report/when_report.hpp>
#include <budclock/report/words.hpp>
#include <budclock/rules/names.hpp>

#include "source_list.hpp"

#include <algorithm>
#include <fmt/format.h>
#include <set>
#include <variant>
#include <vector>

namespace budclock::report {
namespace {

using forecast::PestForecast;
using forecast::SiteForecast;
using forecast::StageForecast;
using forecast::TriggerForecast;
using forecast::WindowState;

/// The overview of several pests looks this far ahead.
constexpr date::days k_overview{14};

/// What is going on comes first, then what is ahead by date, then what has no date, then what is over.
std::vector<const forecast::WindowForecast*> in_order_of_need(const PestForecast& forecast) {
  std::vector<const forecast::WindowForecast*> windows;
  for (const auto& window : forecast.windows) windows.push_back(&window);
  const auto rank = [](const forecast::WindowForecast* window) {
    switch (window->state) {
      case WindowState::last_days:
        return 0;
      case WindowState::open:
        return 1;
      case WindowState::ahead:
        return 2;
      case WindowState::not_known:
        return 3;
      case WindowState::none_left:
        return 4;
      case WindowState::closed:
        break;
    }
    return 5;
  };
  std::stable_sort(windows.begin(), windows.end(), [&](const auto* a, const auto* b) {
    if (rank(a) != rank(b)) return rank(a) < rank(b);
    return a->state == WindowState::ahead && *a->from < *b->from;
  });
  return windows;
}

class WhenDocument {
 public:
  WhenDocument(const SiteForecast& site, const rules::PestTable& table, Detail detail)
      : site_{site}, table_{table}, why_{detail == Detail::why}, brief_{detail == Detail::brief}, sources_{table} {}

  Document make();

 private:
  void add(PartKind kind, std::string text) { out_.push_back({kind, std::move(text)}); }
  void head();
  void pest(const PestForecast& forecast);
  void overview();
  void answers(const PestForecast& forecast);
  void each_alone(const PestForecast& forecast, const rules::Window& window);
  void stages(const PestForecast& forecast);
  void triggers(const PestForecast& forecast, const StageForecast& stage);
  void do_not(const rules::Pest& pest);
  void cautions();
  std::string date_marks(const StageForecast& stage);
  std::string counted_from(const PestForecast& forecast, const StageForecast& stage) const;
  std::string sum_text(const TriggerForecast& forecast) const;
  std::string days_around_text(const TriggerForecast& forecast) const;
  std::string local_why(const TriggerForecast& forecast) const;
  std::string date_text(Day day) const { return day_text(day, site_.today); }

  const SiteForecast& site_;
  const rules::PestTable& table_;
  bool why_;
  bool brief_;
  SourceList sources_;
  std::vector<std::string> cautions_;
  Document out_;
};

void WhenDocument::head() {
  add(PartKind::title, fmt::format("{}, {}", site_.site, iso(site_.today)));
  const auto& weather = site_.weather;
  if (!weather.last_observed) {
    add(PartKind::paragraph, "There is no complete day of weather up to today: only calendar dates can be given.");
  } else if (weather.too_old) {
    add(PartKind::paragraph,
        fmt::format("The weather ends {}, {} days before today: nothing new can be said from it. Add the missing days.",
                    iso(*weather.last_observed), (site_.today - *weather.last_observed).count()));
  } else {
    add(PartKind::paragraph, fmt::format("Weather {} to {}.", iso(*weather.first), iso(*weather.last_observed)));
  }
  if (weather.too_old) return;
  if (weather.normals) {
    add(PartKind::paragraph,
        fmt::format(
            "Dates ahead rest on climate normals, not on past years of this place ({}). The likely date is that "
            "of a normal year from today; the range is what warm and cold spells of the eastern and midwestern "
            "United States would make of it in 8 years of 10. Add past years of the place for its own.",
            weather.years == 0 ? "of which the record has none"
                               : fmt::format("of which the record has only {}", weather.years)));
  } else if (weather.years == 0) {
    add(PartKind::paragraph,
        "The record has no other year to continue this season with: only what has been reached can be dated. Add past "
        "years of the same place for a forecast.");
  } else if (weather.years < forecast::k_members_for_odds) {
    add(PartKind::paragraph,
        fmt::format("Dates ahead continue this season with {}: far too few for odds. The ranges are simply theirs. Add "
                    "past years of the same place.",
                    weather.years == 1 ? "the one other year of the record"
                                       : fmt::format("the {} other years of the record", weather.years)));
  } else {
    add(PartKind::paragraph, fmt::format("Dates ahead continue this season with each of the record's {} other years: "
                                         "the likely date is their median, and 8 in 10 of them lie in the range.",
                                         weather.years));
  }
  for (const std::string& note : site_.notes) add(PartKind::paragraph, note);
}

/// Several pests: what concerns the coming two weeks, a line each, before the details.
void WhenDocument::overview() {
  add(PartKind::section, "Now and in the next 14 days");
  const std::size_t before = out_.size();
  for (const auto kind : {rules::WindowKind::look, rules::WindowKind::act, rules::WindowKind::abstain}) {
    for (const PestForecast& forecast : site_.pests) {
      for (const auto* window : in_order_of_need(forecast)) {
        const bool soon = window->from && *window->from <= site_.today + k_overview &&
                          (!window->until || *window->until >= site_.today);
        if (window->window->kind != kind || !soon) continue;
        const std::string host = window->window->host.empty() ? "" : " on " + window->window->host;
        const std::string answer = window_text(*forecast.pest, *window, site_.today);
        add(PartKind::item, fmt::format("{}{}: {}", forecast.pest->name, host, answer));
      }
    }
  }
  for (const PestForecast& forecast : site_.pests) {
    for (const auto& visit : forecast.follow_ups) {
      if (!is_wanted(visit) || *visit.from > site_.today + k_overview) continue;
      const std::string text = visit_text(*forecast.pest, visit, site_.today);
      add(PartKind::item, fmt::format("{}: {}", forecast.pest->name, text));
    }
  }
  if (out_.size() == before) add(PartKind::remark, "Nothing.");
}

void WhenDocument::answers(const PestForecast& forecast) {
  for (const auto* window : in_order_of_need(forecast)) {
    std::string answer = window_text(*forecast.pest, *window, site_.today);
    if (!window->window->host.empty()) answer = fmt::format("On {}: {}", window->window->host, answer);
    add(PartKind::item, answer);
    if (window->missed_look) add(PartKind::item_note, "Missed look: nothing was recorded while it was open.");
    if (window->state == WindowState::none_left) each_alone(forecast, *window->window);
    if (is_over(*window)) continue;
    for (const rules::SiteRestriction& bar : window->bars) {
      add(PartKind::item_note, fmt::format("Barred here by: {} {}", bar.fact, sources_.mark(bar.citation)));
    }
    for (const rules::SiteRestriction& warning : window->warnings) {
      add(PartKind::item_note,
          fmt::format("Mind here: {} {}", warning_text(*window, warning), sources_.mark(warning.citation)));
    }
    const std::string basis = window_basis_text(*window);
    if (!basis.empty()) add(PartKind::item_note, basis);
    if (!window->window->reason.empty()) {
      const std::string mark = sources_.mark(window->window->citation);
      add(PartKind::item_note, fmt::format("Why: {} {}", window->window->reason, mark));
    }
    cautions_.insert(cautions_.end(), window->window->cautions.begin(), window->window->cautions.end());
  }
  for (const auto& visit : forecast.follow_ups) {
    std::string text = visit_text(*forecast.pest, visit, site_.today);
    if (forecast.pest->follow_up && visit.state != forecast::VisitState::settled) {
      text += " " + sources_.mark(forecast.pest->follow_up->success.citation);
    }
    add(visit.state == forecast::VisitState::missed ? PartKind::warning : PartKind::item, text);
  }
}

/// Where the sources leave no window together: the date that each gives by itself.
void WhenDocument::each_alone(const PestForecast& forecast, const rules::Window& window) {
  const auto named = [&](const std::string& id) {
    const auto in = [&](const rules::Edge& edge) {
      return std::find(edge.triggers.begin(), edge.triggers.end(), id) != edge.triggers.end();
    };
    return in(window.opens) ? "opens" : in(window.closes) ? "closes" : nullptr;
  };
  for (const StageForecast& stage : forecast.stages) {
    for (const auto* list : {&stage.begins, &stage.ends}) {
      for (const TriggerForecast& entry : *list) {
        const char* edge = named(entry.trigger->id);
        if (edge == nullptr || !entry.spread.known()) continue;
        const std::string date = summary_text(entry.summary, site_.today);
        add(PartKind::item_part, fmt::format("{} by {}: {}", edge, entry.trigger->says, date));
      }
    }
  }
}

/// "; 73 of 179 degree-days F above 50 F since Jan 1, 106 to go"; empty where there is no sum.
std::string WhenDocument::sum_text(const TriggerForecast& forecast) const {
  // Of weather that is too old the sum would be mostly that of other years.
  if (!forecast.degree_days || site_.weather.too_old) return {};
  const auto& state = *forecast.degree_days;
  const TemperatureUnit unit = state.unit;
  const bool at_least = state.missing_days > 0 && site_.weather.years == 0 && !site_.weather.normals;
  std::string text =
      fmt::format("; {}{} of {} degree-days {} above {} {} since {}", at_least ? "at least " : "",
                  to_text(state.so_far, unit, 0), to_text(state.target, unit, 0), symbol(unit),
                  fmt::format("{:g}", state.formula.lower.in(unit)), symbol(unit), date_text(state.start));
  if (const std::size_t days = state.filled.days(); days > 0) {
    text += fmt::format(" ({} of the {} filled, over {} {}{})", to_text(state.filled.amount, unit, 0),
                        to_text(state.so_far, unit, 0), days, days == 1 ? "day" : "days",
                        state.filled.doubtful() ? ": doubtful" : "");
  }
  if (state.so_far < state.target) text += fmt::format(", {} to go", to_text(state.target - state.so_far, unit, 0));
  return text;
}

/// "Sums day by day: Apr 20 150, Apr 21 156 (observed), Apr 22 170 (as in other years)"; empty where there are none.
std::string WhenDocument::days_around_text(const TriggerForecast& forecast) const {
  if (!forecast.degree_days || forecast.degree_days->around.empty()) return {};
  const auto& state = *forecast.degree_days;
  std::string text = "Sums day by day: ";
  for (std::size_t i = 0; i < state.around.size(); ++i) {
    const forecast::DaySum& day = state.around[i];
    text += fmt::format("{} {}", date_text(day.day), to_text(day.sum, state.unit, 0));
    const bool last = i + 1 == state.around.size();
    if (last || state.around[i + 1].basis != day.basis) text += fmt::format(" ({})", word(day.basis));
    text += last ? "." : ", ";
  }
  return text;
}

/// "; published 179, this site so far 196 +- 14 from 3 seasons"; empty where the site's log teaches nothing.
std::string learned_here(const TriggerForecast& forecast) {
  if (!forecast.local || forecast.local->seasons == 0) return {};
  return "; " + local_text(*forecast.local, forecast.degree_days->unit);
}

/// What the site's log makes of a figure: " By the log: published 179, this site so far 196 +- 14 from 3 seasons:
/// May 3."
std::string WhenDocument::local_why(const TriggerForecast& forecast) const {
  if (!forecast.local) return {};
  const forecast::LocalSum& local = *forecast.local;
  std::string text = local_text(local, forecast.degree_days->unit);
  if (forecast.learned.known()) text += ": " + summary_text(forecast.learned_summary, site_.today);
  if (local.learned && forecast.doubtful_summary.members > 0) {
    text += fmt::format("; with the doubt in the sum {}", range_text(forecast.doubtful_summary, site_.today));
  }
  if (local.learned && local.learned->held_back) text += "; it would have moved farther and is held back";
  if (local.set_aside > 0) {
    text += fmt::format(
        "{}{} {} of other seasons set aside: no visit in vain at most {} days before, rows that "
        "contradict each other, or days without weather",
        text.empty() ? "" : "; ", local.set_aside, local.set_aside == 1 ? "find" : "finds",
        forecast::k_longest_between_visits.count());
  }
  if (text.empty()) return {};
  return fmt::format(" By the log: {}.", text);
}

/// The sources of the triggers that date a stage: " [4] [7]".
std::string WhenDocument::date_marks(const StageForecast& stage) {
  std::string marks;
  for (const TriggerForecast& entry : stage.begins) {
    const rules::Citation& citation = entry.trigger->citation;
    if (entry.trigger->use != rules::Use::date || !entry.spread.known() || citation.source.empty()) continue;
    const std::string mark = " " + sources_.mark(citation);
    if (marks.find(mark) == std::string::npos) marks += mark;
  }
  return marks;
}

/// "; counted from Apr 12, when this was seen: adults return", for a stage that follows one that was seen.
std::string WhenDocument::counted_from(const PestForecast& forecast, const StageForecast& stage) const {
  for (const TriggerForecast& entry : stage.begins) {
    const auto* cue = std::get_if<rules::AfterStageCue>(&entry.trigger->cue);
    if (cue == nullptr || !entry.counts_from || stage.seen) continue;
    const auto followed = std::find_if(forecast.stages.begin(), forecast.stages.end(),
                                       [cue](const StageForecast& other) { return other.stage->id == cue->stage; });
    return fmt::format("; counted from {}, when this was seen: {}", date_text(*entry.counts_from),
                       followed->stage->name);
  }
  return {};
}

/// ". The figure comes from Utah, 2600 km away: check it against what you see"
std::string far_text(const StageForecast& stage) {
  if (stage.far.empty()) return {};
  std::vector<std::string> regions;
  for (const forecast::FarRegion& region : stage.far) {
    regions.push_back(fmt::format("{}, {:.0f} km away", region.name, region.kilometres));
  }
  return fmt::format(". Made in {}: check it against what you see", list(regions));
}

/// One line a stage, wrapped: a table of these would be wider than a phone.
void WhenDocument::stages(const PestForecast& forecast) {
  for (const StageForecast& stage : forecast.stages) {
    const auto dating = std::find_if(stage.begins.begin(), stage.begins.end(), [](const TriggerForecast& entry) {
      return entry.trigger->use == rules::Use::date && entry.degree_days;
    });
    std::string text = fmt::format("{}: {}", stage.stage->name, stage_date_text(stage, site_.today));
    if (dating != stage.begins.end() && !stage.seen) text += sum_text(*dating) + learned_here(*dating);
    text += counted_from(forecast, stage);
    text += fmt::format(". {}{}", word(stage.evidence), stage.seen ? "" : date_marks(stage));
    if (!stage.seen) text += far_text(stage);
    add(PartKind::entry, text);
    if (why_) triggers(forecast, stage);
  }
}

void WhenDocument::triggers(const PestForecast& forecast, const StageForecast& stage) {
  for (const auto* list : {&stage.begins, &stage.ends}) {
    for (const TriggerForecast& entry : *list) {
      const rules::Citation& citation = entry.trigger->citation;
      const std::string mark = sources_.mark(citation);
      std::string text = fmt::format("{}: {}", entry.trigger->says, cue_text(*forecast.pest, *entry.trigger));
      if (!citation.region.empty()) text += fmt::format(", {}", citation.region);
      text += fmt::format(" {}; {}, {}.", mark, word(citation.grade), word(entry.trigger->use));
      text += fmt::format(" Here {}", entry.spread.known() ? summary_text(entry.summary, site_.today) : "not known");
      text += sum_text(entry);
      for (const auto& other : entry.alternatives) {
        text += fmt::format("; {} instead: {}", other.instead, summary_text(other.summary, site_.today));
      }
      text += ".";
      text += local_why(entry);
      if (!citation.note.empty()) text += " " + citation.note;
      add(PartKind::detail, text);
      if (const std::string days = days_around_text(entry); !days.empty()) add(PartKind::detail_note, days);
    }
  }
}

void WhenDocument::do_not(const rules::Pest& pest) {
  for (const rules::Remark& remark : pest.do_not) {
    add(PartKind::warning, fmt::format("{} {}", remark.text, sources_.mark(remark.citation)));
  }
  for (const std::string& id : pest.cautions) cautions_.push_back(id);
}

void WhenDocument::pest(const PestForecast& forecast) {
  const rules::Pest& pest = *forecast.pest;
  std::vector<std::string> hosts;
  for (const rules::Host& host : pest.hosts) hosts.push_back(host.name);
  add(PartKind::section, fmt::format("{} ({})", pest.name, list(hosts)));
  answers(forecast);
  add(PartKind::remark, fmt::format("Action is {} needed. {} {}", rules::name(pest.need), pest.need_text.text,
                                    sources_.mark(pest.need_text.citation)));
  add(PartKind::label, "Stages");
  stages(forecast);
  do_not(pest);
}

void WhenDocument::cautions() {
  std::set<std::string> shown;
  add(PartKind::section, "Cautions");
  for (const std::string& id : cautions_) {
    if (!shown.insert(id).second) continue;
    const rules::Caution* caution = table_.find_caution(id);
    add(PartKind::item, fmt::format("{} {}", caution->text, sources_.mark(caution->citation)));
  }
  add(PartKind::item,
      "A forecast tells when to look. Your local extension service, the label and your licence decide what is done.");
}

Document WhenDocument::make() {
  head();
  if (site_.pests.size() > 1 || brief_) overview();
  if (brief_) return std::move(out_);
  for (const PestForecast& forecast : site_.pests) pest(forecast);
  cautions();
  add(PartKind::section, "Sources");
  sources_.add_to(out_);
  return std::move(out_);
}

}  // namespace

Document when_document(const SiteForecast& site, const rules::PestTable& table, Detail detail) {
  return WhenDocument{site, table, detail}.make();
}

std::string when_text(const SiteForecast& site, const rules::PestTable& table, const TextStyle& style, Detail detail) {
  return as_text(when_document(site, table, detail), style);
}

}  // namespace budclock::report

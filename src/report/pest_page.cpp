#include <budclock/report/pest_page.hpp>
#include <budclock/report/words.hpp>
#include <budclock/rules/names.hpp>

#include "source_list.hpp"

#include <algorithm>
#include <fmt/format.h>
#include <variant>

namespace budclock::report {
namespace {

std::vector<std::string> host_names(const rules::Pest& pest) {
  std::vector<std::string> names;
  for (const rules::Host& host : pest.hosts) names.push_back(host.name);
  return names;
}

/// What dates this pest: "degree-days", "calendar" or "scouting".
std::string dated_by(const rules::Pest& pest) {
  bool calendar = false;
  for (const rules::Stage& stage : pest.stages) {
    for (const rules::Trigger& trigger : stage.begins) {
      if (trigger.use == rules::Use::date && std::holds_alternative<rules::DegreeDayCue>(trigger.cue)) {
        return "degree-days";
      }
      calendar = calendar || std::holds_alternative<rules::CalendarCue>(trigger.cue);
    }
  }
  return calendar ? "calendar only" : "scouting only";
}

class PestPage {
 public:
  PestPage(const rules::Pest& pest, const rules::PestTable& table, const TextStyle& style)
      : pest_{pest}, table_{table}, style_{style}, sources_{table} {}

  std::string text() {
    head();
    life_cycle();
    windows();
    numbers();
    remarks("Do not", pest_.do_not);
    scouting();
    remarks("Where sources disagree, and what must not be misread", pest_.conflicts);
    cautions();
    return out_ + section("Sources") + sources_.text(style_);
  }

 private:
  std::string section(std::string_view title) const { return "\n" + bold(title, style_) + "\n"; }

  void item(const std::string& text) { out_ += paragraph(text, 4, style_, "  - "); }

  void remark(std::string_view lead, const rules::Remark& remark) {
    item(fmt::format("{}{} {}", lead, remark.text, sources_.mark(remark.citation)));
  }

  void remarks(std::string_view title, const std::vector<rules::Remark>& entries) {
    if (entries.empty()) return;
    out_ += section(title);
    for (const rules::Remark& entry : entries) remark("", entry);
  }

  void head() {
    out_ += bold(fmt::format("{} ({})", pest_.name, list(pest_.scientific_names, "or")), style_) + "\n";
    if (!pest_.also_called.empty()) out_ += paragraph("Also called " + list(pest_.also_called) + ".", 0, style_);
    out_ += paragraph(fmt::format("Action is {} needed. {} {}", rules::name(pest_.need), pest_.need_text.text,
                                  sources_.mark(pest_.need_text.citation)),
                      0, style_);
    out_ += paragraph(fmt::format("On {}. {}", list(host_names(pest_)), pest_.signs), 0, style_);
    if (pest_.effect) {
      const rules::Remark& effect = pest_.effect->text;
      out_ += paragraph(fmt::format("For the plant: {} {}", effect.text, sources_.mark(effect.citation)), 0, style_);
    }
  }

  void life_cycle() {
    out_ += section("The year");
    for (const rules::LifeStage& stage : pest_.life_cycle) {
      std::vector<std::string> reach;
      for (const rules::Action action : stage.reached_by) reach.emplace_back(word(action));
      const std::string reached = reach.empty() ? "cannot be reached" : "reached by " + list(reach, "or");
      std::string text = fmt::format("{}: {}, {}; {}.", stage.name, stage.when, stage.where, reached);
      if (!stage.note.empty()) text += " " + stage.note;
      item(text + " " + sources_.mark(stage.citation));
    }
  }

  void windows() {
    out_ += section("Windows");
    for (const rules::Window& window : pest_.windows) {
      std::string text = fmt::format("{}: {} ({}", rules::name(window.kind), window.name, actions_text(window));
      text += window.host.empty() ? ")." : fmt::format("; on {}).", window.host);
      text += fmt::format(" Opens at the {} of: {}. Closes at the {} of: {}.", take(window.opens), edge(window.opens),
                          take(window.closes), edge(window.closes));
      if (!window.gate.empty()) text += fmt::format(" First find: {}.", gate_text(pest_, window.gate));
      text += fmt::format(" {} {}", window.reason, sources_.mark(window.citation));
      if (!window.citation.region.empty()) text += fmt::format(" ({})", window.citation.region);
      item(text);
    }
  }

  static std::string_view take(const rules::Edge& edge) {
    return edge.take == rules::Direction::earliest ? "earliest" : "latest";
  }

  std::string edge(const rules::Edge& edge) const {
    std::vector<std::string> says;
    for (const std::string& id : edge.triggers) says.push_back(rules::find_trigger(pest_, id)->says);
    return fmt::format("{}", fmt::join(says, "; "));
  }

  std::string shown_by(const rules::Stage& stage) const {
    std::vector<std::string> texts;
    for (const std::string& id : stage.shown_by) {
      texts.push_back(fmt::format("{} (`{}`)", rules::find_observation(pest_, id)->text, id));
    }
    return list(texts, "or");
  }

  void numbers() {
    out_ += section("Dates and numbers");
    bool any_degree_days = false;
    for (const rules::Stage& stage : pest_.stages) {
      item(fmt::format("{} (`{}`). {}", stage.name, stage.id, stage.text));
      for (const auto* triggers : {&stage.begins, &stage.ends}) {
        for (const rules::Trigger& trigger : *triggers) {
          any_degree_days = any_degree_days || std::holds_alternative<rules::DegreeDayCue>(trigger.cue);
          out_ += paragraph(trigger_text(trigger), 6, style_, "    * ");
        }
      }
      if (!stage.shown_by.empty()) {
        out_ += paragraph(fmt::format("It has begun once a scout records {}.", shown_by(stage)), 6, style_, "    * ");
      }
    }
    if (!any_degree_days) item("No published degree-days found.");
  }

  std::string trigger_text(const rules::Trigger& trigger) {
    const rules::Citation& citation = trigger.citation;
    std::string text = fmt::format("{}: {}", trigger.says, cue_text(pest_, trigger));
    if (!citation.region.empty()) text += ", " + citation.region;
    text += fmt::format(" {}; {}, {}.", sources_.mark(citation), word(citation.grade), word(trigger.use));
    if (!citation.note.empty()) text += " " + citation.note;
    return text;
  }

  void scouting() {
    out_ += section("Scouting");
    if (pest_.sample) remark("Sample: ", *pest_.sample);
    if (pest_.action_threshold) {
      remark("Threshold for action: ", *pest_.action_threshold);
    } else {
      item("Threshold for action: no published threshold.");
    }
    if (pest_.follow_up) follow_up(*pest_.follow_up);
    for (const rules::Observation& observation : pest_.observations) {
      item(fmt::format("Record `{}`: {}{}", observation.id, observation.text,
                       observation.valid_days ? fmt::format("; counts for {} days.", *observation.valid_days)
                                              : "; counts for the season."));
    }
  }

  void follow_up(const rules::FollowUp& rule) {
    const std::string next = rule.next_season ? ", next season" : "";
    std::string when = "at the next scouting window" + next;
    if (!rule.trigger.empty()) when = fmt::format("at {}{}", rules::find_trigger(pest_, rule.trigger)->says, next);
    if (rule.calendar) {
      when = fmt::format("{} to {}{} {}", short_text(rule.calendar->from), short_text(rule.calendar->to), next,
                         sources_.mark(rule.timing));
    }
    if (rule.days) when = fmt::format("{} days after the action {}", *rule.days, sources_.mark(rule.timing));
    remark(fmt::format("Come back {}: ", when), rule.success);
  }

  void cautions() {
    std::vector<std::string> ids = pest_.cautions;
    for (const rules::Window& window : pest_.windows) {
      for (const std::string& id : window.cautions) {
        if (std::find(ids.begin(), ids.end(), id) == ids.end()) ids.push_back(id);
      }
    }
    out_ += section("Cautions");
    for (const std::string& id : ids) {
      const rules::Caution* caution = table_.find_caution(id);
      item(fmt::format("{} {}", caution->text, sources_.mark(caution->citation)));
    }
  }

  const rules::Pest& pest_;
  const rules::PestTable& table_;
  const TextStyle& style_;
  SourceList sources_;
  std::string out_;
};

}  // namespace

std::string pest_list_text(const std::vector<const rules::Pest*>& pests, const TextStyle& style) {
  std::vector<std::vector<std::string>> rows{{"pest", "on", "dated by", "action"}};
  for (const rules::Pest* pest : pests) {
    rows.push_back(
        {pest->id, list(host_names(*pest)), dated_by(*pest), fmt::format("{} needed", rules::name(pest->need))});
  }
  return table(rows, 0, style);
}

std::string pest_page_text(const rules::Pest& pest, const rules::PestTable& table, const TextStyle& style) {
  return PestPage{pest, table, style}.text();
}

}  // namespace budclock::report

#include <budclock/rules/names.hpp>

#include "reading.hpp"

#include <algorithm>
#include <fmt/format.h>
#include <map>
#include <set>

namespace budclock::rules {
namespace {

using Kind = JsonNode::Kind;

constexpr std::array<document::NamedValue<bool>, 2> k_change_names{{{"rising", true}, {"falling", false}}};

std::optional<DegreeDayCue> read_optional_degree_days(ObjectReader& cue, Reading& reading) {
  const JsonNode* node = cue.member("degree_days", Kind::object, Presence::optional);
  if (node == nullptr) return std::nullopt;
  return read_degree_days(*node, reading.pest.counts, reading.faults);
}

AfterStageCue read_after_stage(const JsonNode& node, Reading& reading) {
  ObjectReader reader{node, reading.faults};
  AfterStageCue cue;
  cue.stage = read_reference(reader, "stage", "stage", reading.stage_ids);
  cue.degree_days = read_optional_degree_days(reader, reading);
  cue.days = reader.whole_number("days", 0, 366, Presence::optional);
  reader.finish();
  if (cue.degree_days && cue.days) {
    reading.faults.add(node, "both \"degree_days\" and \"days\" stand here", "make two triggers of them");
  }
  return cue;
}

DayLengthCue read_day_length(const JsonNode& node, Reading& reading) {
  ObjectReader reader{node, reading.faults};
  DayLengthCue cue;
  cue.hours = reader.number("hours", 6, 20).value_or(0);
  cue.rising = reader.choice("change", k_change_names).value_or(true);
  cue.sun_below_horizon_degrees =
      reader.number("sun_below_horizon", 0, 18, Presence::optional).value_or(cue.sun_below_horizon_degrees);
  reader.finish();
  return cue;
}

PlantCue read_plant_cue(const JsonNode& node, Reading& reading) {
  ObjectReader reader{node, reading.faults};
  PlantCue cue;
  cue.observation = read_reference(reader, "observation", "observation", ids_of(reading.pest.observations));
  cue.degree_days = read_optional_degree_days(reader, reading);
  reader.finish();
  return cue;
}

SoilTemperatureCue read_soil_temperature(const JsonNode& node, Reading& reading) {
  ObjectReader reader{node, reading.faults};
  SoilTemperatureCue cue;
  const TemperatureUnit unit = read_unit(reader);
  cue.value = read_temperature(reader, "printed", unit, cue.printed).value_or(Temperature{});
  cue.rising = reader.choice("change", k_change_names).value_or(true);
  reader.finish();
  return cue;
}

Cue read_one_cue(const JsonNode::Member& member, Reading& reading) {
  if (member.key == "degree_days") return read_degree_days(member.value, reading.pest.counts, reading.faults);
  if (member.key == "calendar") return read_calendar(member.value, reading.faults);
  if (member.key == "after_stage") return read_after_stage(member.value, reading);
  if (member.key == "day_length") return read_day_length(member.value, reading);
  if (member.key == "plant_cue") return read_plant_cue(member.value, reading);
  if (member.key == "soil_temperature") return read_soil_temperature(member.value, reading);
  reading.faults.add(member, fmt::format("\"{}\" is no kind of cue", member.key),
                     document::suggestion(member.key, {"degree_days", "calendar", "after_stage", "day_length",
                                                       "plant_cue", "soil_temperature"}));
  return {};
}

/// A cue is an object with one member, whose key is its kind.
Cue read_cue(const JsonNode& node, Reading& reading) {
  if (node.members.size() != 1) {
    reading.faults.add(node, fmt::format("a cue has one member, this one has {}", node.members.size()),
                       "write one of degree_days, calendar, after_stage, day_length, plant_cue, soil_temperature");
    return {};
  }
  return read_one_cue(node.members.front(), reading);
}

/// Whether the cue holds a figure that somebody must have measured. A calendar range may be a rule of thumb, and a
/// bare observation or stage claims no number.
bool holds_figure(const Cue& cue) {
  if (const auto* after = std::get_if<AfterStageCue>(&cue)) return after->degree_days || after->days;
  if (const auto* plant = std::get_if<PlantCue>(&cue)) return plant->degree_days.has_value();
  return !std::holds_alternative<CalendarCue>(cue);
}

Trigger read_trigger(const JsonNode& node, Reading& reading) {
  ObjectReader reader{node, reading.faults};
  Trigger trigger;
  trigger.id = read_id(reader, reading.trigger_ids);
  reading.trigger_ids.push_back(trigger.id);
  trigger.says = reader.text("says");
  const std::size_t faults_before = reading.faults.count();
  const JsonNode* cue = reader.member("cue", Kind::object);
  if (cue != nullptr) trigger.cue = read_cue(*cue, reading);
  const bool cue_is_sound = reading.faults.count() == faults_before;
  trigger.use = reader.choice("use", k_use_names).value_or(Use::date);
  trigger.citation = read_citation(reader, reading.known);
  reader.finish();

  const JsonNode* citation = node.find("citation");
  const bool thumb = citation != nullptr && trigger.citation.grade == Grade::common_practice;
  if (cue_is_sound && thumb && holds_figure(trigger.cue)) {
    reading.faults.add(*citation, "a figure stands on common practice",
                       "name the source it is printed in, or remove the figure");
  }
  return trigger;
}

/// Within a stage the low and high ends of one source's ranges, made with one count, belong together in their order.
/// A low end above its high end is a slip of the pen.
void check_ranges(const JsonNode& node, const Stage& stage, Reading& reading) {
  struct Ends {
    std::vector<DegreeDays> low, high;
  };
  std::map<std::pair<std::string, std::string>, Ends> ranges;
  for (const auto* triggers : {&stage.begins, &stage.ends}) {
    for (const Trigger& trigger : *triggers) {
      const auto* cue = std::get_if<DegreeDayCue>(&trigger.cue);
      if (cue == nullptr) continue;
      Ends& ends = ranges[{cue->count, trigger.citation.source}];
      if (cue->meaning == Meaning::range_low) ends.low.push_back(cue->sum);
      if (cue->meaning == Meaning::range_high) ends.high.push_back(cue->sum);
    }
  }
  for (const auto& [key, ends] : ranges) {
    for (std::size_t i = 0; i < std::min(ends.low.size(), ends.high.size()); ++i) {
      if (ends.low[i] <= ends.high[i]) continue;
      reading.faults.add(node, fmt::format("a range of count \"{}\" has its low end above its high end", key.first),
                         "swap \"range low\" and \"range high\", or correct the figures");
    }
  }
}

Stage read_stage(const JsonNode& node, Reading& reading) {
  ObjectReader reader{node, reading.faults};
  const std::size_t faults_before = reading.faults.count();
  Stage stage;
  stage.id = read_id(reader, ids_of(reading.pest.stages));
  stage.name = reader.text("name");
  stage.text = reader.text("text");
  for (const JsonNode& item : reader.items("begins")) stage.begins.push_back(read_trigger(item, reading));
  for (const JsonNode& item : reader.items("ends", Presence::optional)) {
    stage.ends.push_back(read_trigger(item, reading));
  }
  stage.shown_by =
      read_references(reader, "shown_by", "observation", ids_of(reading.pest.observations), Presence::optional);
  reader.finish();
  if (reading.faults.count() == faults_before) check_ranges(node, stage, reading);
  return stage;
}

/// The stages that must have begun before `stage` can begin by one of its triggers.
std::vector<std::string> waits_for(const Stage& stage) {
  std::vector<std::string> others;
  for (const Trigger& trigger : stage.begins) {
    if (const auto* after = std::get_if<AfterStageCue>(&trigger.cue)) others.push_back(after->stage);
  }
  return others;
}

bool waits_for_itself(const Pest& pest, const std::string& id) {
  std::set<std::string> reached;
  std::vector<std::string> open{id};
  while (!open.empty()) {
    const std::string next = std::move(open.back());
    open.pop_back();
    for (const Stage& stage : pest.stages) {
      if (stage.id != next) continue;
      for (const std::string& other : waits_for(stage)) {
        if (reached.insert(other).second) open.push_back(other);
      }
    }
  }
  return reached.contains(id);
}

}  // namespace

CalendarCue read_calendar(const JsonNode& node, Faults& faults) {
  ObjectReader reader{node, faults};
  CalendarCue cue;
  if (const JsonNode* from = reader.member("from", Kind::string)) {
    cue.from = month_day_of(*from, faults).value_or(MonthDay{});
  }
  cue.to = cue.from;
  if (const JsonNode* to = reader.member("to", Kind::string, Presence::optional)) {
    cue.to = month_day_of(*to, faults).value_or(MonthDay{});
  }
  reader.finish();
  return cue;
}

void read_stages(ObjectReader& pest, Reading& reading) {
  const std::vector<JsonNode>& nodes = pest.items("stages");
  for (const JsonNode& node : nodes) {
    const JsonNode* id = node.find("id");
    if (id != nullptr) reading.stage_ids.push_back(id->text);
  }
  for (const JsonNode& node : nodes) reading.pest.stages.push_back(read_stage(node, reading));
  for (std::size_t i = 0; i < nodes.size(); ++i) {
    const std::string& id = reading.pest.stages[i].id;
    if (!id.empty() && waits_for_itself(reading.pest, id)) {
      reading.faults.add(nodes[i], fmt::format("the stage \"{}\" waits for itself to begin", id),
                         "begin it, or a stage it waits for, by another cue");
    }
  }
}

}  // namespace budclock::rules

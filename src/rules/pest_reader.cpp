#include <budclock/rules/names.hpp>

#include "reading.hpp"

#include <fmt/format.h>

namespace budclock::rules {
namespace {

using Kind = JsonNode::Kind;

std::vector<Host> read_hosts(ObjectReader& pest) {
  std::vector<Host> hosts;
  for (const JsonNode& node : pest.items("hosts")) {
    ObjectReader reader{node, pest.faults()};
    hosts.push_back({reader.text("name"), reader.text("scientific_name", Presence::optional),
                     reader.texts("also_called", Presence::optional)});
    reader.finish();
  }
  return hosts;
}

void read_need(ObjectReader& pest, Reading& reading) {
  const JsonNode* node = pest.member("need", Kind::object);
  if (node == nullptr) return;
  ObjectReader reader{*node, reading.faults};
  reading.pest.need = reader.choice("usually", k_need_names).value_or(Need::sometimes);
  reading.pest.need_text = {reader.text("text"), read_citation(reader, reading.known)};
  reader.finish();
}

std::vector<LifeStage> read_life_cycle(ObjectReader& pest, const PestTable& known) {
  std::vector<LifeStage> stages;
  for (const JsonNode& node : pest.items("life_cycle")) {
    ObjectReader reader{node, pest.faults()};
    LifeStage& stage = stages.emplace_back();
    stage.name = reader.text("name");
    stage.when = reader.text("when");
    stage.where = reader.text("where");
    stage.reached_by = reader.choices("reached_by", k_action_names);
    stage.note = reader.text("note", Presence::optional);
    stage.citation = read_citation(reader, known);
    reader.finish();
  }
  return stages;
}

void read_observations(ObjectReader& pest, Reading& reading) {
  for (const JsonNode& node : pest.items("observations", Presence::optional)) {
    ObjectReader reader{node, reading.faults};
    Observation observation;
    observation.id = read_id(reader, ids_of(reading.pest.observations));
    observation.text = reader.text("text");
    observation.valid_days = reader.whole_number("valid_days", 1, 366, Presence::optional);
    observation.citation = read_citation(reader, reading.known, Presence::optional);
    reader.finish();
    reading.pest.observations.push_back(std::move(observation));
  }
}

std::vector<Remark> read_remarks(ObjectReader& pest, std::string_view key, const PestTable& known) {
  std::vector<Remark> remarks;
  for (const JsonNode& node : pest.items(key, Presence::optional)) {
    remarks.push_back(read_remark(node, known, pest.faults()));
  }
  return remarks;
}

std::optional<Remark> read_optional_remark(ObjectReader& pest, std::string_view key, const PestTable& known) {
  const JsonNode* node = pest.member(key, Kind::object, Presence::optional);
  if (node == nullptr) return std::nullopt;
  return read_remark(*node, known, pest.faults());
}

/// The times of which one may be given. A span of days needs its citation as every figure does.
void read_follow_up_time(ObjectReader& owner, Reading& reading, FollowUp& follow_up) {
  const JsonNode* node = owner.member("when", Kind::object, Presence::optional);
  if (node == nullptr) return;
  ObjectReader reader{*node, reading.faults};
  follow_up.trigger = read_reference(reader, "trigger", "trigger", reading.trigger_ids, Presence::optional);
  if (const JsonNode* range = reader.member("calendar", Kind::object, Presence::optional)) {
    follow_up.calendar = read_calendar(*range, reading.faults);
  }
  follow_up.days = reader.whole_number("days", 1, 366, Presence::optional);
  follow_up.next_season = node->find("next_season") != nullptr && reader.flag("next_season");
  const bool own_time = follow_up.calendar || follow_up.days;
  if (own_time) follow_up.timing = read_citation(reader, reading.known);
  reader.finish();
  const int times = (follow_up.trigger.empty() ? 0 : 1) + (follow_up.calendar ? 1 : 0) + (follow_up.days ? 1 : 0);
  if (times == 1 || (times == 0 && follow_up.next_season) || reading.faults.count() > 0) return;
  reading.faults.add(*node, fmt::format("a visit has one time, this one has {}", times),
                     "write one of trigger, calendar, days; or \"next_season\": true alone");
}

void read_follow_up(ObjectReader& pest, Reading& reading) {
  const JsonNode* node = pest.member("follow_up", Kind::object, Presence::optional);
  if (node == nullptr) return;
  ObjectReader reader{*node, reading.faults};
  FollowUp follow_up;
  follow_up.success = {reader.text("text"), read_citation(reader, reading.known)};
  read_follow_up_time(reader, reading, follow_up);
  reader.finish();
  reading.pest.follow_up = std::move(follow_up);
}

void read_effect(ObjectReader& pest, Reading& reading) {
  const JsonNode* node = pest.member("effect", Kind::object, Presence::optional);
  if (node == nullptr) return;
  ObjectReader reader{*node, reading.faults};
  PlantEffect effect;
  effect.harm = reader.choice("harm", k_harm_names).value_or(Harm::cosmetic);
  effect.text = {reader.text("text"), read_citation(reader, reading.known)};
  reader.finish();
  reading.pest.effect = std::move(effect);
}

/// The name of a file without its folders and ".json".
std::string_view stem(std::string_view file) {
  file.remove_prefix(file.find_last_of('/') + 1);  // npos + 1 is 0
  constexpr std::string_view k_ending = ".json";
  if (file.ends_with(k_ending)) file.remove_suffix(k_ending.size());
  return file;
}

void check_file_name(const JsonNode& root, const Pest& pest, Faults& faults) {
  const std::string_view file = stem(faults.file());
  if (pest.id.empty() || pest.id == file) return;
  faults.add(*root.find("id"), fmt::format("the id \"{}\" is not the name of its file", pest.id),
             fmt::format("write \"{}\", or name the file {}.json", file, pest.id));
}

void check_year(const JsonNode& node, const std::string& year, Faults& faults) {
  if (year == "undated") return;
  constexpr std::string_view k_digits = "0123456789";
  bool found = false;
  for (std::size_t at = year.find_first_of(k_digits); at != std::string::npos;) {
    const std::size_t end = std::min(year.find_first_not_of(k_digits, at), year.size());
    const std::string digits = year.substr(at, end - at);
    if (digits.size() != 4 || digits < "1700" || digits > "2200") {
      faults.add(node, fmt::format("{} is no year", digits), "write four digits, 1700 to 2200");
      return;
    }
    found = true;
    at = year.find_first_of(k_digits, end);
  }
  if (!found) faults.add(node, fmt::format("\"{}\" holds no year", year), "write the year, or \"undated\"");
}

}  // namespace

Pest read_pest(const JsonNode& root, const PestTable& known, Faults& faults) {
  Pest pest;
  Reading reading{faults, known, pest, {}, {}};
  ObjectReader reader{root, faults};
  reader.text("schema");
  pest.id = read_id(reader, {});
  check_file_name(root, pest, faults);
  pest.name = reader.text("name");
  pest.scientific_names = reader.texts("scientific_names");
  pest.also_called = reader.texts("also_called", Presence::optional);
  pest.hosts = read_hosts(reader);
  pest.signs = reader.text("signs");
  read_need(reader, reading);
  pest.life_cycle = read_life_cycle(reader, known);
  pest.counts = read_counts(reader, Presence::optional);
  read_observations(reader, reading);
  read_stages(reader, reading);
  read_windows(reader, reading);
  pest.do_not = read_remarks(reader, "do_not", known);
  pest.conflicts = read_remarks(reader, "conflicts", known);
  pest.sample = read_optional_remark(reader, "sample", known);
  pest.action_threshold = read_optional_remark(reader, "action_threshold", known);
  read_follow_up(reader, reading);
  read_effect(reader, reading);
  pest.cautions = read_references(reader, "cautions", "caution", caution_ids(known), Presence::optional);
  reader.finish();
  return pest;
}

std::vector<Source> read_sources(const JsonNode& root, Faults& faults) {
  std::vector<Source> sources;
  ObjectReader reader{root, faults};
  reader.text("schema");
  if (const JsonNode* table = reader.member("sources", Kind::object)) {
    for (const JsonNode::Member& member : table->members) {
      if (!is_id(member.key)) {
        faults.add(member, fmt::format("\"{}\" is no source key", member.key),
                   "use lower-case letters, digits and hyphens only");
      }
      ObjectReader entry{member.value, faults};
      sources.push_back({member.key, entry.text("author"), entry.text("year"), entry.text("title"),
                         entry.text("in", Presence::optional), entry.text("locator", Presence::optional)});
      entry.finish();
      const std::string& year = sources.back().year;
      if (!year.empty()) check_year(*member.value.find("year"), year, faults);
    }
  }
  reader.finish();
  return sources;
}

std::vector<Region> read_regions(const JsonNode& root, Faults& faults) {
  std::vector<Region> regions;
  ObjectReader reader{root, faults};
  reader.text("schema");
  reader.text("note", Presence::optional);
  for (const JsonNode& item : reader.items("regions")) {
    ObjectReader entry{item, faults};
    Region region{entry.text("name"), entry.number("latitude", -90, 90).value_or(0),
                  entry.number("longitude", -180, 180).value_or(0)};
    entry.finish();
    regions.push_back(std::move(region));
  }
  reader.finish();
  return regions;
}

std::vector<Caution> read_cautions(const JsonNode& root, const PestTable& known, Faults& faults) {
  std::vector<Caution> cautions;
  ObjectReader reader{root, faults};
  reader.text("schema");
  if (const JsonNode* table = reader.member("cautions", Kind::object)) {
    for (const JsonNode::Member& member : table->members) {
      if (!is_id(member.key)) {
        faults.add(member, fmt::format("\"{}\" is no caution id", member.key),
                   "use lower-case letters, digits and hyphens only");
      }
      Remark remark = read_remark(member.value, known, faults);
      cautions.push_back({member.key, std::move(remark.text), std::move(remark.citation)});
    }
  }
  reader.finish();
  return cautions;
}

}  // namespace budclock::rules

#include <budclock/report/pest_page.hpp>
#include <budclock/report/words.hpp>
#include <budclock/rules/names.hpp>

#include "json_text.hpp"

#include <set>

namespace budclock::report {
namespace {

using Json = nlohmann::ordered_json;

/// Adds a citation's fields to `json` and remembers its source.
Json with_citation(Json json, const rules::Citation& citation, std::set<std::string>& sources) {
  Json& entry = json["citation"] = {{"grade", rules::name(citation.grade)}};
  if (!citation.source.empty()) {
    entry["source"] = citation.source;
    sources.insert(citation.source);
  }
  if (!citation.where.empty()) entry["where"] = citation.where;
  if (!citation.region.empty()) entry["region"] = citation.region;
  if (!citation.note.empty()) entry["note"] = citation.note;
  return json;
}

Json actions_json(const std::vector<rules::Action>& actions) {
  Json json = Json::array();
  for (const rules::Action action : actions) json.push_back(rules::name(action));
  return json;
}

Json pest_json(const rules::Pest& pest, std::set<std::string>& sources) {
  const auto remarks = [&](const std::vector<rules::Remark>& entries) {
    Json json = Json::array();
    for (const auto& entry : entries) json.push_back(with_citation({{"text", entry.text}}, entry.citation, sources));
    return json;
  };
  Json json{{"id", pest.id},
            {"name", pest.name},
            {"scientific_names", pest.scientific_names},
            {"also_called", pest.also_called},
            {"hosts", Json::array()},
            {"signs", pest.signs},
            {"action_needed", rules::name(pest.need)},
            {"need", with_citation({{"text", pest.need_text.text}}, pest.need_text.citation, sources)},
            {"life_cycle", Json::array()},
            {"stages", Json::array()},
            {"windows", Json::array()},
            {"do_not", remarks(pest.do_not)},
            {"conflicts", remarks(pest.conflicts)},
            {"cautions", pest.cautions}};
  for (const auto& host : pest.hosts) {
    json["hosts"].push_back({{"name", host.name}, {"scientific_name", host.scientific_name}});
  }
  for (const auto& stage : pest.life_cycle) {
    Json entry{{"name", stage.name}, {"when", stage.when}, {"where", stage.where}, {"note", stage.note}};
    entry["reached_by"] = actions_json(stage.reached_by);
    json["life_cycle"].push_back(with_citation(std::move(entry), stage.citation, sources));
  }
  for (const auto& stage : pest.stages) {
    Json entry{{"id", stage.id}, {"name", stage.name}, {"text", stage.text}, {"triggers", Json::array()}};
    entry["shown_by"] = stage.shown_by;
    for (const auto* triggers : {&stage.begins, &stage.ends}) {
      for (const auto& trigger : *triggers) {
        Json row{{"id", trigger.id}, {"says", trigger.says}};
        row["cue"] = cue_text(pest, trigger);
        row["use"] = rules::name(trigger.use);
        row["edge"] = triggers == &stage.begins ? "begins" : "ends";
        entry["triggers"].push_back(with_citation(std::move(row), trigger.citation, sources));
      }
    }
    json["stages"].push_back(std::move(entry));
  }
  for (const auto& window : pest.windows) {
    Json entry{{"id", window.id}, {"name", window.name}, {"kind", rules::name(window.kind)}};
    entry["actions"] = actions_json(window.actions);
    entry["opens"] = window.opens.triggers;
    entry["closes"] = window.closes.triggers;
    entry["gate"] = {{"seen", window.gate.seen}, {"absent", window.gate.absent}};
    entry["reason"] = window.reason;
    entry["host"] = window.host;
    entry["cautions"] = window.cautions;
    json["windows"].push_back(with_citation(std::move(entry), window.citation, sources));
  }
  return json;
}

}  // namespace

std::string pests_json(const std::vector<const rules::Pest*>& pests, const rules::PestTable& table) {
  Json json{{"schema", "budclock/pests/1"}, {"pests", Json::array()}};
  std::set<std::string> named;
  for (const rules::Pest* pest : pests) json["pests"].push_back(pest_json(*pest, named));
  Json& sources = json["sources"] = Json::object();
  for (const rules::Source& source : table.sources) {
    if (!named.contains(source.key)) continue;
    sources[source.key] = {{"author", source.author},
                           {"year", source.year},
                           {"title", source.title},
                           {"in", source.in},
                           {"locator", source.locator}};
  }
  return json_text(json);
}

}  // namespace budclock::report

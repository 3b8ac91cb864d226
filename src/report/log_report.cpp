#include <budclock/core/diagnostic.hpp>
#include <budclock/report/csv.hpp>
#include <budclock/report/log_report.hpp>
#include <budclock/report/words.hpp>
#include <budclock/rules/names.hpp>
#include <budclock/sites/pest_names.hpp>

#include "json_text.hpp"

#include <algorithm>
#include <fmt/format.h>

namespace budclock::report {
namespace {

using journal::Sighting;
using Json = nlohmann::ordered_json;

/// "7 of 20", "7", or nothing.
std::string count_text(const std::optional<journal::Share>& count) {
  if (!count) return {};
  return count->of ? fmt::format("{} of {}", count->found, *count->of) : fmt::format("{}", count->found);
}

std::string stage_name(const rules::Pest* pest, const std::string& id) {
  if (pest == nullptr) return id;
  const auto found =
      std::find_if(pest->stages.begin(), pest->stages.end(), [&](const rules::Stage& stage) { return stage.id == id; });
  return found == pest->stages.end() ? id : found->name;
}

/// "14 days", or "the season".
std::string validity_text(const rules::Observation& observation) {
  return observation.valid_days ? fmt::format("{} days", *observation.valid_days) : "the season";
}

Json row_json(const Sighting& row) {
  Json json{{"date", iso(row.date)}, {"site", row.site},       {"pest", row.pest},          {"stage", row.stage},
            {"saw", row.saw},        {"not_saw", row.not_saw}, {"not_found", row.not_found}};
  json["count"] = nullptr;
  if (row.count) {
    json["count"] = {{"found", row.count->found}, {"of", row.count->of ? Json(*row.count->of) : Json(nullptr)}};
  }
  json["plant"] = listed_text(row.plant);
  json["by"] = listed_text(row.by);
  json["note"] = listed_text(row.note);
  json["line"] = row.place.line;
  return json;
}

}  // namespace

std::string sighting_text(const Sighting& sighting, const rules::PestTable& table) {
  std::vector<std::string> parts;
  if (!sighting.stage.empty()) {
    const std::string name = stage_name(table.find_pest(sighting.pest), sighting.stage);
    parts.push_back(name + (sighting.not_found ? " not found" : " found"));
  } else if (sighting.not_found) {
    parts.emplace_back("not found");
  }
  if (sighting.count) parts.push_back(count_text(sighting.count));
  if (!sighting.saw.empty()) parts.push_back(fmt::format("saw {}", fmt::join(sighting.saw, ", ")));
  if (!sighting.not_saw.empty()) parts.push_back(fmt::format("not seen: {}", fmt::join(sighting.not_saw, ", ")));
  return fmt::format("{}", fmt::join(parts, "; "));
}

std::string log_text(const std::vector<Sighting>& rows, const rules::PestTable& table, const TextStyle& style) {
  if (rows.empty()) return "No rows.\n";
  std::string text;
  for (const Sighting& row : rows) {
    const rules::Pest* pest = table.find_pest(row.pest);
    std::string line = fmt::format("{}: {}", pest == nullptr ? row.pest : pest->name, sighting_text(row, table));
    if (!row.plant.empty()) line += fmt::format(" (on {})", listed_text(row.plant));
    if (!row.by.empty()) line += ", by " + listed_text(row.by);
    if (!row.note.empty()) line += ". " + listed_text(row.note);
    text += paragraph(printable(line), 4, style, fmt::format("{}  {}  ", iso(row.date), printable(row.site)));
  }
  return text;
}

std::string log_csv(const std::vector<Sighting>& rows) {
  CsvText csv;
  for (const char* name :
       {"date", "site", "pest", "stage", "saw", "not_saw", "not_found", "count", "plant", "by", "note", "line"}) {
    csv.plain(name);
  }
  csv.end_row();
  for (const Sighting& row : rows) {
    csv.plain(iso(row.date)).text(row.site).plain(row.pest).plain(row.stage);
    csv.plain(fmt::format("{}", fmt::join(row.saw, ";"))).plain(fmt::format("{}", fmt::join(row.not_saw, ";")));
    csv.plain(row.not_found ? "yes" : "").plain(count_text(row.count));
    csv.text(listed_text(row.plant))
        .text(listed_text(row.by))
        .text(listed_text(row.note))
        .plain(fmt::format("{}", row.place.line));
    csv.end_row();
  }
  return csv.str();
}

std::string log_json(const std::vector<Sighting>& rows) {
  Json json{{"schema", "budclock/log/1"}, {"rows", Json::array()}};
  for (const Sighting& row : rows) json["rows"].push_back(row_json(row));
  return json_text(json);
}

std::string recordable_text(const rules::Pest& pest, const TextStyle& style) {
  std::string text = bold(fmt::format("{} ({})", pest.name, pest.id), style) + "\n";
  std::vector<std::vector<std::string>> stages{{"stage", "what it is"}};
  for (const rules::Stage& stage : pest.stages) stages.push_back({stage.id, stage.name});
  text += "\nStages, for --stage\n" + table(stages, 2, style);
  if (!pest.observations.empty()) {
    std::vector<std::vector<std::string>> observations{{"observation", "what is seen", "counts for"}};
    for (const rules::Observation& observation : pest.observations) {
      observations.push_back({observation.id, observation.text, validity_text(observation)});
    }
    text += "\nObservations, for --saw and --not-saw\n" + table(observations, 2, style);
  }
  std::string gates;
  for (const rules::Window& window : pest.windows) {
    if (window.gate.empty()) continue;
    std::string gate = fmt::format("{}: --saw {}", window.name, fmt::join(window.gate.seen, ","));
    if (!window.gate.absent.empty()) gate += fmt::format(" --not-saw {}", fmt::join(window.gate.absent, ","));
    gates += paragraph(gate, 4, style, "  - ");
  }
  return gates.empty() ? text : text + "\nWhat must be found before an action is offered\n" + gates;
}

std::string gates_text(const rules::Pest& pest, const std::vector<Sighting>& log, const sites::Site& site,
                       const rules::PestTable& table, Day today, const TextStyle& style) {
  const auto growing = sites::hosts_at(site, table);
  std::string text;
  for (const rules::Window& window : pest.windows) {
    if (window.gate.empty() || !sites::may_grow(growing, pest, window.host)) continue;
    const journal::GateState state =
        journal::gate_state(pest, window.gate, log, site.name, today, {.host = window.host});
    const auto until = state.met_until();
    const std::string standing = until ? fmt::format("found what it asks for, counts until {}", day_text(*until, today))
                                       : "still missing: " + gate_missing_text(state, today);
    text += paragraph(fmt::format("{}: {}.", window.name, standing), 4, style, "  - ");
  }
  return text;
}

}  // namespace budclock::report

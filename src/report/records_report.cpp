#include <budclock/core/diagnostic.hpp>
#include <budclock/report/csv.hpp>
#include <budclock/report/records_report.hpp>
#include <budclock/report/words.hpp>
#include <budclock/rules/names.hpp>
#include <budclock/weather/value_text.hpp>

#include "json_text.hpp"

#include <fmt/format.h>

namespace budclock::report {
namespace {

using journal::ActionTaken;
using journal::ActionText;
using Json = nlohmann::ordered_json;

bool is_written(const ActionText& text, RecordFields fields) {
  return fields == RecordFields::every || !text.from_label;
}

/// The text as it may be written: as typed, or in a list without what reads as an amount.
std::string written(const ActionTaken& row, const ActionText& text, RecordFields fields) {
  const std::string& typed = row.*text.text;
  return fields == RecordFields::listed ? listed_text(typed) : typed;
}

std::string degrees(const weather::DayValue& value) {
  return weather::has_value(value.origin) ? to_text(value.value, TemperatureUnit::fahrenheit, 2) : std::string{};
}

std::string one_temperature(const weather::DayValue& value) {
  if (!weather::has_value(value.origin)) return "not recorded";
  const std::string text = weather::with_unit(value.value, TemperatureUnit::fahrenheit);
  const bool neighbour = value.origin == weather::Origin::neighbour;
  return value.origin == weather::Origin::observed
             ? text
             : fmt::format("{} ({})", text, neighbour ? "from a neighbour" : journal::origin_name(value.origin));
}

std::vector<std::string> missing_columns(const ActionTaken& row) {
  std::vector<std::string> columns;
  for (const ActionText* each : missing_texts(row)) columns.emplace_back(each->column);
  return columns;
}

std::string pest_name(const ActionTaken& row, const rules::PestTable& table) {
  const rules::Pest* pest = table.find_pest(row.pest);
  return pest == nullptr ? row.pest : pest->name;
}

/// The row in one paragraph, for a list.
std::string listed_text(const ActionTaken& row, const std::string& lead, const rules::PestTable& table,
                        const TextStyle& style) {
  std::string line = fmt::format("{}: {}", pest_name(row, table), word(row.action));
  for (const ActionText& each : journal::k_action_texts) {
    if (each.from_label || (row.*each.text).empty()) continue;
    line += fmt::format("; {}: {}", each.column, written(row, each, RecordFields::listed));
  }
  const std::string weather = temperatures_text(row);
  if (!weather.empty()) line += "; " + weather;
  const std::vector<std::string> missing = missing_columns(row);
  if (!missing.empty()) line += fmt::format(". Missing for an inspector: {}", fmt::join(missing, ", "));
  return paragraph(printable(line), 4, style, lead);
}

/// The row with all its fields, one a line, for an inspector.
std::string every_text(const ActionTaken& row, const std::string& lead, const rules::PestTable& table,
                       const TextStyle& style) {
  const auto field = [&](std::string_view name, const std::string& value) {
    return value.empty() ? "" : paragraph(printable(value), 8, style, fmt::format("    {}: ", name));
  };
  std::string text =
      paragraph(printable(fmt::format("{}: {} (line {})", pest_name(row, table), word(row.action), row.place.line)), 4,
                style, lead);
  for (const ActionText& each : journal::k_action_texts) text += field(each.column, row.*each.text);
  text += field("temperatures of the day", temperatures_text(row));
  return text + field("missing", missing_text(row));
}

Json value_json(const weather::DayValue& value) {
  Json json;
  json["value_f"] = nullptr;
  if (weather::has_value(value.origin)) json["value_f"] = value.value.fahrenheit();
  const std::string_view origin = journal::origin_name(value.origin);
  json["origin"] = origin.empty() ? Json(nullptr) : Json(origin);
  return json;
}

Json row_json(const ActionTaken& row, RecordFields fields) {
  Json json{{"date", iso(row.date)}, {"site", row.site}, {"pest", row.pest}, {"action", rules::name(row.action)}};
  for (const ActionText& each : journal::k_action_texts) {
    if (is_written(each, fields)) json[std::string{each.column}] = written(row, each, fields);
  }
  json["tmin"] = value_json(row.tmin);
  json["tmax"] = value_json(row.tmax);
  json["line"] = row.place.line;
  json["missing"] = missing_columns(row);
  return json;
}

}  // namespace

std::string action_text(const ActionTaken& action) {
  std::string text{word(action.action)};
  constexpr const ActionText& k_plants = journal::k_action_texts[4];
  static_assert(k_plants.column == "plants");
  if (!action.plants.empty()) text += " on " + written(action, k_plants, RecordFields::listed);
  return text;
}

std::string temperatures_text(const ActionTaken& action) {
  if (action.tmin.origin == weather::Origin::absent && action.tmax.origin == weather::Origin::absent) return {};
  return fmt::format("low {}, high {}", one_temperature(action.tmin), one_temperature(action.tmax));
}

std::string missing_text(const ActionTaken& action) {
  std::vector<std::string> missing;
  for (const ActionText* each : missing_texts(action)) {
    missing.push_back(fmt::format("{} ({})", each->column, each->required_as));
  }
  return fmt::format("{}", fmt::join(missing, ", "));
}

std::string records_text(const std::vector<ActionTaken>& rows, const rules::PestTable& table, RecordFields fields,
                         const TextStyle& style) {
  if (rows.empty()) return "No rows.\n";
  std::string text;
  for (const ActionTaken& row : rows) {
    const std::string lead = fmt::format("{}  {}  ", iso(row.date), printable(row.site));
    text += fields == RecordFields::every ? every_text(row, lead, table, style) : listed_text(row, lead, table, style);
  }
  if (fields == RecordFields::listed) return text;
  return text + "\n" +
         paragraph(fmt::format("Missing fields by {}. States ask for more: local rules decide. Product, registration, "
                               "amount and intervals stand as typed from the label.",
                               journal::k_record_rule),
                   0, style);
}

std::string records_csv(const std::vector<ActionTaken>& rows, RecordFields fields) {
  CsvText csv;
  for (const char* name : {"date", "site", "pest", "action"}) csv.plain(name);
  for (const ActionText& each : journal::k_action_texts) {
    if (is_written(each, fields)) csv.plain(each.column);
  }
  for (const char* name : {"tmin_f", "tmin_origin", "tmax_f", "tmax_origin", "line", "missing"}) csv.plain(name);
  csv.end_row();
  for (const ActionTaken& row : rows) {
    csv.plain(iso(row.date)).text(row.site).plain(row.pest).plain(rules::name(row.action));
    for (const ActionText& each : journal::k_action_texts) {
      if (is_written(each, fields)) csv.text(written(row, each, fields));
    }
    csv.plain(degrees(row.tmin)).plain(journal::origin_name(row.tmin.origin));
    csv.plain(degrees(row.tmax)).plain(journal::origin_name(row.tmax.origin));
    csv.plain(fmt::format("{}", row.place.line)).plain(fmt::format("{}", fmt::join(missing_columns(row), ";")));
    csv.end_row();
  }
  return csv.str();
}

std::string records_json(const std::vector<ActionTaken>& rows, RecordFields fields) {
  const bool every = fields == RecordFields::every;
  Json json{{"schema", every ? "budclock/inspection/1" : "budclock/records/1"}};
  if (every) json["missing_by"] = journal::k_record_rule;
  json["rows"] = Json::array();
  for (const ActionTaken& row : rows) json["rows"].push_back(row_json(row, fields));
  return json_text(json);
}

}  // namespace budclock::report

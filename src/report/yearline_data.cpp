// The time line as CSV and as JSON.
#include <budclock/report/csv.hpp>
#include <budclock/report/words.hpp>
#include <budclock/report/yearline_report.hpp>

#include "json_text.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <vector>

namespace budclock::report {
namespace {

using forecast::EventKind;
using forecast::YearEvent;
using forecast::YearLine;
using Json = nlohmann::ordered_json;

std::string_view kind_word(EventKind kind) {
  switch (kind) {
    case EventKind::pest_stage:
      return "pest";
    case EventKind::companion:
      return "other pest";
    case EventKind::bloom:
      return "bloom";
  }
  return "";
}

std::string iso_or_empty(const std::optional<Day>& day) { return day ? iso(*day) : std::string{}; }

/// The calendar gives a range, and no odds.
bool has_share(const YearEvent& event) {
  return event.spread.known() && event.evidence != forecast::Evidence::calendar;
}

/// The source keys of what dates an event, each once.
std::vector<std::string> source_keys(const YearEvent& event) {
  std::vector<std::string> keys;
  for (const rules::Citation* citation : event.citations) {
    const bool known = std::find(keys.begin(), keys.end(), citation->source) != keys.end();
    if (!citation->source.empty() && !known) keys.push_back(citation->source);
  }
  return keys;
}

std::vector<const YearEvent*> all_events(const YearLine& line) {
  std::vector<const YearEvent*> events;
  for (const auto* list : {&line.events, &line.undated}) {
    for (const YearEvent& event : *list) events.push_back(&event);
  }
  return events;
}

void csv_row(CsvText& csv, const YearLine& line, const YearEvent& event) {
  const forecast::Summary& summary = event.summary;
  csv.text(line.site).plain(iso(line.today));
  csv.plain(event.day ? iso(forecast::half_month_of(*event.day)) : "");
  csv.plain(kind_word(event.kind)).plain(event.of_id).text(event.of).plain(event.id).text(event.what);
  csv.plain(word(event.standing)).plain(iso_or_empty(summary.likely)).plain(iso_or_empty(summary.early));
  csv.plain(iso_or_empty(summary.late)).plain(has_share(event) ? fmt::format("{:.2f}", summary.share) : "");
  csv.plain(event.day ? fmt::format("{}", (*event.day - line.today).count()) : "");
  csv.plain(word(event.evidence));
  if (event.published != nullptr) {
    csv.plain(event.published->cue.printed).plain(symbol(event.published->count.unit));
    csv.text(count_text(event.published->count)).text(event.published->citation.region);
  } else {
    csv.empty().empty().empty().empty();
  }
  csv.text(fmt::format("{}", fmt::join(source_keys(event), " ")));
  csv.end_row();
}

Json day_json(const std::optional<Day>& day) { return day ? Json(iso(*day)) : Json(nullptr); }

Json event_json(const YearEvent& event) {
  Json json{{"kind", kind_word(event.kind)},
            {"of", event.of_id},
            {"of_name", event.of},
            {"event", event.id},
            {"name", event.what},
            {"standing", word(event.standing)},
            {"evidence", word(event.evidence)},
            {"likely", day_json(event.summary.likely)},
            {"early", day_json(event.summary.early)},
            {"late", day_json(event.summary.late)},
            {"sources", source_keys(event)}};
  if (event.day) json["half_month"] = iso(forecast::half_month_of(*event.day));
  if (has_share(event)) {
    json["share_of_years"] = std::round(event.summary.share * 1000) / 1000;
  } else if (!event.spread.known()) {
    json["why_not_known"] = event.spread.unknown;
  }
  if (event.published != nullptr) {
    const rules::CompanionEvent& published = *event.published;
    json["figure"] = {{"printed", published.cue.printed},       {"unit", symbol(published.count.unit)},
                      {"meaning", word(published.cue.meaning)}, {"count", count_text(published.count)},
                      {"region", published.citation.region},    {"grade", word(published.citation.grade)}};
    if (!published.citation.note.empty()) json["figure"]["note"] = published.citation.note;
  }
  for (const auto& other : event.alternatives) {
    json["alternatives"].push_back({{"instead", other.instead}, {"likely", day_json(other.summary.likely)}});
  }
  return json;
}

}  // namespace

std::string yearline_csv(const YearLine& line) {
  CsvText csv;
  for (const char* name :
       {"site",  "today", "half_month",     "kind",     "of",       "of_name", "event", "name",  "state",  "likely",
        "early", "late",  "share_of_years", "days_off", "evidence", "printed", "unit",  "count", "region", "sources"}) {
    csv.plain(name);
  }
  csv.end_row();
  for (const YearEvent* event : all_events(line)) csv_row(csv, line, *event);
  return csv.str();
}

std::string yearline_json(const YearLine& line, const rules::PestTable& table) {
  Json json{{"schema", "budclock/yearline/1"},
            {"site", line.site},
            {"today", iso(line.today)},
            {"weather",
             {{"first", day_json(line.weather.first)},
              {"last_observed", day_json(line.weather.last_observed)},
              {"other_years", line.weather.years},
              {"too_old", line.weather.too_old}}},
            {"notes", line.notes},
            {"events", Json::array()}};
  Json& sources = json["sources"] = Json::object();
  for (const YearEvent* event : all_events(line)) {
    json["events"].push_back(event_json(*event));
    for (const std::string& key : source_keys(*event)) {
      if (const rules::Source* source = table.find_source(key)) {
        sources[key] = fmt::format("{} {}. {}", source->author, source->year, source->title);
      }
    }
  }
  return json_text(json);
}

}  // namespace budclock::report

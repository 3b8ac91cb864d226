#include <budclock/report/when_report.hpp>
#include <budclock/report/words.hpp>
#include <budclock/rules/names.hpp>

#include "json_text.hpp"

#include <cmath>
#include <map>

namespace budclock::report {
namespace {

using forecast::Summary;
using Json = nlohmann::ordered_json;

Json day_json(const std::optional<Day>& day) { return day ? Json(iso(*day)) : Json(nullptr); }

double rounded(double value, double steps) { return std::round(value * steps) / steps; }

Json summary_json(const forecast::Spread& spread, const Summary& summary) {
  if (!spread.known()) return {{"known", false}, {"why", spread.unknown}};
  return {{"known", true},
          {"likely", day_json(summary.likely)},
          {"early", day_json(summary.early)},
          {"late", day_json(summary.late)},
          {"share_of_years", rounded(summary.share, 1000)},
          {"years", summary.members}};
}

Json citation_json(const rules::Citation& citation) {
  Json json{{"grade", rules::name(citation.grade)}};
  if (!citation.source.empty()) json["source"] = citation.source;
  if (!citation.where.empty()) json["where"] = citation.where;
  if (!citation.region.empty()) json["region"] = citation.region;
  if (!citation.note.empty()) json["note"] = citation.note;
  return json;
}

/// What past seasons' finds at the site say of a figure.
Json local_json(const forecast::TriggerForecast& forecast) {
  const forecast::LocalSum& local = *forecast.local;
  Json json{{"published_f", rounded(local.published, 1000)},
            {"published_scatter_f", local.scatter ? Json(rounded(*local.scatter, 1000)) : Json(nullptr)},
            {"seasons", local.seasons},
            {"set_aside", local.set_aside},
            {"log_alone", nullptr},
            {"learned", nullptr}};
  if (local.seasons > 0) {
    json["log_alone"] = {{"mean_f", rounded(local.mean, 1000)},
                         {"lowest_f", rounded(local.lowest, 1000)},
                         {"highest_f", rounded(local.highest, 1000)}};
  }
  if (local.learned) {
    const auto& learned = *local.learned;
    json["learned"] = {{"sum_f", rounded(learned.sum, 1000)},
                       {"deviation_f", rounded(learned.deviation, 1000)},
                       {"next_season_deviation_f", rounded(learned.predictive, 1000)},
                       {"held_back", learned.held_back},
                       {"moves_dates", forecast.learned.known()},
                       {"early_with_doubt", day_json(forecast.doubtful_summary.early)},
                       {"late_with_doubt", day_json(forecast.doubtful_summary.late)}};
    if (forecast.learned.known()) {
      json["learned"]["date"] = summary_json(forecast.learned, forecast.learned_summary);
    }
  }
  return json;
}

Json trigger_json(const rules::Pest& pest, const forecast::TriggerForecast& forecast) {
  Json json{{"id", forecast.trigger->id},
            {"says", forecast.trigger->says},
            {"cue", cue_text(pest, *forecast.trigger)},
            {"use", rules::name(forecast.trigger->use)},
            {"standing", word(forecast.standing)},
            {"date", summary_json(forecast.spread, forecast.summary)},
            {"citation", citation_json(forecast.trigger->citation)}};
  if (forecast.degree_days) {
    const auto& state = *forecast.degree_days;
    json["degree_days"] = {{"target_f", rounded(state.target.fahrenheit_days(), 1000)},
                           {"so_far_f", rounded(state.so_far.fahrenheit_days(), 1000)},
                           {"start", iso(state.start)},
                           {"method", name(state.formula.method)},
                           {"cutoff", name(state.formula.cutoff)},
                           {"lower_f", rounded(state.formula.lower.fahrenheit(), 1000)},
                           {"other_method_than_source", state.method_overridden},
                           {"missing_days", state.missing_days},
                           {"filled",
                            {{"sum_f", rounded(state.filled.amount.fahrenheit_days(), 1000)},
                             {"share", rounded(state.filled.share, 1000)},
                             {"doubtful", state.filled.doubtful()},
                             {"neighbour_days", state.filled.neighbour_days},
                             {"line_days", state.filled.line_days},
                             {"past_year_days", state.filled.past_year_days}}}};
    Json around = Json::array();
    for (const forecast::DaySum& day : state.around) {
      around.push_back(
          {{"day", iso(day.day)}, {"sum_f", rounded(day.sum.fahrenheit_days(), 1000)}, {"basis", word(day.basis)}});
    }
    json["degree_days"]["around"] = std::move(around);
    if (state.formula.upper) json["degree_days"]["upper_f"] = rounded(state.formula.upper->fahrenheit(), 1000);
  }
  if (forecast.local) json["local"] = local_json(forecast);
  if (forecast.seen) json["seen"] = iso(*forecast.seen);
  if (forecast.counts_from) json["counts_from"] = iso(*forecast.counts_from);
  for (const auto& other : forecast.alternatives) {
    json["alternatives"].push_back({{"instead", other.instead}, {"date", summary_json(other.spread, other.summary)}});
  }
  return json;
}

Json seen_json(const std::optional<journal::StageFound>& seen) {
  if (!seen) return nullptr;
  return {{"first", iso(seen->first)}, {"last_not_found", day_json(seen->last_not_found)}};
}

Json gate_json(const forecast::WindowForecast& forecast) {
  const rules::Gate& gate = forecast.window->gate;
  Json json{{"seen", gate.seen},
            {"absent", gate.absent},
            {"met", forecast.gate_met},
            {"until", day_json(forecast.gate_until)},
            {"demands", Json::array()}};
  for (const journal::Demand& demand : forecast.gate.demands) {
    json["demands"].push_back({{"observation", demand.observation->id},
                               {"wanted", demand.wants_seen ? "seen" : "absent"},
                               {"state", word(demand.state)},
                               {"stated", day_json(demand.stated)},
                               {"counts_until", day_json(demand.counts_until)}});
  }
  return json;
}

/// How many members reach it by each of their dates: the probability of any day can be read off, and those that never
/// get there stay in the denominator.
Json odds_json(const forecast::Spread& spread) {
  std::map<Day, std::size_t> dates;
  for (const auto& date : spread.dates) {
    if (date) ++dates[*date];
  }
  Json reached_by = Json::array();
  std::size_t reached = 0;
  for (const auto& [day, members] : dates) {
    reached += members;
    reached_by.push_back({{"day", iso(day)}, {"members", reached}});
  }
  return {{"members", spread.dates.size()}, {"reached", reached}, {"reached_by", reached_by}};
}

Json days_json(const std::optional<int>& days) { return days ? Json(*days) : Json(nullptr); }

Json stage_json(const rules::Pest& pest, const forecast::StageForecast& stage) {
  Json json{{"id", stage.stage->id},
            {"name", stage.stage->name},
            {"standing", word(stage.standing)},
            {"evidence", word(stage.evidence)},
            {"date", summary_json(stage.spread, stage.summary)},
            {"triggers", Json::array()},
            {"seen", seen_json(stage.seen)},
            {"made_far_away", Json::array()}};
  for (const forecast::FarRegion& region : stage.far) {
    json["made_far_away"].push_back({{"region", region.name}, {"km", rounded(region.kilometres, 1)}});
  }
  if (stage.spread.known() && stage.evidence != forecast::Evidence::calendar) {
    json["odds"] = odds_json(stage.spread);
    json["spread_days"] = {{"weather", days_json(stage.doubt.weather)},
                           {"sources", days_json(stage.doubt.sources)},
                           {"together", days_json(stage.doubt.together)}};
  }
  for (const auto* list : {&stage.begins, &stage.ends}) {
    for (const auto& trigger : *list) json["triggers"].push_back(trigger_json(pest, trigger));
  }
  return json;
}

Json restrictions_json(const std::vector<rules::SiteRestriction>& restrictions) {
  Json json = Json::array();
  for (const rules::SiteRestriction& each : restrictions) {
    json.push_back({{"id", each.id},
                    {"actions", Json::array()},
                    {"fact", each.fact},
                    {"text", each.text},
                    {"citation", citation_json(each.citation)}});
    for (const rules::Action action : each.actions) json.back()["actions"].push_back(rules::name(action));
  }
  return json;
}

Json window_json(const rules::Pest& pest, const forecast::WindowForecast& forecast, Day today) {
  const rules::Window& window = *forecast.window;
  Json json{{"id", window.id},
            {"name", window.name},
            {"kind", rules::name(window.kind)},
            {"state", word(forecast.state)},
            {"from", day_json(forecast.from)},
            {"until", day_json(forecast.until)},
            {"opens", summary_json(forecast.opens, forecast.opens_summary)},
            {"closes", summary_json(forecast.closes, forecast.closes_summary)},
            {"share_of_years_with_window", rounded(forecast.share_with_window, 1000)},
            {"evidence", word(forecast.evidence)},
            {"actions_if_found", Json::array()},
            {"gate", gate_json(forecast)},
            {"answer", window_text(pest, forecast, today)},
            {"reason", window.reason},
            {"cautions", window.cautions},
            {"citation", citation_json(window.citation)}};
  for (const rules::Action action : kinds_left(forecast)) json["actions_if_found"].push_back(rules::name(action));
  if (!forecast.bars.empty()) json["not_at_site"] = restrictions_json(forecast.bars);
  if (!forecast.warnings.empty()) json["site_warnings"] = restrictions_json(forecast.warnings);
  if (forecast.opened_by) json["opened_by"] = forecast.opened_by->id;
  if (forecast.closed_by) json["closed_by"] = forecast.closed_by->id;
  if (!window.host.empty()) json["host"] = window.host;
  if (forecast.barred_by) json["barred_by"] = forecast.barred_by->id;
  if (window.kind == rules::WindowKind::act) json["offered"] = forecast.offered;
  if (forecast.done) json["done"] = {{"action", rules::name(forecast.done->action)}, {"day", iso(forecast.done->day)}};
  if (window.kind == rules::WindowKind::look) json["missed"] = forecast.missed_look;
  return json;
}

Json visit_json(const rules::Pest& pest, const forecast::FollowUp& visit, Day today) {
  Json json{{"action", rules::name(visit.action)},
            {"done", iso(visit.done)},
            {"state", word(visit.state)},
            {"from", day_json(visit.from)},
            {"until", day_json(visit.until)},
            {"settled", day_json(visit.settled)},
            {"next_season", visit.next_season},
            {"page_gives_date", visit.page_gives_date},
            {"at", visit.at},
            {"success", success_text(pest)},
            {"answer", visit_text(pest, visit, today)}};
  if (visit.date.members > 0) {
    json["date"] = {{"likely", day_json(visit.date.likely)},
                    {"early", day_json(visit.date.early)},
                    {"late", day_json(visit.date.late)}};
  }
  return json;
}

Json answer_json(const forecast::SiteForecast& site, const rules::PestTable& table) {
  Json json{{"schema", "budclock/when/1"},
            {"site", site.site},
            {"today", iso(site.today)},
            {"weather",
             {{"first", day_json(site.weather.first)},
              {"last_observed", day_json(site.weather.last_observed)},
              {"other_years", site.weather.years},
              {"normals", site.weather.normals},
              {"forecast_days", site.weather.forecast_days},
              {"too_old", site.weather.too_old}}},
            {"notes", site.notes},
            {"pests", Json::array()}};
  for (const auto& forecast : site.pests) {
    const rules::Pest& pest = *forecast.pest;
    Json entry{{"id", pest.id},
               {"name", pest.name},
               {"need", rules::name(pest.need)},
               {"cautions", pest.cautions},
               {"stages", Json::array()},
               {"windows", Json::array()},
               {"follow_ups", Json::array()}};
    for (const auto& stage : forecast.stages) entry["stages"].push_back(stage_json(pest, stage));
    for (const auto& window : forecast.windows) entry["windows"].push_back(window_json(pest, window, site.today));
    for (const auto& visit : forecast.follow_ups) entry["follow_ups"].push_back(visit_json(pest, visit, site.today));
    json["pests"].push_back(std::move(entry));
  }
  Json& cautions = json["caution_texts"] = Json::object();
  for (const rules::Caution& caution : table.cautions) cautions[caution.id] = caution.text;
  return json;
}

}  // namespace

std::string when_json(std::span<const forecast::SiteForecast> sites, const rules::PestTable& table) {
  if (sites.size() == 1) return json_text(answer_json(sites.front(), table));
  Json json{{"schema", "budclock/when-list/1"}, {"answers", Json::array()}};
  for (const forecast::SiteForecast& site : sites) json["answers"].push_back(answer_json(site, table));
  return json_text(json);
}

}  // namespace budclock::report

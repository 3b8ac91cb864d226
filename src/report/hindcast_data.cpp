#include <budclock/report/csv.hpp>
#include <budclock/report/hindcast_report.hpp>

#include "json_text.hpp"

#include <cmath>
#include <fmt/format.h>

namespace budclock::report {
namespace {

using forecast::FigureHindcast;
using forecast::LeadScores;
using forecast::Scores;
using forecast::SkillRange;
using Json = nlohmann::ordered_json;

/// To a thousandth; nothing for a rival that makes no error at all.
std::string number(double value) { return std::isfinite(value) ? fmt::format("{:.3f}", value + 0.0) : ""; }

Json number_json(double value) {
  return std::isfinite(value) ? Json(std::round(value * 1000) / 1000 + 0.0) : Json(nullptr);
}

void range_columns(CsvText& csv, const SkillRange& range) {
  csv.plain(number(range.skill)).plain(number(range.low)).plain(number(range.high));
}

void header(CsvText& csv) {
  for (const char* name : {"site", "pest", "stage", "trigger", "seasons", "seasons_reached", "usual_date", "lead_days",
                           "forecasts", "never", "bias_days", "error_days", "covered_80", "held_80", "width_days",
                           "crps_days", "calendar_error_days", "calendar_crps_days", "increment_error_days"}) {
    csv.plain(name);
  }
  for (const char* rival : {"over_calendar", "over_calendar_crps", "over_increment"}) {
    csv.plain(rival).plain(fmt::format("{}_low", rival)).plain(fmt::format("{}_high", rival));
  }
  for (std::size_t tenth = 1; tenth <= forecast::RankHistogram::k_bins; ++tenth) {
    csv.plain(fmt::format("tenth_{}", tenth));
  }
  csv.plain("known_days").plain("known_error_days").plain("known_crps_days").plain("known_covered_80");
  for (const char* gain : {"known_gain", "known_gain_crps"}) {
    csv.plain(gain).plain(fmt::format("{}_low", gain)).plain(fmt::format("{}_high", gain));
  }
  csv.plain("increment_crps_days")
      .plain("over_increment_crps")
      .plain("over_increment_crps_low")
      .plain("over_increment_crps_high");
  csv.end_row();
}

void scores_columns(CsvText& csv, const LeadScores& lead, int known_days) {
  const Scores& scores = lead.scores;
  csv.plain(fmt::format("{}", lead.lead)).plain(fmt::format("{}", scores.forecasts));
  csv.plain(fmt::format("{}", scores.never));
  for (const double value : {scores.bias, scores.error, scores.covered, scores.held, scores.width, scores.crps,
                             scores.calendar_error, scores.calendar_crps, scores.increment_error}) {
    csv.plain(number(value));
  }
  for (const auto& range : {scores.over_calendar, scores.over_calendar_crps, scores.over_increment}) {
    range_columns(csv, range);
  }
  for (const double count : scores.ranks.counts()) csv.plain(number(count));
  if (!scores.known) {
    for (int column = 0; column < 10; ++column) csv.empty();
  } else {
    csv.plain(fmt::format("{}", known_days)).plain(number(scores.known->error)).plain(number(scores.known->crps));
    csv.plain(number(scores.known->covered));
    range_columns(csv, scores.known->gain);
    range_columns(csv, scores.known->gain_crps);
  }
  csv.plain(number(scores.increment_crps));
  range_columns(csv, scores.over_increment_crps);
}

Json range_json(const SkillRange& range) {
  return {{"skill", number_json(range.skill)}, {"low", number_json(range.low)}, {"high", number_json(range.high)}};
}

Json scores_json(const LeadScores& lead) {
  const Scores& scores = lead.scores;
  Json json{{"lead_days", lead.lead},
            {"forecasts", scores.forecasts},
            {"never", scores.never},
            {"bias_days", number_json(scores.bias)},
            {"error_days", number_json(scores.error)},
            {"covered_80", number_json(scores.covered)},
            {"held_80", number_json(scores.held)},
            {"width_days", number_json(scores.width)},
            {"crps_days", number_json(scores.crps)},
            {"tenths", Json::array()},
            {"calendar",
             {{"error_days", number_json(scores.calendar_error)},
              {"crps_days", number_json(scores.calendar_crps)},
              {"over_error", range_json(scores.over_calendar)},
              {"over_crps", range_json(scores.over_calendar_crps)}}},
            {"increment",
             {{"error_days", number_json(scores.increment_error)},
              {"crps_days", number_json(scores.increment_crps)},
              {"over_error", range_json(scores.over_increment)},
              {"over_crps", range_json(scores.over_increment_crps)}}}};
  for (const double count : scores.ranks.counts()) json["tenths"].push_back(number_json(count));
  if (scores.known) {
    json["known"] = {{"error_days", number_json(scores.known->error)},
                     {"crps_days", number_json(scores.known->crps)},
                     {"covered_80", number_json(scores.known->covered)},
                     {"gain_error", range_json(scores.known->gain)},
                     {"gain_crps", range_json(scores.known->gain_crps)}};
  }
  return json;
}

Json leads_json(const std::vector<LeadScores>& leads) {
  Json json = Json::array();
  for (const LeadScores& lead : leads) json.push_back(scores_json(lead));
  return json;
}

}  // namespace

std::string hindcast_csv(const forecast::Hindcast& hindcast) {
  CsvText csv;
  header(csv);
  for (const LeadScores& lead : hindcast.pooled) {
    csv.text(hindcast.site).empty().empty().empty();
    csv.plain(fmt::format("{}", hindcast.seasons)).empty().empty();
    scores_columns(csv, lead, hindcast.known_days);
    csv.end_row();
  }
  for (const auto& [figure, scored] : hindcast.figures) {
    for (const LeadScores& lead : scored.leads) {
      csv.text(hindcast.site).plain(figure.pest->id).plain(figure.stage->id).plain(figure.trigger->id);
      csv.plain(fmt::format("{}", scored.seasons)).plain(fmt::format("{}", scored.reached));
      csv.plain(scored.mean_date ? iso(*scored.mean_date) : "");
      scores_columns(csv, lead, hindcast.known_days);
      csv.end_row();
    }
  }
  return csv.str();
}

std::string hindcast_json(const forecast::Hindcast& hindcast) {
  Json json{{"schema", "budclock/hindcast/1"},
            {"site", hindcast.site},
            {"weather", {{"first", iso(*hindcast.first)}, {"last", iso(*hindcast.last)}}},
            {"seasons", hindcast.seasons},
            {"known_days", hindcast.known_days},
            {"pooled", leads_json(hindcast.pooled)},
            {"figures", Json::array()}};
  for (const auto& [figure, scored] : hindcast.figures) {
    json["figures"].push_back({{"pest", figure.pest->id},
                               {"stage", figure.stage->id},
                               {"trigger", figure.trigger->id},
                               {"seasons", scored.seasons},
                               {"seasons_reached", scored.reached},
                               {"usual_date", scored.mean_date ? Json(iso(*scored.mean_date)) : Json(nullptr)},
                               {"leads", leads_json(scored.leads)}});
  }
  return json_text(json);
}

}  // namespace budclock::report

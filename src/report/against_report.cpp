#include <budclock/report/against_report.hpp>
#include <budclock/report/csv.hpp>
#include <budclock/report/words.hpp>
#include <budclock/rules/names.hpp>

#include "json_text.hpp"

#include <cmath>
#include <fmt/format.h>

namespace budclock::report {
namespace {

using forecast::AgainstScores;
using forecast::FigureAgainst;
using Json = nlohmann::ordered_json;
using Row = std::vector<std::string>;

constexpr const char* k_legend =
    "Days throughout. Each season seen is forecast from the other years' weather, so many days before the mean date of "
    "the other seasons seen. Truth is the middle between the last visit in vain and the first find; a find without a "
    "visit in vain at most 14 days before it is set aside. off: mean distance of the likely date from truth; bias "
    "above zero is late. weather, both: how often truth lay in the middle 8 tenths (80 is right), by the weather's "
    "doubt alone and with the sum's own. calendar: how far off the mean date of the other seasons seen is. learned: "
    "how "
    "far off with the sum that the other seasons teach, shrunk towards the published one; its bias, and both kinds of "
    "doubt. Where no source prints how a sum scatters, 15 % of it stand in, here only.";

TemperatureUnit unit_of(const FigureAgainst& against) {
  const auto* cue = std::get_if<rules::DegreeDayCue>(&against.figure.trigger->cue);
  const auto* plant = std::get_if<rules::PlantCue>(&against.figure.trigger->cue);
  const rules::DegreeDayCue& sum = cue != nullptr ? *cue : *plant->degree_days;
  return rules::find_count(*against.figure.pest, sum.count)->unit;
}

double in_unit(double fahrenheit_days, TemperatureUnit unit) {
  return unit == TemperatureUnit::fahrenheit ? fahrenheit_days : fahrenheit_days / 1.8;
}

std::string figure_text(const FigureAgainst& against, const TextStyle& style) {
  const auto& figure = against.figure;
  std::string out = bold(fmt::format("{}: {}", figure.pest->name, figure.trigger->says), style) + "\n";
  std::string about = learned_text(against) + ".";
  if (against.learned.held_back) about += " It would have moved farther and is held back.";
  if (against.set_aside > 0) {
    about += fmt::format(" {} {} set aside: no visit in vain near enough before, or weather missing.",
                         against.set_aside, against.set_aside == 1 ? "find" : "finds");
  }
  out += paragraph(about, 2, style);
  if (against.leads.empty()) {
    return out +
           paragraph(fmt::format("Not scored: that takes {} seasons seen.", forecast::k_seasons_against), 2, style);
  }
  std::vector<Row> rows{
      {"lead", " n", "bias", " off", "weather", "both", "wide", "calendar", "learned", "bias", "both"}};
  for (const AgainstScores& scores : against.leads) {
    if (scores.forecasts == 0) continue;
    rows.push_back({fmt::format("{:>3}d", scores.lead), fmt::format("{:>2}", scores.forecasts),
                    fmt::format("{:>+4.1f}", scores.published.bias), fmt::format("{:>4.1f}", scores.published.error),
                    fmt::format("{:>4.0f}", 100 * scores.covered_weather),
                    fmt::format("{:>4.0f}", 100 * scores.published.covered),
                    fmt::format("{:>4.0f}", scores.published.width), fmt::format("{:>4.1f}", scores.calendar_error),
                    fmt::format("{:>4.1f}", scores.learned.error), fmt::format("{:>+4.1f}", scores.learned.bias),
                    fmt::format("{:>4.0f}", 100 * scores.learned.covered)});
  }
  return out + table(rows, 2, style);
}

double rounded(double value) { return std::round(value * 1000) / 1000 + 0.0; }

Json sum_json(const AgainstScores::OfSum& sum) {
  return {{"bias_days", rounded(sum.bias)},
          {"error_days", rounded(sum.error)},
          {"covered_80", rounded(sum.covered)},
          {"width_days", rounded(sum.width)}};
}

void learned_columns(CsvText& csv, const FigureAgainst& against) {
  const auto& learned = against.learned;
  csv.plain(fmt::format("{:.1f}", against.prior.published)).plain(fmt::format("{:.1f}", learned.sum));
  csv.plain(fmt::format("{:.1f}", learned.deviation)).plain(fmt::format("{:.1f}", learned.predictive));
  csv.plain(fmt::format("{}", learned.seasons)).plain(fmt::format("{}", against.set_aside));
}

}  // namespace

std::string learned_text(const FigureAgainst& against) {
  const TemperatureUnit unit = unit_of(against);
  const auto& learned = against.learned;
  const std::string published =
      fmt::format("published {:.0f} degree-days {}", in_unit(against.prior.published, unit), symbol(unit));
  if (learned.seasons == 0) return published + ", nothing learned at this site yet";
  return fmt::format("{}, this site so far {:.0f} +- {:.0f} from {} {}", published, in_unit(learned.sum, unit),
                     in_unit(learned.deviation, unit), learned.seasons, learned.seasons == 1 ? "season" : "seasons");
}

std::string against_text(const std::string& site, const std::vector<FigureAgainst>& figures, const TextStyle& style) {
  std::string out = bold(fmt::format("Forecasts against the log of {}", site), style) + "\n";
  for (const FigureAgainst& figure : figures) out += "\n" + figure_text(figure, style);
  return out + "\n" + paragraph(k_legend, 0, style);
}

std::string against_csv(const std::string& site, const std::vector<FigureAgainst>& figures) {
  CsvText csv;
  for (const char* name : {"site",
                           "pest",
                           "stage",
                           "trigger",
                           "published_ddf",
                           "learned_ddf",
                           "learned_deviation_ddf",
                           "next_season_deviation_ddf",
                           "seasons",
                           "set_aside",
                           "lead_days",
                           "forecasts",
                           "calendar_error_days",
                           "weather_covered_80",
                           "bias_days",
                           "error_days",
                           "covered_80",
                           "width_days",
                           "learned_bias_days",
                           "learned_error_days",
                           "learned_covered_80",
                           "learned_width_days"}) {
    csv.plain(name);
  }
  csv.end_row();
  const auto start = [&](const FigureAgainst& against) {
    const auto& figure = against.figure;
    csv.text(site).plain(figure.pest->id).plain(figure.stage->id).plain(figure.trigger->id);
    learned_columns(csv, against);
  };
  for (const FigureAgainst& against : figures) {
    if (against.leads.empty()) {
      start(against);
      for (int column = 0; column < 12; ++column) csv.empty();
      csv.end_row();
    }
    for (const AgainstScores& scores : against.leads) {
      start(against);
      csv.plain(fmt::format("{}", scores.lead)).plain(fmt::format("{}", scores.forecasts));
      csv.plain(fmt::format("{:.3f}", scores.calendar_error)).plain(fmt::format("{:.3f}", scores.covered_weather));
      for (const auto& sum : {scores.published, scores.learned}) {
        for (const double value : {sum.bias, sum.error, sum.covered, sum.width}) {
          csv.plain(fmt::format("{:.3f}", value + 0.0));
        }
      }
      csv.end_row();
    }
  }
  return csv.str();
}

std::string against_json(const std::string& site, const std::vector<FigureAgainst>& figures) {
  Json json{{"schema", "budclock/hindcast-against/1"}, {"site", site}, {"figures", Json::array()}};
  for (const FigureAgainst& against : figures) {
    const auto& figure = against.figure;
    Json entry{{"pest", figure.pest->id},
               {"stage", figure.stage->id},
               {"trigger", figure.trigger->id},
               {"published_f", rounded(against.prior.published)},
               {"learned",
                {{"sum_f", rounded(against.learned.sum)},
                 {"deviation_f", rounded(against.learned.deviation)},
                 {"next_season_deviation_f", rounded(against.learned.predictive)},
                 {"seasons", against.learned.seasons},
                 {"held_back", against.learned.held_back}}},
               {"set_aside", against.set_aside},
               {"leads", Json::array()}};
    for (const AgainstScores& scores : against.leads) {
      entry["leads"].push_back({{"lead_days", scores.lead},
                                {"forecasts", scores.forecasts},
                                {"calendar_error_days", rounded(scores.calendar_error)},
                                {"weather_covered_80", rounded(scores.covered_weather)},
                                {"published", sum_json(scores.published)},
                                {"learned", sum_json(scores.learned)}});
    }
    json["figures"].push_back(std::move(entry));
  }
  return json_text(json);
}

}  // namespace budclock::report

#include <budclock/report/csv.hpp>
#include <budclock/report/layout.hpp>
#include <budclock/report/when_report.hpp>
#include <budclock/report/words.hpp>
#include <budclock/rules/names.hpp>

#include <algorithm>
#include <array>
#include <fmt/format.h>
#include <vector>

namespace budclock::report {
namespace {

using forecast::StageForecast;
using forecast::TriggerForecast;
using forecast::WindowForecast;

/// Days from today for which a stage's odds are written.
constexpr std::array k_ahead{0, 7, 14, 28};

void write_header(CsvText& csv, TemperatureUnit unit) {
  const std::string dd = unit == TemperatureUnit::fahrenheit ? "ddf" : "ddc";
  for (const char* name :
       {"site",        "today",      "pest",           "host",   "kind",     "id",       "name",
        "state",       "from",       "until",          "likely", "early",    "late",     "close_likely",
        "close_early", "close_late", "share_of_years", "years",  "days_off", "evidence", "actions_if_found",
        "find_first",  "gate_met"}) {
    csv.plain(name);
  }
  csv.plain("target_" + dd).plain("so_far_" + dd).plain("to_go_" + dd);
  csv.plain(unit == TemperatureUnit::fahrenheit ? "base_f" : "base_c").plain("start").plain("method");
  csv.plain("weather_until").plain("weather_too_old").plain("sources").plain("answer");
  csv.plain("filled_" + dd).plain("filled_days").plain("doubtful");
  csv.plain("gate_missing").plain("gate_until").plain("offered").plain("seen").plain("last_not_found");
  csv.plain("spread_days_weather").plain("spread_days_sources").plain("spread_days_together");
  for (const int days : k_ahead) csv.plain(fmt::format("share_by_{}_days", days));
  csv.plain("made_km_away");
  csv.plain("local_seasons").plain("log_alone_" + dd).plain("learned_" + dd).plain("learned_deviation_" + dd);
  csv.plain("action_date").plain("missed").plain("not_at_site").plain("site_warnings");
  csv.end_row();
}

class WhenCsv {
 public:
  WhenCsv(const forecast::SiteForecast& site, TemperatureUnit unit, CsvText& csv)
      : site_{site}, unit_{unit}, csv_{csv} {}

  void write() {
    for (const auto& pest : site_.pests) {
      for (const auto& stage : pest.stages) stage_row(*pest.pest, stage);
      for (const auto& window : pest.windows) window_row(*pest.pest, window);
      for (const auto& visit : pest.follow_ups) visit_row(*pest.pest, visit);
    }
  }

 private:
  /// The largest distance of a figure's region from the site.
  void made_away(const StageForecast& stage) {
    double farthest = 0;
    for (const forecast::FarRegion& region : stage.far) farthest = std::max(farthest, region.kilometres);
    csv_.plain(stage.far.empty() ? "" : fmt::format("{:.0f}", farthest));
  }

  void start(const rules::Pest& pest, std::string_view host, std::string_view kind, std::string_view id,
             std::string_view name, std::string_view state) {
    csv_.text(site_.site).plain(iso(site_.today)).plain(pest.id).text(host).plain(kind).plain(id).text(name);
    csv_.plain(state);
  }

  void day(const std::optional<Day>& day) { csv_.plain(day ? iso(*day) : ""); }

  void dates(const forecast::Summary& summary) {
    day(summary.likely);
    day(summary.early);
    day(summary.late);
  }

  void odds(const forecast::Summary& summary, std::optional<double> share) {
    csv_.number(share ? fmt::format("{:.2f}", *share) : "");
    csv_.plain(summary.members > 0 ? fmt::format("{}", summary.members) : "");
    csv_.plain(summary.likely ? fmt::format("{}", (*summary.likely - site_.today).count()) : "");
  }

  void weather() {
    day(site_.weather.last_observed);
    csv_.plain(site_.weather.too_old ? "yes" : "no");
  }

  void stage_row(const rules::Pest& pest, const StageForecast& stage) {
    start(pest, "", "stage", stage.stage->id, stage.stage->name, word(stage.standing));
    csv_.empty().empty();
    dates(stage.summary);
    csv_.empty().empty().empty();
    const bool has_odds = stage.spread.known() && stage.evidence != forecast::Evidence::calendar && !stage.seen;
    odds(stage.summary, has_odds ? std::optional{stage.summary.share} : std::nullopt);
    csv_.plain(word(stage.evidence)).empty().empty().empty();
    sum(stage);
    weather();
    std::vector<std::string> sources;
    for (const TriggerForecast& entry : stage.begins) {
      const std::string& key = entry.trigger->citation.source;
      if (!key.empty() && std::find(sources.begin(), sources.end(), key) == sources.end()) sources.push_back(key);
    }
    csv_.text(fmt::format("{}", fmt::join(sources, " "))).empty();
    filled(stage);
    csv_.empty().empty().empty();
    day(stage.seen ? std::optional{stage.seen->first} : std::nullopt);
    day(stage.seen ? stage.seen->last_not_found : std::nullopt);
    doubt(stage, has_odds);
    made_away(stage);
    local(stage);
    csv_.empty().empty().empty().empty();
    csv_.end_row();
  }

  /// What past seasons at the site say of the first figure that dates a stage.
  void local(const StageForecast& stage) {
    const TriggerForecast* dating = dating_trigger(stage);
    if (dating == nullptr || !dating->local || dating->local->seasons == 0) {
      csv_.empty().empty().empty().empty();
      return;
    }
    const forecast::LocalSum& local = *dating->local;
    const auto sum = [&](double fahrenheit_days) {
      csv_.number(to_text(DegreeDays::fahrenheit_days(fahrenheit_days), unit_, 1));
    };
    csv_.plain(fmt::format("{}", local.seasons));
    sum(local.mean);
    if (!local.learned) {
      csv_.empty().empty();
      return;
    }
    sum(local.learned->sum);
    sum(local.learned->deviation);
  }

  /// Where the doubt comes from, and the share of members that are there in so many days.
  void doubt(const StageForecast& stage, bool has_odds) {
    for (const auto& days : {stage.doubt.weather, stage.doubt.sources, stage.doubt.together}) {
      csv_.plain(has_odds && days ? fmt::format("{}", *days) : "");
    }
    for (const int days : k_ahead) {
      const double share = share_reached_by(stage.spread, site_.today + date::days{days});
      csv_.number(has_odds ? fmt::format("{:.2f}", share) : "");
    }
  }

  /// The first figure that dates a stage.
  static const TriggerForecast* dating_trigger(const StageForecast& stage) {
    const auto dating = std::find_if(stage.begins.begin(), stage.begins.end(), [](const TriggerForecast& entry) {
      return entry.trigger->use == rules::Use::date && entry.degree_days;
    });
    return dating == stage.begins.end() ? nullptr : &*dating;
  }

  static const forecast::DegreeDayState* dating_sum(const StageForecast& stage) {
    const TriggerForecast* dating = dating_trigger(stage);
    return dating == nullptr ? nullptr : &*dating->degree_days;
  }

  void filled(const StageForecast& stage) {
    const auto* state = dating_sum(stage);
    if (state == nullptr) {
      csv_.empty().empty().empty();
      return;
    }
    csv_.number(to_text(state->filled.amount, unit_, 1)).plain(fmt::format("{}", state->filled.days()));
    csv_.plain(state->filled.doubtful() ? "yes" : "no");
  }

  void sum(const StageForecast& stage) {
    const auto* dating = dating_sum(stage);
    if (dating == nullptr) {
      for (int column = 0; column < 6; ++column) csv_.empty();
      return;
    }
    const auto& state = *dating;
    const DegreeDays to_go = std::max(state.target - state.so_far, DegreeDays{});
    csv_.number(to_text(state.target, unit_, 1))
        .number(to_text(state.so_far, unit_, 1))
        .number(to_text(to_go, unit_, 1));
    csv_.number(to_text(state.formula.lower, unit_, 2)).plain(iso(state.start)).plain(name(state.formula.method));
  }

  static std::string warnings(const WindowForecast& forecast) {
    std::vector<std::string> texts;
    for (const rules::SiteRestriction& each : forecast.warnings) texts.push_back(warning_text(forecast, each));
    return fmt::format("{}", fmt::join(texts, "; "));
  }

  void window_row(const rules::Pest& pest, const WindowForecast& forecast) {
    const rules::Window& window = *forecast.window;
    start(pest, window.host, rules::name(window.kind), window.id, window.name, word(forecast.state));
    day(forecast.from);
    day(forecast.until);
    dates(forecast.opens_summary);
    dates(forecast.closes_summary);
    const bool both = forecast.opens.known() && forecast.closes.known();
    odds(forecast.opens_summary, both ? std::optional{forecast.share_with_window} : std::nullopt);
    csv_.plain(word(forecast.evidence)).text(actions_text(kinds_left(forecast))).text(gate_text(pest, window.gate));
    csv_.plain(window.gate.empty() ? "" : forecast.gate_met ? "yes" : "no");
    for (int column = 0; column < 6; ++column) csv_.empty();
    weather();
    csv_.text(window.citation.source).text(window_text(pest, forecast, site_.today));
    csv_.empty().empty().empty();
    csv_.text(gate_missing_text(forecast.gate, site_.today));
    day(forecast.gate_until);
    csv_.plain(window.kind == rules::WindowKind::act ? forecast.offered ? "yes" : "no" : "").empty().empty();
    for (std::size_t column = 0; column < 8 + k_ahead.size(); ++column) csv_.empty();
    csv_.empty().plain(window.kind == rules::WindowKind::look ? forecast.missed_look ? "yes" : "no" : "");
    csv_.text(not_here_text(forecast)).text(warnings(forecast));
    csv_.end_row();
  }

  void visit_row(const rules::Pest& pest, const forecast::FollowUp& visit) {
    start(pest, "", "follow-up", rules::name(visit.action), success_text(pest), word(visit.state));
    day(visit.from);
    day(visit.until);
    dates(visit.date);
    for (int column = 0; column < 16; ++column) csv_.empty();
    weather();
    csv_.text(pest.follow_up ? pest.follow_up->success.citation.source : "");
    csv_.text(visit_text(pest, visit, site_.today));
    for (int column = 0; column < 6; ++column) csv_.empty();
    day(visit.settled);
    for (std::size_t column = 0; column < 9 + k_ahead.size(); ++column) csv_.empty();
    csv_.plain(iso(visit.done)).plain(visit.state == forecast::VisitState::missed ? "yes" : "no");
    csv_.empty().empty();
    csv_.end_row();
  }

  const forecast::SiteForecast& site_;
  TemperatureUnit unit_;
  CsvText& csv_;
};

}  // namespace

std::string when_csv(std::span<const forecast::SiteForecast> sites, TemperatureUnit unit, const CsvDialect& dialect) {
  CsvText csv{dialect};
  write_header(csv, unit);
  for (const forecast::SiteForecast& site : sites) WhenCsv{site, unit, csv}.write();
  return csv.str();
}

}  // namespace budclock::report

#include <budclock/report/csv.hpp>
#include <budclock/report/layout.hpp>
#include <budclock/report/when_report.hpp>
#include <budclock/report/words.hpp>

#include <algorithm>
#include <fmt/format.h>
#include <vector>

namespace budclock::report {
namespace {

using forecast::StageForecast;
using forecast::TriggerForecast;
using forecast::WindowForecast;

class WhenCsv {
 public:
  WhenCsv(const forecast::SiteForecast& site, TemperatureUnit unit) : site_{site}, unit_{unit} {}

  std::string text() {
    header();
    for (const auto& pest : site_.pests) {
      for (const auto& stage : pest.stages) stage_row(*pest.pest, stage);
      for (const auto& window : pest.windows) window_row(*pest.pest, window);
    }
    return csv_.str();
  }

 private:
  void header() {
    const std::string dd = unit_ == TemperatureUnit::fahrenheit ? "ddf" : "ddc";
    for (const char* name : {"site", "today", "pest", "host", "kind", "id", "name", "state", "from", "until", "likely",
                             "early", "late", "share_of_years", "days_off", "evidence", "actions", "find_first"}) {
      csv_.plain(name);
    }
    csv_.plain("target_" + dd).plain("so_far_" + dd).plain("to_go_" + dd).plain("sources").plain("answer");
    csv_.end_row();
  }

  void start(const rules::Pest& pest, std::string_view host, std::string_view kind, std::string_view id,
             std::string_view name, std::string_view state) {
    csv_.text(site_.site).plain(iso(site_.today)).plain(pest.id).text(host).plain(kind).plain(id).text(name);
    csv_.plain(state);
  }

  void day(const std::optional<Day>& day) { csv_.plain(day ? iso(*day) : ""); }

  void dates(const forecast::Summary& summary, double share, bool known) {
    day(summary.likely);
    day(summary.early);
    day(summary.late);
    csv_.plain(known ? fmt::format("{:.2f}", share) : "");
    csv_.plain(summary.likely ? fmt::format("{}", (*summary.likely - site_.today).count()) : "");
  }

  void stage_row(const rules::Pest& pest, const StageForecast& stage) {
    start(pest, "", "stage", stage.stage->id, stage.stage->name, word(stage.standing));
    csv_.empty().empty();
    dates(stage.summary, stage.summary.share, stage.spread.known());
    csv_.plain(word(stage.evidence)).empty().empty();
    const auto dating = std::find_if(stage.begins.begin(), stage.begins.end(), [](const TriggerForecast& entry) {
      return entry.trigger->use == rules::Use::date && entry.degree_days;
    });
    if (dating == stage.begins.end()) {
      csv_.empty().empty().empty();
    } else {
      const auto& state = *dating->degree_days;
      const DegreeDays to_go = std::max(state.target - state.so_far, DegreeDays{});
      csv_.plain(to_text(state.target, unit_, 1)).plain(to_text(state.so_far, unit_, 1));
      csv_.plain(to_text(to_go, unit_, 1));
    }
    std::vector<std::string> sources;
    for (const TriggerForecast& entry : stage.begins) {
      const std::string& key = entry.trigger->citation.source;
      if (!key.empty() && std::find(sources.begin(), sources.end(), key) == sources.end()) sources.push_back(key);
    }
    csv_.text(fmt::format("{}", fmt::join(sources, " "))).empty();
    csv_.end_row();
  }

  void window_row(const rules::Pest& pest, const WindowForecast& forecast) {
    const rules::Window& window = *forecast.window;
    start(pest, window.host, word(window.kind), window.id, window.name, word(forecast.state));
    day(forecast.from);
    day(forecast.until);
    dates(forecast.opens_summary, forecast.share_with_window, forecast.opens.known() || forecast.closes.known());
    csv_.plain(word(forecast.evidence)).text(actions_text(window)).text(gate_text(pest, window.gate));
    csv_.empty().empty().empty().text(window.citation.source).text(window_text(pest, forecast, site_.today));
    csv_.end_row();
  }

  const forecast::SiteForecast& site_;
  TemperatureUnit unit_;
  CsvText csv_;
};

}  // namespace

std::string when_csv(const forecast::SiteForecast& site, TemperatureUnit unit) { return WhenCsv{site, unit}.text(); }

}  // namespace budclock::report

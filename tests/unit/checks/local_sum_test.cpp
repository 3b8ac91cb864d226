// What a site's own finds of past seasons make of a published sum, and that they never put an action off.
#include <budclock/report/when_report.hpp>
#include <budclock/report/words.hpp>

#include "records.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <random>

using namespace budclock;
using forecast::PestForecast;
using forecast::SiteForecast;
using forecast::StageForecast;
using forecast::WindowForecast;
using journal::Sighting;
using records::day;

namespace {

constexpr const char* k_today = "2014-04-05";

const weather::DailySeries& wooster() { return records::ohio().back().days; }

/// Boxwood psyllid as shipped, its 179 degree-days with a scatter that no source prints.
rules::Pest boxwood(std::optional<double> scatter) {
  rules::Pest pest = *records::shipped().find_pest("boxwood-psyllid");
  auto& cue = std::get<rules::DegreeDayCue>(pest.stages.front().begins.front().cue);
  REQUIRE(cue.printed == "179");
  if (scatter) cue.scatter = DegreeDays::fahrenheit_days(*scatter);
  return pest;
}

Sighting hatch(Day date, bool not_found = false, const std::string& plant = "") {
  Sighting sighting;
  sighting.date = date;
  sighting.site = "Mill Lane";
  sighting.pest = "boxwood-psyllid";
  sighting.stage = "egg-hatch";
  sighting.not_found = not_found;
  sighting.plant = plant;
  return sighting;
}

/// When so many degree-days are reached by the count of that figure.
Day reached(double sum, int year) {
  const rules::Pest pest = boxwood({});
  const rules::Count& count = *rules::find_count(pest, "ohio");
  const auto days = forecast::season_on(count.start.value, *make_day(year, 12, 31));
  const forecast::DegreeDayRecord record{rules::formula(count), wooster()};
  const auto season = forecast::run_season(record, days, wooster().last(), {});
  return *forecast::first_reached(season, DegreeDays::fahrenheit_days(sum)).dates.front();
}

/// Seasons of a site whose own sum is `own` +- `scatter`, looked at every `every` days; 1989 lacks a day.
std::vector<Sighting> simulated(double own, double scatter, int every, int first_year, int last_year) {
  std::mt19937 engine{20140416};
  std::vector<Sighting> log;
  for (int year = first_year; year <= last_year; ++year) {
    if (year == 1989) continue;
    // Uniform with the standard deviation `scatter`, portable where the standard's normal is not.
    const double uniform = static_cast<double>(engine()) / 4294967296.0 - 0.5;
    const Day date = reached(own + uniform * scatter * std::sqrt(12.0), year);
    const Day last_not = date - date::days{1 + static_cast<int>(engine() % static_cast<unsigned>(every))};
    log.push_back(hatch(last_not, true));
    log.push_back(hatch(last_not + date::days{every}));
  }
  return log;
}

SiteForecast forecast_of(const rules::Pest& pest, std::vector<Sighting> log,
                         std::optional<degree_day::Method> method = {}) {
  const forecast::Question question{
      .site = "Mill Lane", .pests = {&pest}, .method = method, .sightings = std::move(log)};
  return evaluate(question, {weather::until(wooster(), day(k_today)), day(k_today)});
}

const StageForecast& egg_hatch(const SiteForecast& site) { return site.pests.front().stages.front(); }
const forecast::TriggerForecast& figure(const SiteForecast& site) { return egg_hatch(site).begins.front(); }

const WindowForecast& window(const SiteForecast& site, const char* id) {
  const auto& windows = site.pests.front().windows;
  return *std::find_if(windows.begin(), windows.end(),
                       [id](const WindowForecast& each) { return std::string{each.window->id} == id; });
}

/// Nothing is later than any date: it does not come this season.
bool is_later(const std::optional<Day>& a, const std::optional<Day>& b) { return b && (!a || *a > *b); }

/// Every date that the forecast gives.
std::vector<std::optional<Day>> all_dates(const SiteForecast& site) {
  std::vector<std::optional<Day>> dates;
  for (const StageForecast& stage : site.pests.front().stages) {
    dates.insert(dates.end(), stage.spread.dates.begin(), stage.spread.dates.end());
  }
  for (const WindowForecast& each : site.pests.front().windows) {
    dates.insert(dates.end(), {each.from, each.until});
    dates.insert(dates.end(), each.opens.dates.begin(), each.opens.dates.end());
    dates.insert(dates.end(), each.closes.dates.begin(), each.closes.dates.end());
  }
  return dates;
}

}  // namespace

TEST_CASE("a site's shift is found in simulated seasons, and moves the stage where a scatter is published") {
  const rules::Pest pest = boxwood(20);
  const SiteForecast published = forecast_of(pest, {});
  const SiteForecast learned = forecast_of(pest, simulated(1.15 * 179, 20, 7, 1990, 2013));
  const forecast::LocalSum& local = *figure(learned).local;
  CHECK(local.seasons == 24);
  CHECK(local.set_aside == 0);
  CHECK(local.learned->sum == Approx(1.15 * 179).margin(10));
  CHECK(local.learned->deviation < 7);
  CHECK(egg_hatch(learned).spread.dates == figure(learned).learned.dates);
  CHECK(*egg_hatch(learned).summary.likely > *egg_hatch(published).summary.likely);
  CHECK(figure(learned).spread.dates == figure(published).spread.dates);  // the figure keeps its own date
}

TEST_CASE("a site that is later than published puts no action off, and shortens no look and no ban") {
  const rules::Pest pest = boxwood(20);
  const SiteForecast published = forecast_of(pest, {});
  const SiteForecast learned = forecast_of(pest, simulated(1.15 * 179, 20, 7, 1990, 2013));
  for (std::size_t i = 0; i < pest.windows.size(); ++i) {
    const WindowForecast& before = published.pests.front().windows[i];
    const WindowForecast& after = learned.pests.front().windows[i];
    const bool acts = before.window->kind == rules::WindowKind::act;
    for (std::size_t m = 0; m < before.opens.dates.size(); ++m) {
      CHECK_FALSE(is_later(after.opens.dates[m], before.opens.dates[m]));
    }
    for (std::size_t m = 0; m < before.closes.dates.size(); ++m) {
      CHECK_FALSE((acts ? is_later(after.closes.dates[m], before.closes.dates[m])
                        : is_later(before.closes.dates[m], after.closes.dates[m])));
    }
  }
  CHECK(window(learned, "treat-nymphs").from == window(published, "treat-nymphs").from);
}

TEST_CASE("a site that is earlier than published brings its action forward") {
  const rules::Pest pest = boxwood(20);
  const SiteForecast published = forecast_of(pest, {});
  const SiteForecast learned = forecast_of(pest, simulated(0.85 * 179, 20, 7, 1990, 2013));
  CHECK(figure(learned).local->learned->sum == Approx(0.85 * 179).margin(10));
  CHECK(*window(learned, "treat-nymphs").from < *window(published, "treat-nymphs").from);
}

TEST_CASE("without a published scatter the log is shown and moves no date") {
  const rules::Pest pest = boxwood({});
  const auto log = simulated(1.15 * 179, 20, 7, 2009, 2013);
  const SiteForecast learned = forecast_of(pest, log);
  const forecast::LocalSum& local = *figure(learned).local;
  CHECK(local.seasons == 5);
  CHECK_FALSE(local.learned);
  CHECK(local.lowest < local.mean);
  CHECK(local.mean < local.highest);
  CHECK(local.mean == Approx(1.15 * 179).margin(20));
  CHECK(all_dates(learned) == all_dates(forecast_of(pest, {})));
  CHECK_FALSE(figure(forecast_of(pest, {})).local);
}

TEST_CASE("crews that come late drag no date") {
  const rules::Pest pest = boxwood(20);
  std::vector<Sighting> log;
  for (int year = 1990; year <= 2013; ++year) {
    const Day found = reached(179, year) + date::days{7 + (year % 5) * 7};
    if (year % 2 == 0) log.push_back(hatch(found - date::days{15}, true));
    log.push_back(hatch(found));
  }
  const SiteForecast late = forecast_of(pest, log);
  CHECK(figure(late).local->set_aside == 24);
  CHECK(figure(late).local->seasons == 0);
  CHECK(figure(late).local->learned->sum == 179);
  CHECK(all_dates(late) == all_dates(forecast_of(pest, {})));
}

TEST_CASE("a day on which it was found and not found on one plant teaches nothing") {
  const rules::Pest pest = boxwood(20);
  const Day date = reached(215, 2012);
  const std::vector<Sighting> sound{hatch(date - date::days{6}, true, "hedge"), hatch(date, false, "hedge")};
  auto contradictory = sound;
  contradictory.push_back(hatch(date, true, "hedge"));
  CHECK(figure(forecast_of(pest, contradictory)).local->seasons == 0);
  CHECK(figure(forecast_of(pest, contradictory)).local->set_aside == 1);
  auto other_plant = sound;
  other_plant.push_back(hatch(date, true, "pot"));
  CHECK(figure(forecast_of(pest, other_plant)).local->seasons == 1);
}

TEST_CASE("this season's find teaches the next one, and another method's sum is another figure") {
  const rules::Pest pest = boxwood(20);
  const Day today = day(k_today);
  CHECK(figure(forecast_of(pest, {hatch(today - date::days{9}, true), hatch(today - date::days{2})})).local->seasons ==
        0);
  const auto log = simulated(1.15 * 179, 20, 7, 2009, 2013);
  CHECK_FALSE(figure(forecast_of(pest, log, degree_day::Method::single_sine)).local);
}

TEST_CASE("the report names the published and the learned sum side by side") {
  const rules::Pest pest = boxwood(20);
  const SiteForecast learned = forecast_of(pest, simulated(1.15 * 179, 20, 7, 2011, 2013));
  const auto& local = *figure(learned).local;
  const std::string said = fmt::format("published 179, this site so far {:.0f} +- {:.0f} from 3 seasons",
                                       local.learned->sum, local.learned->deviation);
  CHECK(report::local_text(local, TemperatureUnit::fahrenheit) == said);
  const std::string text = report::when_text(learned, records::shipped(), {200, false}, report::Detail::full);
  CHECK(text.find(said) != std::string::npos);
  const std::string json = report::when_json(std::vector{learned}, records::shipped());
  CHECK(json.find("\"moves_dates\": true") != std::string::npos);
  CHECK(json.find("\"published_scatter_f\": 20.0") != std::string::npos);
  const std::string in_celsius = report::local_text(local, TemperatureUnit::celsius);
  CHECK(in_celsius.find("published 99,") == 0);
  CHECK(report::local_text(
            {.published = 179, .scatter = 20, .learned = forecast::learn(forecast::threshold_prior(179, 20), {})},
            TemperatureUnit::fahrenheit) == "published 179 +- 20");
}

TEST_CASE("the doubt in a published sum widens what the weather gives") {
  const rules::Pest pest = boxwood(30);
  const SiteForecast site = forecast_of(pest, {});
  CHECK(*figure(site).doubtful_summary.early < *figure(site).summary.early);
  CHECK(*figure(site).doubtful_summary.late > *figure(site).summary.late);
}

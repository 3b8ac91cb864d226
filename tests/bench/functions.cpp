// The parts that a forecast is made of, one at a time.
#include <budclock/forecast/evaluate.hpp>
#include <budclock/report/writers.hpp>
#include <budclock/rules/load.hpp>
#include <budclock/weather/quality.hpp>
#include <budclock/weather/reader.hpp>

#include <benchmark/benchmark.h>
#include <fstream>
#include <iterator>
#include <string>
#include <vector>

using namespace budclock;

namespace {

constexpr const char* k_record = BUDCLOCK_SOURCE_DIR "/examples/weather/wooster_oh_1985-2014.csv";

const std::string& record_text() {
  static const std::string text = [] {
    std::ifstream in{k_record, std::ios::binary};
    return std::string{std::istreambuf_iterator<char>{in}, {}};
  }();
  return text;
}

weather::StationRecord record() {
  weather::StationRecord read;
  weather::MemorySource source{record_text()};
  weather::read_weather(source, k_record, {}, [&](weather::StationRecord&& station) { read = std::move(station); });
  return read;
}

const rules::PestTable& table() {
  static const rules::PestTable loaded = [] {
    Diagnostics none;
    return rules::load(rules::shipped_files(), none);
  }();
  return loaded;
}

forecast::SiteWeather site_weather() {
  const Day today{date::year{2014} / 4 / 10};
  return {weather::until(record().days, today), today, {}, {}};
}

forecast::Question all_pests() {
  forecast::Question question;
  for (const rules::Pest& pest : table().pests) question.pests.push_back(&pest);
  return question;
}

void count_days(benchmark::State& state, std::size_t days) {
  state.SetItemsProcessed(state.iterations() * static_cast<std::int64_t>(days));
}

void load_pests(benchmark::State& state) {
  for (auto _ : state) {
    Diagnostics none;
    benchmark::DoNotOptimize(rules::load(rules::shipped_files(), none));
  }
}
BENCHMARK(load_pests);

void read_thirty_years(benchmark::State& state) {
  for (auto _ : state) benchmark::DoNotOptimize(record());
  count_days(state, record().days.size());
}
BENCHMARK(read_thirty_years);

void check_thirty_years(benchmark::State& state) {
  const weather::StationRecord station = record();
  for (auto _ : state) benchmark::DoNotOptimize(weather::check_quality(station.days, station.unit));
  count_days(state, station.days.size());
}
BENCHMARK(check_thirty_years);

void sum_thirty_years(benchmark::State& state) {
  const weather::DailySeries days = record().days;
  degree_day::Formula formula;
  formula.method = static_cast<degree_day::Method>(state.range(0));
  formula.lower = Temperature::fahrenheit(50);
  for (auto _ : state) benchmark::DoNotOptimize(forecast::daily_degree_days(formula, days));
  count_days(state, days.size());
}
BENCHMARK(sum_thirty_years)
    ->Arg(static_cast<int>(degree_day::Method::average))
    ->Arg(static_cast<int>(degree_day::Method::single_sine));

void forecast_all_pests(benchmark::State& state) {
  const forecast::SiteWeather weather = site_weather();
  const forecast::Question question = all_pests();
  for (auto _ : state) benchmark::DoNotOptimize(forecast::evaluate(question, weather));
}
BENCHMARK(forecast_all_pests)->Unit(benchmark::kMillisecond);

void write_report(benchmark::State& state) {
  const forecast::SiteForecast site = forecast::evaluate(all_pests(), site_weather());
  const auto format = static_cast<report::Format>(state.range(0));
  for (auto _ : state) benchmark::DoNotOptimize(report::written(format, {&site, 1}, table(), {}));
}
BENCHMARK(write_report)
    ->Arg(static_cast<int>(report::Format::text))
    ->Arg(static_cast<int>(report::Format::csv))
    ->Unit(benchmark::kMillisecond);

}  // namespace

BENCHMARK_MAIN();

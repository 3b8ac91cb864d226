// Scores the forecasts of all shipped figures on many records together.
// usage: measure_hindcast FILE...    daily records with the unit in their header
// Prints one line a record and lead, then all of them: forecasts of one year go together in the bootstrap, whatever
// the station, for they meet the same weather.
#include "shipped_sums.hpp"

#include <array>
#include <filesystem>
#include <fmt/format.h>
#include <string>
#include <vector>

using namespace budclock;
using namespace budclock::forecast;

namespace {

constexpr std::array k_leads{7, 14, 30, 60};
constexpr int k_known_days = 7;

std::string range(const SkillRange& range) {
  return fmt::format("{:.0f} ({:.0f}..{:.0f})", 100 * range.skill, 100 * range.low, 100 * range.high);
}

void print(const std::string& name, int lead, const Scores& s) {
  if (s.forecasts == 0) return;
  fmt::print("| {} | {} | {} | {:+.1f} | {:.2f} | {:.1f} | {:.1f} | {:.1f} | {:.2f} | {} | {} | {} | {} |", name, lead,
             s.forecasts, s.bias, s.error, 100 * s.covered, 100 * s.held, s.width, s.crps, range(s.over_calendar),
             range(s.over_calendar_crps), range(s.over_increment), range(s.over_increment_crps));
  if (s.known) fmt::print(" {:.2f} | {} | {} |", s.known->error, range(s.known->gain), range(s.known->gain_crps));
  fmt::print("\n");
}

}  // namespace

int main(int argc, char** argv) {
  if (argc < 2) {
    fmt::print(stderr, "usage: measure_hindcast FILE...\n");
    return 2;
  }
  fmt::print(
      "| record | lead | n | bias | off | 80 % | held | wide | CRPS | over calendar | CRPS over calendar years | over "
      "increment | CRPS over increment | off, {0} days known | gain | CRPS gain |\n"
      "|---|---:|---:|---:|---:|---:|---:|---:|---:|---:|---:|---:|---:|---:|---:|---:|\n",
      k_known_days);
  const std::vector<SumEvent> all = tools::events();
  std::vector<std::vector<ReplayedForecast>> pooled(k_leads.size());
  for (int i = 1; i < argc; ++i) {
    const weather::DailySeries days = tools::read(argv[i]);
    const std::string name = std::filesystem::path{argv[i]}.stem().string();
    for (std::size_t l = 0; l < k_leads.size(); ++l) {
      std::vector<ReplayedForecast> of_record;
      for (const SumEvent& event : all) {
        auto forecasts = replay(event, days, k_leads[l], k_known_days);
        of_record.insert(of_record.end(), forecasts.begin(), forecasts.end());
      }
      print(name, k_leads[l], score(of_record));
      pooled[l].insert(pooled[l].end(), of_record.begin(), of_record.end());
    }
  }
  for (std::size_t l = 0; l < k_leads.size(); ++l) print("all", k_leads[l], score(pooled[l]));
}

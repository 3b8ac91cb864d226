#include "row_reader.hpp"

#include <algorithm>
#include <fmt/format.h>
#include <map>
#include <tuple>

namespace budclock::journal {
namespace {

using rules::Pest;
using rules::Stage;

const Stage* find_stage(const Pest& pest, const std::string& id) {
  const auto found = std::find_if(pest.stages.begin(), pest.stages.end(), [&](const Stage& s) { return s.id == id; });
  return found == pest.stages.end() ? nullptr : &*found;
}

/// The degree-day figures that date a stage, by the count they were made with.
std::vector<const rules::DegreeDayCue*> dating_cues(const Stage& stage) {
  std::vector<const rules::DegreeDayCue*> cues;
  for (const rules::Trigger& trigger : stage.begins) {
    const auto* cue = std::get_if<rules::DegreeDayCue>(&trigger.cue);
    if (cue != nullptr && trigger.use == rules::Use::date) cues.push_back(cue);
  }
  return cues;
}

bool is_after_stage(const Stage& later, const std::string& earlier) {
  return std::any_of(later.begins.begin(), later.begins.end(), [&](const rules::Trigger& trigger) {
    const auto* cue = std::get_if<rules::AfterStageCue>(&trigger.cue);
    return cue != nullptr && cue->stage == earlier && trigger.use != rules::Use::shown;
  });
}

/// The pest file says that one stage comes before the other: the later is counted from it, or one count dates both
/// and gives the earlier the smaller sum.
bool comes_before(const Stage& earlier, const Stage& later) {
  if (is_after_stage(later, earlier.id)) return true;
  bool before = false;
  for (const rules::DegreeDayCue* first : dating_cues(earlier)) {
    for (const rules::DegreeDayCue* second : dating_cues(later)) {
      if (first->count != second->count) continue;
      if (first->sum >= second->sum) return false;
      before = true;
    }
  }
  return before;
}

/// A stage found on one plant in one season, for the first time.
struct FirstFind {
  const Stage* stage;
  Day date;
  std::size_t line;
};

/// A stage found, for the first time that season, after one that must follow it: that stage's find.
const FirstFind* overtaken_by(const Sighting& found, const Stage& stage, const std::vector<FirstFind>& before) {
  const FirstFind* overtaker = nullptr;
  for (const FirstFind& old : before) {
    if (old.stage == &stage) return nullptr;
    if (overtaker == nullptr && old.date != found.date && comes_before(stage, *old.stage)) overtaker = &old;
  }
  return overtaker;
}

auto plant_and_season(const Sighting& row) { return std::tuple{row.site, row.pest, row.plant, year_of(row.date)}; }

}  // namespace

bool same_plant_and_season(const Sighting& a, const Sighting& b) {
  return a.site == b.site && a.pest == b.pest && a.plant == b.plant && year_of(a.date) == year_of(b.date);
}

void drop_impossible_order(std::vector<Sighting>& sightings, const rules::PestTable& pests, Diagnostics& diagnostics) {
  std::map<decltype(plant_and_season(sightings.front())), std::vector<FirstFind>> seasons;
  std::erase_if(sightings, [&](const Sighting& found) {
    const Pest* pest = found.stage.empty() || found.not_found ? nullptr : pests.find_pest(found.pest);
    if (pest == nullptr) return false;
    const Stage& stage = *find_stage(*pest, found.stage);
    std::vector<FirstFind>& before = seasons[plant_and_season(found)];
    const FirstFind* overtaker = overtaken_by(found, stage, before);
    if (overtaker == nullptr) {
      before.push_back({&stage, found.date, found.place.line});
      return false;
    }
    const std::string line = overtaker->line > 0 ? fmt::format(" (line {})", overtaker->line) : "";
    diagnostics.push_back(
        {Severity::fault, found.place,
         fmt::format("\"{}\" is found for the first time on {}, after \"{}\" on {}{}, which must follow it{}",
                     stage.name, iso(found.date), overtaker->stage->name, iso(overtaker->date), line,
                     found.place.line > 0 ? "; the row is set aside" : ""),
         "correct the date or the stage; if it was merely still there, write so in the note"});
    return true;
  });
}

}  // namespace budclock::journal

#include "row_reader.hpp"

#include <algorithm>
#include <fmt/format.h>

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

bool same_plant_and_season(const Sighting& a, const Sighting& b) {
  return a.site == b.site && a.pest == b.pest && a.plant == b.plant && year_of(a.date) == year_of(b.date);
}

/// A stage found, for the first time that season, after one that must follow it: that stage's sighting.
const Sighting* overtaken_by(const Sighting& found, const std::vector<Sighting>& before, const Pest& pest) {
  const Stage* stage = find_stage(pest, found.stage);
  const Sighting* overtaker = nullptr;
  for (const Sighting& old : before) {
    if (old.stage.empty() || old.not_found || !same_plant_and_season(old, found) || old.date == found.date) continue;
    if (old.stage == found.stage) return nullptr;
    const Stage* other = find_stage(pest, old.stage);
    if (overtaker == nullptr && comes_before(*stage, *other)) overtaker = &old;
  }
  return overtaker;
}

}  // namespace

void drop_impossible_order(std::vector<Sighting>& sightings, const rules::PestTable& pests, Diagnostics& diagnostics) {
  std::vector<Sighting> kept;
  for (Sighting& found : sightings) {
    const Pest* pest = pests.find_pest(found.pest);
    const Sighting* overtaker =
        found.stage.empty() || found.not_found || pest == nullptr ? nullptr : overtaken_by(found, kept, *pest);
    if (overtaker == nullptr) {
      kept.push_back(std::move(found));
      continue;
    }
    const std::string line = overtaker->place.line > 0 ? fmt::format(" (line {})", overtaker->place.line) : "";
    diagnostics.push_back(
        {Severity::fault, found.place,
         fmt::format("\"{}\" is found for the first time on {}, after \"{}\" on {}{}, which must follow it{}",
                     find_stage(*pest, found.stage)->name, iso(found.date), find_stage(*pest, overtaker->stage)->name,
                     iso(overtaker->date), line, found.place.line > 0 ? "; the row is set aside" : ""),
         "correct the date or the stage; if it was merely still there, write so in the note"});
  }
  sightings = std::move(kept);
}

}  // namespace budclock::journal

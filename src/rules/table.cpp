#include <budclock/rules/pest.hpp>

#include <algorithm>

namespace budclock::rules {
namespace {

/// The entry whose `key` member equals `wanted`; null when there is none.
template <class T>
const T* find_by(const std::vector<T>& entries, std::string T::*key, const std::string& wanted) {
  const auto found = std::find_if(entries.begin(), entries.end(), [&](const T& entry) { return entry.*key == wanted; });
  return found == entries.end() ? nullptr : &*found;
}

}  // namespace

degree_day::Formula formula(const Count& count) {
  return {count.method.value, count.cutoff.value, count.lower, count.upper};
}

const Pest* PestTable::find_pest(const std::string& id) const { return find_by(pests, &Pest::id, id); }
const Companion* PestTable::find_companion(const std::string& id) const {
  return find_by(companions, &Companion::id, id);
}
const Source* PestTable::find_source(const std::string& key) const { return find_by(sources, &Source::key, key); }
const Caution* PestTable::find_caution(const std::string& id) const { return find_by(cautions, &Caution::id, id); }
const Region* PestTable::find_region(const std::string& name) const { return find_by(regions, &Region::name, name); }

namespace {

/// Whether the days from `first` to `last`, over New Year when `last` comes earlier, touch a month.
bool touches(MonthDay first, MonthDay last, date::month month) {
  const date::month from = first.month();
  const date::month to = last.month();
  return first <= last ? from <= month && month <= to : month >= from || month <= to;
}

/// The calendar ranges that an edge names.
std::vector<CalendarCue> calendar_cues(const Pest& pest, const Edge& edge) {
  std::vector<CalendarCue> cues;
  for (const std::string& id : edge.triggers) {
    const Trigger* trigger = find_trigger(pest, id);
    const auto* cue = trigger ? std::get_if<CalendarCue>(&trigger->cue) : nullptr;
    if (cue != nullptr) cues.push_back(*cue);
  }
  return cues;
}

bool window_touches(const Pest& pest, const Window& window, date::month month) {
  for (const CalendarCue& opens : calendar_cues(pest, window.opens)) {
    for (const CalendarCue& closes : calendar_cues(pest, window.closes)) {
      if (touches(opens.from, closes.to, month)) return true;
    }
  }
  return false;
}

}  // namespace

bool due_in(const Pest& pest, date::month month) {
  for (const Stage& stage : pest.stages) {
    for (const auto* triggers : {&stage.begins, &stage.ends}) {
      for (const Trigger& trigger : *triggers) {
        const auto* cue = std::get_if<CalendarCue>(&trigger.cue);
        if (cue != nullptr && touches(cue->from, cue->to, month)) return true;
      }
    }
  }
  return std::any_of(pest.windows.begin(), pest.windows.end(),
                     [&](const Window& window) { return window_touches(pest, window, month); });
}

const Count* find_count(const Pest& pest, const std::string& id) { return find_by(pest.counts, &Count::id, id); }

const Trigger* find_trigger(const Pest& pest, const std::string& id) {
  for (const Stage& stage : pest.stages) {
    if (const Trigger* found = find_by(stage.begins, &Trigger::id, id)) return found;
    if (const Trigger* found = find_by(stage.ends, &Trigger::id, id)) return found;
  }
  return nullptr;
}

const Observation* find_observation(const Pest& pest, const std::string& id) {
  return find_by(pest.observations, &Observation::id, id);
}

}  // namespace budclock::rules

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

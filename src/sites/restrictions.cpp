#include <budclock/rules/action.hpp>
#include <budclock/sites/pest_names.hpp>
#include <budclock/sites/restrictions.hpp>

#include "pest_words.hpp"

#include <algorithm>
#include <fmt/format.h>
#include <utility>

namespace budclock::sites {
namespace {

using rules::SiteFact;
using rules::SiteRule;

/// A fact that a rule speaks of, as far as it holds here: in words, and whether it holds for all plants concerned.
struct Finding {
  std::string words{};  ///< empty: it does not hold
  bool for_all = true;
};

std::string joined(const std::vector<std::string>& names) { return fmt::format("{}", fmt::join(names, ", ")); }

bool holds_words(const std::string& text, const std::string& words) {
  return words_of(text).find(words_of(words)) != std::string::npos;
}

/// A bloom is one season's: what an earlier calendar year's was says nothing of this one.
bool is_of_earlier_year(const DatedName& plant, Day today) { return plant.day && year_of(*plant.day) < year_of(today); }

bool is_stated(const std::optional<std::vector<DatedName>>& blooms, Day today) {
  return blooms && std::none_of(blooms->begin(), blooms->end(),
                                [&](const DatedName& plant) { return is_of_earlier_year(plant, today); });
}

/// Judges the facts of one site for one pest on one host.
class Facts {
 public:
  Facts(const Site& site, const rules::Pest& pest, const std::string& host,
        const std::map<std::string, PlantHosts>& known, Day today)
      : site_{site}, pest_{pest}, host_{host}, known_{known}, today_{today} {
    std::copy_if(site.plants.begin(), site.plants.end(), std::back_inserter(plants_),
                 [&](const std::string& plant) { return is_concerned(plant); });
  }

  Finding judged(const SiteRule& rule) const {
    const SiteSafety& facts = site_.safety;
    switch (rule.fact) {
      case SiteFact::host_in_bloom:
        return bloom(true, Bloom::now);
      case SiteFact::other_in_bloom:
        return bloom(false, Bloom::now);
      case SiteFact::host_due_to_bloom:
        return bloom(true, Bloom::due);
      case SiteFact::other_due_to_bloom:
        return bloom(false, Bloom::due);
      case SiteFact::hives:
        return {nearness("bee hives", facts.hives)};
      case SiteFact::water:
        if (rule.within_ft && facts.water && facts.water->feet && *facts.water->feet >= *rule.within_ft) return {};
        return {nearness("water", facts.water)};
      case SiteFact::oil_sensitive_host:
        return oil_sensitive(facts.oil_sensitive.value_or(std::vector<DatedName>{}));
      case SiteFact::host_is:
        return plants_where([&](const std::string& plant) {
          return std::any_of(rule.plants.begin(), rule.plants.end(),
                             [&](const std::string& name) { return holds_words(plant, name); });
        });
      case SiteFact::predators:
        return {released()};
      case SiteFact::people:
        return {facts.children_or_pets.value_or(false) ? "children or pets" : ""};
      case SiteFact::state:
        return {state(rule)};
      case SiteFact::soil_unfit:
        if (const auto soil = counts_on(today_, facts.soil); soil && soil->value != Soil::fit) {
          return {"soil " + to_text(*soil)};
        }
        return {};
      case SiteFact::drought:
        if (const auto drought = counts_on(today_, facts.drought); drought && drought->value) {
          return {to_text(*drought)};
        }
        return {};
    }
    return {};
  }

 private:
  enum class Bloom : bool { now, due };

  /// A plant on which the pest lives, of the host that is asked for.
  bool is_concerned(const std::string& plant) const {
    const PlantHosts& known = known_.at(plant);
    if (std::find(known.pests.begin(), known.pests.end(), &pest_) == known.pests.end()) return false;
    return host_.empty() || std::any_of(pest_.hosts.begin(), pest_.hosts.end(), [&](const rules::Host& host) {
             return host.name == host_ && std::find(known.hosts.begin(), known.hosts.end(), &host) != known.hosts.end();
           });
  }

  /// What was due by today may be in flower.
  Finding bloom(bool of_host, Bloom when) const {
    std::vector<std::string> found;
    const auto add = [&](const DatedName& plant, std::string words) {
      if (is_of_earlier_year(plant, today_)) return;
      if (is_concerned(plant.name) == of_host) found.push_back(std::move(words));
    };
    if (when == Bloom::now) {
      for (const DatedName& plant : site_.safety.in_bloom.value_or(std::vector<DatedName>{})) {
        if (plant.day && *plant.day > today_) continue;
        add(plant, plant.name + " in bloom" + (plant.day ? fmt::format(" (noted {})", iso(*plant.day)) : ""));
      }
    }
    for (const DatedName& plant : site_.safety.due_to_bloom.value_or(std::vector<DatedName>{})) {
      const bool has_come = plant.day && *plant.day <= today_;
      if (has_come != (when == Bloom::now)) continue;
      const std::string day = plant.day ? fmt::format(" {} {}", has_come ? "since" : "on", iso(*plant.day)) : "";
      add(plant, plant.name + " due to bloom" + day);
    }
    return {joined(found)};
  }

  static std::string nearness(const char* what, const std::optional<Nearness>& fact) {
    if (!fact || !fact->near) return {};
    return fact->distance.empty() ? fmt::format("{} near", what) : fmt::format("{} at {}", what, fact->distance);
  }

  /// Of the plants concerned those of which it holds.
  template <class Holds>
  Finding plants_where(Holds holds) const {
    std::vector<std::string> found;
    std::copy_if(plants_.begin(), plants_.end(), std::back_inserter(found), holds);
    return {joined(found), found.size() == plants_.size()};
  }

  /// The site may name a plant here that is not among its plants: it is one all the same.
  Finding oil_sensitive(const std::vector<DatedName>& names) const {
    const Finding among = plants_where([&](const std::string& plant) {
      return std::any_of(names.begin(), names.end(), [&](const DatedName& name) {
        return holds_words(plant, name.name) || holds_words(name.name, plant);
      });
    });
    if (!among.words.empty()) return among;
    std::vector<std::string> others;
    for (const DatedName& name : names) {
      if (is_concerned(name.name)) others.push_back(name.name);
    }
    return {joined(others), plants_.empty()};
  }

  std::string released() const {
    std::vector<std::string> found;
    for (const DatedName& each : site_.safety.predators.value_or(std::vector<DatedName>{})) {
      if (each.day && *each.day > today_) continue;
      found.push_back(each.name + " released" + (each.day ? fmt::format(" ({})", iso(*each.day)) : ""));
    }
    return joined(found);
  }

  std::string state(const SiteRule& rule) const {
    if (std::find(rule.states.begin(), rule.states.end(), site_.safety.state) == rule.states.end()) return {};
    const auto& all = rules::states();
    const auto found =
        std::find_if(all.begin(), all.end(), [&](const rules::State& each) { return each.code == site_.safety.state; });
    return fmt::format("the law of {}", found->name);
  }

  const Site& site_;
  const rules::Pest& pest_;
  const std::string& host_;
  const std::map<std::string, PlantHosts>& known_;
  Day today_;
  std::vector<std::string> plants_;  ///< those of the site that are concerned
};

bool passes(SiteFact fact) {
  return fact == SiteFact::host_in_bloom || fact == SiteFact::other_in_bloom || fact == SiteFact::soil_unfit ||
         fact == SiteFact::drought;
}

}  // namespace

Restrictions::Restrictions(const Site& site, const rules::PestTable& table, Day today)
    : site_{site}, table_{table}, today_{today} {
  const auto add = [&](const std::string& plant) {
    const auto [known, is_new] = plants_.try_emplace(plant);
    if (is_new) known->second = hosts_of(table, plant);
  };
  for (const std::string& plant : site.plants) add(plant);
  for (const auto* names : {&site.safety.in_bloom, &site.safety.due_to_bloom, &site.safety.oil_sensitive}) {
    for (const DatedName& plant : names->value_or(std::vector<DatedName>{})) add(plant.name);
  }
}

std::vector<rules::SiteRestriction> Restrictions::on(const rules::Pest& pest, const std::string& host) const {
  std::vector<rules::SiteRestriction> all;
  const Facts facts{site_, pest, host, plants_, today_};
  for (const SiteRule& rule : table_.site_rules) {
    const auto& pests = rule.pests;
    if (!pests.empty() && std::find(pests.begin(), pests.end(), pest.id) == pests.end()) continue;
    const Finding found = facts.judged(rule);
    if (found.words.empty()) continue;
    rules::SiteRestriction restriction{rule.id,   rule.actions, rule.bars && found.for_all, printable(found.words),
                                       rule.text, rule.citation};
    if (rule.bars && !found.for_all) restriction.text += "; the other plants are free of this";
    if (passes(rule.fact)) restriction.until = today_ + k_passing_days;
    const bool said = std::any_of(all.begin(), all.end(), [&](const rules::SiteRestriction& each) {
      return each.bars && restriction.bars && each.fact == restriction.fact && each.actions == restriction.actions;
    });
    if (!said) all.push_back(std::move(restriction));
  }
  std::stable_partition(all.begin(), all.end(), [](const rules::SiteRestriction& each) { return each.bars; });
  return all;
}

std::string to_text(const Noted<Soil>& soil) {
  const char* word = "moist";
  if (soil.value == Soil::frozen) word = "frozen";
  if (soil.value == Soil::saturated) word = "saturated";
  if (soil.value == Soil::dry) word = "dry";
  return fmt::format("{} (noted {})", word, iso(soil.day));
}

std::string to_text(const Noted<bool>& drought) {
  return fmt::format("{}drought (noted {})", drought.value ? "" : "no ", iso(drought.day));
}

std::vector<std::string> not_stated(const SiteSafety& safety, Day today) {
  std::vector<std::string> missing;
  const auto want = [&](bool stated, const char* what) {
    if (!stated) missing.emplace_back(what);
  };
  want(!safety.state.empty(), "state");
  want(safety.water.has_value(), "distance to water");
  want(is_stated(safety.in_bloom, today), "plants in bloom");
  want(is_stated(safety.due_to_bloom, today), "plants due to bloom");
  want(safety.hives.has_value(), "bee hives");
  want(safety.oil_sensitive.has_value(), "plants that oil harms");
  want(safety.predators.has_value(), "predators released");
  want(safety.children_or_pets.has_value(), "children or pets");
  want(counts_on(today, safety.soil).has_value(), "state of the soil this week");
  want(counts_on(today, safety.drought).has_value(), "drought this week");
  return missing;
}

}  // namespace budclock::sites

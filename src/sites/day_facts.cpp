#include <budclock/rules/names.hpp>
#include <budclock/sites/day_facts.hpp>
#include <budclock/sites/pest_names.hpp>
#include <budclock/sites/restrictions.hpp>

#include <algorithm>
#include <utility>

namespace budclock::sites {
namespace {

using rules::Action;
using rules::SiteRestriction;

/// What a day's action can be.
std::vector<Action> kinds_of(rules::DayAction action) {
  std::vector<Action> kinds;
  for (const auto& [name, kind] : rules::k_action_names) {
    if (rules::day_action_of(kind) == action) kinds.push_back(kind);
  }
  return kinds;
}

std::vector<Action> shared(const std::vector<Action>& some, const std::vector<Action>& others) {
  std::vector<Action> both;
  std::copy_if(some.begin(), some.end(), std::back_inserter(both),
               [&](Action action) { return contains(others, action); });
  return both;
}

/// Kinds of action against a pest on one host (empty: on any).
struct Use {
  std::string host;
  std::vector<Action> kinds;
};

/// Collects what applies, pest by pest.
class Collector {
 public:
  Collector(const Site& site, const rules::PestTable& table, rules::DayAction action, Day today)
      : restrictions_{site, table, today}, kinds_{kinds_of(action)}, hosts_{hosts_at(site, table)} {}

  DayFacts collected(const std::vector<const rules::Pest*>& concerned) {
    for (const rules::Pest* pest : concerned) {
      if (const auto uses = uses_against(*pest); !uses.empty()) add(*pest, uses);
    }
    found_.is_listed = !found_.pests.empty();
    if (!found_.is_listed) {
      for (const rules::Pest* pest : concerned) add(*pest, {{"", kinds_}});
    }
    std::stable_partition(found_.facts.begin(), found_.facts.end(), [](const DayFact& fact) { return fact.rule.bars; });
    return std::move(found_);
  }

 private:
  std::vector<Use> uses_against(const rules::Pest& pest) const {
    std::vector<Use> uses;
    for (const rules::Window& window : pest.windows) {
      if (window.kind != rules::WindowKind::act || !may_grow(hosts_, pest, window.host)) continue;
      if (auto kinds = shared(window.actions, kinds_); !kinds.empty()) uses.push_back({window.host, std::move(kinds)});
    }
    return uses;
  }

  void add(const rules::Pest& pest, const std::vector<Use>& uses) {
    found_.pests.push_back(&pest);
    bool barred = true;
    for (const Use& use : uses) {
      const auto rules = restrictions_.on(pest, use.host);
      for (const SiteRestriction& rule : rules) add(pest, use, rule);
      barred = barred && std::all_of(use.kinds.begin(), use.kinds.end(), [&](Action kind) {
                 return std::any_of(rules.begin(), rules.end(), [kind](const SiteRestriction& rule) {
                   return rule.bars && contains(rule.actions, kind);
                 });
               });
    }
    if (barred) found_.barred.push_back(&pest);
  }

  void add(const rules::Pest& pest, const Use& use, const SiteRestriction& rule) {
    const auto kinds = shared(rule.actions, use.kinds);
    if (kinds.empty()) return;
    auto fact = std::find_if(found_.facts.begin(), found_.facts.end(), [&](const DayFact& each) {
      return each.rule.id == rule.id && each.rule.bars == rule.bars && each.rule.fact == rule.fact &&
             each.rule.text == rule.text;
    });
    if (fact == found_.facts.end()) {
      fact = found_.facts.insert(found_.facts.end(), {rule, {}});
      fact->rule.actions.clear();
    }
    for (const Action kind : kinds) {
      if (!contains(fact->rule.actions, kind)) fact->rule.actions.push_back(kind);
    }
    if (fact->pests.empty() || fact->pests.back() != &pest) fact->pests.push_back(&pest);
  }

  Restrictions restrictions_;
  std::vector<Action> kinds_;
  std::map<std::string, std::vector<std::string>> hosts_;
  DayFacts found_;
};

}  // namespace

DayFacts day_facts(const Site& site, const rules::PestTable& table, rules::DayAction action, Day today) {
  return Collector{site, table, action, today}.collected(pests_of(site, table));
}

}  // namespace budclock::sites

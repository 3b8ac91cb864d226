#include <budclock/rules/names.hpp>
#include <budclock/rules/site_safety.hpp>

#include "reading.hpp"

#include <algorithm>
#include <fmt/format.h>

namespace budclock::rules {
namespace {

constexpr std::array<document::NamedValue<SiteFact>, 13> k_facts{
    {{"host in bloom", SiteFact::host_in_bloom},
     {"other plant in bloom", SiteFact::other_in_bloom},
     {"host due to bloom", SiteFact::host_due_to_bloom},
     {"other plant due to bloom", SiteFact::other_due_to_bloom},
     {"bee hives near", SiteFact::hives},
     {"water near", SiteFact::water},
     {"oil-sensitive host", SiteFact::oil_sensitive_host},
     {"host is", SiteFact::host_is},
     {"predators released", SiteFact::predators},
     {"children or pets", SiteFact::people},
     {"state", SiteFact::state},
     {"soil unfit", SiteFact::soil_unfit},
     {"drought", SiteFact::drought}}};
constexpr std::array<document::NamedValue<bool>, 2> k_effects{{{"bars", true}, {"warns", false}}};

std::vector<std::string> read_states(ObjectReader& entry) {
  std::vector<std::string> codes;
  for (const JsonNode& item : entry.items("states")) {
    const std::string code = document::text_of(item, entry.faults());
    const auto& known = states();
    if (std::none_of(known.begin(), known.end(), [&](const State& state) { return state.code == code; })) {
      entry.faults().add(item, fmt::format("\"{}\" is no state's postal code", code), "write two capitals, as in ME");
    }
    codes.push_back(code);
  }
  return codes;
}

SiteRule read_rule(const JsonNode& node, const PestTable& known, const std::vector<std::string>& taken,
                   Faults& faults) {
  constexpr double k_most_ft = 5280;
  ObjectReader entry{node, faults};
  SiteRule rule;
  rule.id = read_id(entry, taken);
  rule.fact = entry.choice("fact", k_facts).value_or(SiteFact::people);
  rule.actions = entry.choices("actions", k_action_names);
  if (rule.actions.empty()) faults.add(node, "no kind of action is named", "name those that the rule concerns");
  rule.bars = entry.choice("effect", k_effects).value_or(false);
  rule.text = entry.text("text");
  rule.citation = read_citation(entry, known);
  rule.pests = read_references(entry, "pests", "pest", ids_of(known.pests), Presence::optional);
  if (rule.fact == SiteFact::host_is) rule.plants = entry.texts("plants");
  if (rule.fact == SiteFact::state) rule.states = read_states(entry);
  if (rule.fact == SiteFact::water) rule.within_ft = entry.number("within_ft", 1, k_most_ft, Presence::optional);
  if (rule.within_ft && rule.citation.source.empty()) {
    faults.add(node, "a distance needs a source", "name the source, or leave the distance out");
  }
  entry.finish();
  return rule;
}

}  // namespace

std::vector<SiteRule> read_site_rules(const JsonNode& root, const PestTable& known,
                                      std::vector<std::string>& bee_plants, Faults& faults) {
  std::vector<SiteRule> rules;
  std::vector<std::string> taken;
  ObjectReader reader{root, faults};
  reader.text("schema");
  bee_plants = reader.texts("bee_plants", Presence::optional);
  for (const JsonNode& node : reader.items("rules")) {
    rules.push_back(read_rule(node, known, taken, faults));
    taken.push_back(rules.back().id);
  }
  reader.finish();
  return rules;
}

const std::vector<State>& states() {
  static const std::vector<State> k_states{
      {"AL", "Alabama"},        {"AK", "Alaska"},        {"AZ", "Arizona"},
      {"AR", "Arkansas"},       {"CA", "California"},    {"CO", "Colorado"},
      {"CT", "Connecticut"},    {"DE", "Delaware"},      {"DC", "District of Columbia"},
      {"FL", "Florida"},        {"GA", "Georgia"},       {"HI", "Hawaii"},
      {"ID", "Idaho"},          {"IL", "Illinois"},      {"IN", "Indiana"},
      {"IA", "Iowa"},           {"KS", "Kansas"},        {"KY", "Kentucky"},
      {"LA", "Louisiana"},      {"ME", "Maine"},         {"MD", "Maryland"},
      {"MA", "Massachusetts"},  {"MI", "Michigan"},      {"MN", "Minnesota"},
      {"MS", "Mississippi"},    {"MO", "Missouri"},      {"MT", "Montana"},
      {"NE", "Nebraska"},       {"NV", "Nevada"},        {"NH", "New Hampshire"},
      {"NJ", "New Jersey"},     {"NM", "New Mexico"},    {"NY", "New York"},
      {"NC", "North Carolina"}, {"ND", "North Dakota"},  {"OH", "Ohio"},
      {"OK", "Oklahoma"},       {"OR", "Oregon"},        {"PA", "Pennsylvania"},
      {"PR", "Puerto Rico"},    {"RI", "Rhode Island"},  {"SC", "South Carolina"},
      {"SD", "South Dakota"},   {"TN", "Tennessee"},     {"TX", "Texas"},
      {"UT", "Utah"},           {"VT", "Vermont"},       {"VA", "Virginia"},
      {"WA", "Washington"},     {"WV", "West Virginia"}, {"WI", "Wisconsin"},
      {"WY", "Wyoming"}};
  return k_states;
}

}  // namespace budclock::rules

#include "safety_reader.hpp"

#include <budclock/core/nearest.hpp>
#include <budclock/sites/pest_names.hpp>
#include <budclock/weather/value_text.hpp>

#include "pest_words.hpp"
#include "plain_text.hpp"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <fmt/format.h>

namespace budclock::sites {
namespace {

using document::Faults;
using document::JsonNode;
using document::NamedValue;
using document::ObjectReader;
using document::Presence;

constexpr std::string_view k_date_form = "write it as 2026-04-08, in brackets after the name";
constexpr std::array<NamedValue<bool>, 2> k_yes_no{{{"yes", true}, {"no", false}}};
constexpr std::array<NamedValue<Soil>, 4> k_soils{
    {{"moist", Soil::fit}, {"frozen", Soil::frozen}, {"saturated", Soil::saturated}, {"dry", Soil::dry}}};

/// A text taken apart: "white clover (2026-05-10)".
struct Dated {
  std::string text;
  std::optional<Day> day;
};

class FactReader {
 public:
  FactReader(ObjectReader& facts, const SafetyContext& context)
      : facts_{facts}, faults_{facts.faults()}, context_{context} {}

  SiteSafety read() {
    SiteSafety safety;
    safety.state = state();
    safety.water = nearness("water");
    safety.hives = nearness("hives");
    safety.in_bloom = names("in_bloom", Names::plants, When::noted);
    safety.due_to_bloom = names("due_to_bloom", Names::plants, When::due);
    safety.oil_sensitive = names("oil_sensitive", Names::plants, When::noted);
    safety.predators = names("predators", Names::any, When::noted);
    safety.children_or_pets = facts_.choice("children_or_pets", k_yes_no, Presence::optional);
    safety.soil = noted("soil", k_soils);
    safety.drought = noted("drought", k_yes_no);
    facts_.finish();
    return safety;
  }

 private:
  enum class Names : bool { any, plants };
  enum class When : bool { noted, due };

  std::string state() {
    const std::string text = plain(facts_.member("state", JsonNode::Kind::string, Presence::optional));
    if (text.empty()) return {};
    const std::string words = words_of(text);
    for (const rules::State& state : rules::states()) {
      if (words_of(state.code) == words && text.size() == 2) return std::string{state.code};
    }
    std::string remedy = "write the two-letter postal code, such as ME; leave it out elsewhere";
    for (const rules::State& state : rules::states()) {
      if (words_of(state.name) == words) remedy = fmt::format("write \"{}\"", state.code);
    }
    faults_.add(*facts_.node().find("state"), fmt::format("\"{}\" is no state's postal code", text), remedy);
    return {};
  }

  /// "yes", "no", "60 ft", "20 m".
  std::optional<Nearness> nearness(std::string_view key) {
    const std::string text = plain(facts_.member(key, JsonNode::Kind::string, Presence::optional));
    if (text.empty()) return std::nullopt;
    if (text == "no" || text == "none") return Nearness{};
    if (text == "yes") return Nearness{true};
    if (const auto feet = feet_in(text)) return Nearness{true, text, feet};
    faults_.add(*facts_.node().find(key), fmt::format("\"{}\" is no distance", text),
                "write a number above zero and its unit, such as \"60 ft\" or \"20 m\", or yes or no");
    return std::nullopt;
  }

  static std::optional<double> feet_in(std::string_view text) {
    constexpr std::array<NamedValue<double>, 6> k_feet_in{
        {{"ft", 1}, {"feet", 1}, {"yd", 3}, {"m", 1 / 0.3048}, {"km", 1000 / 0.3048}, {"miles", 5280}}};
    double number = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), number);
    if (error != std::errc{} || !std::isfinite(number) || number < 0) return std::nullopt;
    const std::string_view unit = weather::trimmed(text.substr(static_cast<std::size_t>(end - text.data())));
    for (const auto& [name, feet] : k_feet_in) {
      if (unit == name) return number * feet;
    }
    return std::nullopt;
  }

  /// A list of names, each with a day or without; ["none"] says that there are none.
  std::optional<std::vector<DatedName>> names(std::string_view key, Names kind, When when) {
    if (facts_.node().find(key) == nullptr) return std::nullopt;
    const auto& items = facts_.items(key, Presence::optional);
    std::vector<DatedName> all;
    if (items.size() == 1 && items[0].text == "none") return all;
    for (const JsonNode& item : items) {
      Dated found = dated(item, when);
      if (found.text.empty()) continue;
      if (kind == Names::plants) check_plant(item, found.text);
      all.push_back({std::move(found.text), found.day});
    }
    return all;
  }

  Dated dated(const JsonNode& node, When when) {
    std::string text = plain(&node);
    const std::size_t open = text.find('(');
    if (open == std::string::npos) return {text, {}};
    const std::string_view written = weather::trimmed(std::string_view{text}.substr(open + 1));
    const auto day = written.ends_with(')') ? parse_iso_day(written.substr(0, written.size() - 1)) : std::nullopt;
    if (!day) {
      faults_.add(node, fmt::format("\"{}\" ends with no day", text), std::string{k_date_form});
    } else if (when == When::noted && context_.last && *day > *context_.last) {
      faults_.add(node, fmt::format("{} lies in the future", iso(*day)),
                  "write the day on which it was seen; what is to come belongs under due_to_bloom");
    }
    return {std::string{weather::trimmed(std::string_view{text}.substr(0, open))}, day};
  }

  /// "dry (2026-04-08)": it changes with the weather, so the day must stand beside it.
  template <class T, std::size_t N>
  std::optional<Noted<T>> noted(std::string_view key, const std::array<NamedValue<T>, N>& words) {
    const JsonNode* node = facts_.member(key, JsonNode::Kind::string, Presence::optional);
    if (node == nullptr) return std::nullopt;
    const Dated found = dated(*node, When::noted);
    std::vector<std::string_view> known;
    for (const auto& [word, value] : words) {
      if (word == found.text && found.day) return Noted<T>{value, *found.day};
      known.push_back(word);
    }
    if (std::find(known.begin(), known.end(), found.text) == known.end()) {
      faults_.add(*node, fmt::format("\"{}\" is not known here", found.text), document::suggestion(found.text, known));
    } else if (node->text.find('(') == std::string::npos) {
      faults_.add(*node, fmt::format("when \"{}\" was noted is not said", found.text), std::string{k_date_form});
    }
    return std::nullopt;
  }

  std::string plain(const JsonNode* node) {
    if (node == nullptr) return {};
    std::string text = document::text_of(*node, faults_);
    if (!is_plain(*node, text, faults_)) return {};
    return std::string{weather::trimmed(text)};
  }

  void check_plant(const JsonNode& node, const std::string& plant) {
    const std::string words = words_of(plant);
    std::vector<std::string> names = context_.plants;
    names.insert(names.end(), context_.table.bee_plants.begin(), context_.table.bee_plants.end());
    for (const rules::Companion& companion : context_.table.companions) {
      if (companion.kind == rules::CompanionKind::indicator_plant) names.push_back(companion.name);
    }
    const bool known = std::any_of(names.begin(), names.end(), [&](const std::string& name) {
      const std::string other = words_of(name);
      return other.find(words) != std::string::npos || words.find(other) != std::string::npos;
    });
    if (known || !pests_on(context_.table, plant).empty()) return;
    for (const rules::Pest& pest : context_.table.pests) {
      for (const rules::Host& host : pest.hosts) names.push_back(host.name);
    }
    const auto near = nearest_name(plant, {names.begin(), names.end()});
    faults_.add(node, fmt::format("no plant here is called \"{}\"", plant),
                near ? fmt::format("did you mean \"{}\"? Else add it to the plants of the site", *near)
                     : "add it to the plants of the site, or correct the name");
  }

  ObjectReader& facts_;
  Faults& faults_;
  const SafetyContext& context_;
};

constexpr std::array<NamedValue<rules::Effect>, 2> k_effects{
    {{"rules out", rules::Effect::rules_out}, {"flags", rules::Effect::flags}}};

/// "wind 8 rules out": nothing after a fault.
std::optional<rules::OwnLimit> read_limit(const JsonNode& node, const rules::PestTable& table, Faults& faults) {
  const std::string text = document::text_of(node, faults);
  std::string_view rest = weather::trimmed(text);
  if (rest.empty()) return std::nullopt;
  rules::OwnLimit own{std::string{rest.substr(0, rest.find(' '))}};
  rest = weather::trimmed(rest.substr(own.id.size()));
  std::vector<std::string_view> ids;
  const rules::DayLimit* shipped = nullptr;
  for (const rules::DayLimit& limit : table.day_limits) {
    ids.push_back(limit.id);
    if (limit.id == own.id) shipped = &limit;
  }
  if (shipped == nullptr) {
    faults.add(node, fmt::format("no limit is called \"{}\"", own.id), document::suggestion(own.id, ids));
    return std::nullopt;
  }
  double value = 0;
  const auto [end, error] = std::from_chars(rest.data(), rest.data() + rest.size(), value);
  if (error == std::errc{}) {
    const auto range = rules::values_of(shipped->measure);
    if (!range || !(value >= range->first && value <= range->second)) {
      faults.add(node, fmt::format("{:g} is no value of the limit \"{}\"", value, own.id),
                 range ? fmt::format("write a number from {:g} to {:g}", range->first, range->second)
                       : "leave the number out: this limit has none");
      return std::nullopt;
    }
    own.value = value;
    rest = weather::trimmed(rest.substr(static_cast<std::size_t>(end - rest.data())));
  }
  for (const auto& [name, effect] : k_effects) {
    if (rest == name) own.effect = effect;
  }
  if ((rest.empty() && own.value) || own.effect) return own;
  faults.add(node, fmt::format("\"{}\" says neither a value nor an effect that is known here", text),
             "write the limit's id, then a number, or \"rules out\" or \"flags\", or both, such as \"wind 8 flags\"");
  return std::nullopt;
}

}  // namespace

SiteSafety read_safety(ObjectReader& facts, const SafetyContext& context) { return FactReader{facts, context}.read(); }

std::vector<rules::OwnLimit> read_limits(ObjectReader& owner, const rules::PestTable& table) {
  std::vector<rules::OwnLimit> limits;
  for (const JsonNode& item : owner.items("limits", Presence::optional)) {
    if (auto own = read_limit(item, table, owner.faults())) limits.push_back(std::move(*own));
  }
  return limits;
}

}  // namespace budclock::sites

#include "packed_table.hpp"

#include <array>
#include <concepts>
#include <cstring>
#include <stdexcept>
#include <tuple>
#include <type_traits>
#include <utility>

namespace budclock::rules {
namespace {

template <class Part, class T>
concept is = std::same_as<std::remove_const_t<Part>, T>;

// The members of each part of a table. A part that gains a member does not compile until its bindings name it.

auto members(is<Citation> auto& part) {
  auto& [source, where, region, grade, note] = part;
  return std::tie(source, where, region, grade, note);
}

template <class T>
auto members(const Stated<T>& part) {
  auto& [value, assumed, alternatives, note] = part;
  return std::tie(value, assumed, alternatives, note);
}

template <class T>
auto members(Stated<T>& part) {
  auto& [value, assumed, alternatives, note] = part;
  return std::tie(value, assumed, alternatives, note);
}

auto members(is<Count> auto& part) {
  auto& [id, unit, lower, upper, lower_printed, upper_printed, method, cutoff, start] = part;
  return std::tie(id, unit, lower, upper, lower_printed, upper_printed, method, cutoff, start);
}

auto members(is<DegreeDayCue> auto& part) {
  auto& [count, printed, sum, meaning, scatter] = part;
  return std::tie(count, printed, sum, meaning, scatter);
}

auto members(is<CalendarCue> auto& part) {
  auto& [from, to] = part;
  return std::tie(from, to);
}

auto members(is<AfterStageCue> auto& part) {
  auto& [stage, degree_days, days] = part;
  return std::tie(stage, degree_days, days);
}

auto members(is<DayLengthCue> auto& part) {
  auto& [hours, rising, sun_below_horizon_degrees] = part;
  return std::tie(hours, rising, sun_below_horizon_degrees);
}

auto members(is<PlantCue> auto& part) {
  auto& [observation, degree_days] = part;
  return std::tie(observation, degree_days);
}

auto members(is<SoilTemperatureCue> auto& part) {
  auto& [printed, value, rising] = part;
  return std::tie(printed, value, rising);
}

auto members(is<Trigger> auto& part) {
  auto& [id, says, cue, use, citation] = part;
  return std::tie(id, says, cue, use, citation);
}

auto members(is<Stage> auto& part) {
  auto& [id, name, text, begins, ends, shown_by] = part;
  return std::tie(id, name, text, begins, ends, shown_by);
}

auto members(is<Observation> auto& part) {
  auto& [id, text, valid_days, citation] = part;
  return std::tie(id, text, valid_days, citation);
}

auto members(is<Edge> auto& part) {
  auto& [triggers, take] = part;
  return std::tie(triggers, take);
}

auto members(is<Gate> auto& part) {
  auto& [seen, absent] = part;
  return std::tie(seen, absent);
}

auto members(is<Window> auto& part) {
  auto& [id, name, kind, actions, opens, closes, gate, reason, find, cautions, stages, host, citation] = part;
  return std::tie(id, name, kind, actions, opens, closes, gate, reason, find, cautions, stages, host, citation);
}

auto members(is<LifeStage> auto& part) {
  auto& [name, when, where, reached_by, note, citation] = part;
  return std::tie(name, when, where, reached_by, note, citation);
}

auto members(is<Remark> auto& part) {
  auto& [text, citation] = part;
  return std::tie(text, citation);
}

auto members(is<Host> auto& part) {
  auto& [name, scientific_name, also_called] = part;
  return std::tie(name, scientific_name, also_called);
}

auto members(is<PlantEffect> auto& part) {
  auto& [harm, text] = part;
  return std::tie(harm, text);
}

auto members(is<FollowUp> auto& part) {
  auto& [success, trigger, calendar, days, next_season, timing] = part;
  return std::tie(success, trigger, calendar, days, next_season, timing);
}

auto members(is<Pest> auto& part) {
  auto& [id, name, scientific_names, also_called, hosts, signs, need, need_text, life_cycle, counts, observations,
         stages, windows, do_not, conflicts, sample, action_threshold, follow_up, effect, cautions] = part;
  return std::tie(id, name, scientific_names, also_called, hosts, signs, need, need_text, life_cycle, counts,
                  observations, stages, windows, do_not, conflicts, sample, action_threshold, follow_up, effect,
                  cautions);
}

auto members(is<CompanionEvent> auto& part) {
  auto& [id, says, cue, count, citation] = part;
  return std::tie(id, says, cue, count, citation);
}

auto members(is<Companion> auto& part) {
  auto& [id, name, scientific_name, kind, events] = part;
  return std::tie(id, name, scientific_name, kind, events);
}

auto members(is<Source> auto& part) {
  auto& [key, author, year, title, in, locator] = part;
  return std::tie(key, author, year, title, in, locator);
}

auto members(is<Region> auto& part) {
  auto& [name, latitude, longitude] = part;
  return std::tie(name, latitude, longitude);
}

auto members(is<Caution> auto& part) {
  auto& [id, text, citation] = part;
  return std::tie(id, text, citation);
}

auto members(is<DayLimit> auto& part) {
  auto& [id, actions, measure, comparison, value, hours, effect, text, citation, own] = part;
  return std::tie(id, actions, measure, comparison, value, hours, effect, text, citation, own);
}

auto members(is<SiteRule> auto& part) {
  auto& [id, fact, actions, bars, text, citation, pests, plants, states, within_ft] = part;
  return std::tie(id, fact, actions, bars, text, citation, pests, plants, states, within_ft);
}

auto members(is<PestTable> auto& part) {
  auto& [pests, companions, sources, cautions, regions, day_limits, site_rules, bee_plants] = part;
  return std::tie(pests, companions, sources, cautions, regions, day_limits, site_rules, bee_plants);
}

/// Stands in the bytes as it stands in memory.
template <class T>
concept Plain = std::is_arithmetic_v<T> || std::is_enum_v<T> || std::same_as<T, Temperature> ||
    std::same_as<T, DegreeDays> || std::same_as<T, MonthDay>;

class Packer {
 public:
  template <Plain T>
  void put(const T& value) {
    std::array<char, sizeof value> bytes{};
    std::memcpy(bytes.data(), &value, sizeof value);
    bytes_.append(bytes.data(), bytes.size());
  }
  void put(const std::string& text) {
    put_size(text.size());
    bytes_ += text;
  }
  template <class T>
  void put(const std::vector<T>& items) {
    put_size(items.size());
    for (const T& item : items) put(item);
  }
  template <class T>
  void put(const std::optional<T>& value) {
    put(value.has_value());
    if (value) put(*value);
  }
  void put(const Cue& cue) {
    put(static_cast<std::uint8_t>(cue.index()));
    std::visit([&](const auto& kind) { put(kind); }, cue);
  }
  template <class Part>
  void put(const Part& part) {
    std::apply([&](const auto&... member) { (put(member), ...); }, members(part));
  }

  std::string take() { return std::move(bytes_); }

 private:
  void put_size(std::size_t size) { put(static_cast<std::uint32_t>(size)); }

  std::string bytes_;
};

class Unpacker {
 public:
  explicit Unpacker(std::string_view bytes) : bytes_{bytes} {}

  template <Plain T>
  void get(T& value) {
    std::memcpy(&value, next(sizeof value).data(), sizeof value);
  }
  void get(std::string& text) { text = next(size()); }
  template <class T>
  void get(std::vector<T>& items) {
    items.resize(size());
    for (T& item : items) get(item);
  }
  template <class T>
  void get(std::optional<T>& value) {
    bool is_there = false;
    get(is_there);
    if (is_there) get(value.emplace());
  }
  void get(Cue& cue) { get_alternative(cue, std::make_index_sequence<std::variant_size_v<Cue>>{}); }
  template <class Part>
  void get(Part& part) {
    std::apply([&](auto&... member) { (get(member), ...); }, members(part));
  }

 private:
  std::string_view next(std::size_t count) {
    if (count > bytes_.size()) throw std::out_of_range{"the packed table is cut off"};
    const std::string_view taken = bytes_.substr(0, count);
    bytes_.remove_prefix(count);
    return taken;
  }
  std::size_t size() {
    std::uint32_t size = 0;
    get(size);
    return size;
  }
  template <std::size_t... Index>
  void get_alternative(Cue& cue, std::index_sequence<Index...>) {
    std::uint8_t index = 0;
    get(index);
    ((index == Index ? get(cue.emplace<Index>()) : void()), ...);
  }

  std::string_view bytes_;
};

}  // namespace

std::string pack(const PestTable& table) {
  Packer packer;
  packer.put(table);
  return packer.take();
}

PestTable unpack(std::string_view bytes) {
  PestTable table;
  Unpacker{bytes}.get(table);
  return table;
}

}  // namespace budclock::rules

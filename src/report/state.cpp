#include <budclock/document/object_reader.hpp>
#include <budclock/report/digest.hpp>
#include <budclock/report/state.hpp>
#include <budclock/report/words.hpp>

#include "json_text.hpp"

#include <algorithm>
#include <cstdlib>
#include <fmt/format.h>
#include <tuple>
#include <utility>

namespace budclock::report {
namespace {

using Json = nlohmann::ordered_json;

constexpr const char* k_schema = "budclock/state/2";
constexpr std::string_view k_open = "..";  // an open end of an interval, after ISO 8601-2

std::string edge_text(const std::optional<Day>& day) { return day ? iso(*day) : std::string{k_open}; }

Json days_json(const std::map<std::string, PlannedDays>& all) {
  Json json = Json::object();
  for (const auto& [key, days] : all) json[key] = fmt::format("{}/{}", edge_text(days.from), edge_text(days.until));
  return json;
}

/// "2012-04-12/..": false when it is no such interval.
bool read_edge(std::string_view text, std::optional<Day>& day) {
  if (text == k_open) return true;
  day = parse_iso_day(text);
  return day.has_value();
}

std::map<std::string, PlannedDays> read_days(document::ObjectReader& site, std::string_view key) {
  std::map<std::string, PlannedDays> all;
  const document::JsonNode* node = site.member(key, document::JsonNode::Kind::object);
  if (node == nullptr) return all;
  for (const document::JsonNode::Member& member : node->members) {
    const std::string text = document::text_of(member.value, site.faults());
    const std::size_t slash = text.find('/');
    PlannedDays days;
    const bool sound = slash != std::string::npos && read_edge(std::string_view{text}.substr(0, slash), days.from) &&
                       read_edge(std::string_view{text}.substr(slash + 1), days.until);
    if (sound) {
      all[member.key] = days;
    } else if (!text.empty()) {
      site.faults().add(member.value, "\"" + text + "\" is no interval of days", "write it as 2012-04-12/2012-04-26");
    }
  }
  return all;
}

std::map<std::string, std::string> read_groups(document::ObjectReader& site) {
  std::map<std::string, std::string> all;
  const document::JsonNode* node = site.member("groups", document::JsonNode::Kind::object);
  if (node == nullptr) return all;
  for (const auto& member : node->members) all[member.key] = document::text_of(member.value, site.faults());
  return all;
}

std::set<std::string> read_problems(document::ObjectReader& reader) {
  const auto all = reader.texts("problems", document::Presence::optional);
  return {all.begin(), all.end()};
}

/// What the first line says.
struct Head {
  Day today{};
  std::set<std::string> problems;
};

Head read_head(const document::JsonNode& tree, document::Faults& faults) {
  document::ObjectReader reader{tree, faults};
  if (const std::string schema = reader.text("schema"); !schema.empty() && schema != k_schema) {
    faults.add(*tree.find("schema"), "\"" + schema + "\" is not known here", fmt::format("it should be {}", k_schema));
  }
  const auto today = parse_iso_day(reader.text("today"));
  if (!today) faults.add(tree, "there is no day", "\"today\" should be as 2012-04-12");
  return {today.value_or(Day{}), read_problems(reader)};
}

std::pair<std::string, SiteState> read_site(const document::JsonNode& tree, document::Faults& faults) {
  document::ObjectReader site{tree, faults};
  std::string name = site.text("name");
  SiteState state{read_days(site, "windows"), read_days(site, "stages"), read_groups(site), read_problems(site)};
  return {std::move(name), std::move(state)};
}

std::string pest_of(const std::string& key) { return key.substr(0, key.find('/')); }
std::string id_of(const std::string& key) { return key.substr(key.find('/') + 1); }

/// Collects the date that moved farthest for each pest of one site.
class Moves {
 public:
  Moves(std::string site, Day today) : site_{std::move(site)}, today_{today} {}

  void compare(const std::map<std::string, PlannedDays>& older, const std::map<std::string, PlannedDays>& now,
               Change::What what, std::optional<Day> PlannedDays::*edge) {
    for (const auto& [key, days] : now) {
      const auto before = older.find(key);
      if (before == older.end() || !(days.*edge) || !(before->second.*edge)) continue;
      add({site_, pest_of(key), id_of(key), what, *(before->second.*edge), *(days.*edge)});
    }
  }

  std::vector<Change> all() const {
    std::vector<Change> all;
    for (const auto& [pest, change] : farthest_) all.push_back(change);
    return all;
  }

 private:
  bool is_near(Day day) const { return day >= today_ && day <= today_ + k_digest_days; }

  void add(Change change) {
    if (change.days() == 0 || (!is_near(change.before) && !is_near(change.now))) return;
    const auto [known, is_new] = farthest_.try_emplace(change.pest, change);
    if (!is_new && std::abs(change.days()) > std::abs(known->second.days())) known->second = std::move(change);
  }

  std::string site_;
  Day today_;
  std::map<std::string, Change> farthest_;  ///< by pest
};

template <class T>
std::string name_of(const std::vector<T>& all, const std::string& id) {
  const auto found = std::find_if(all.begin(), all.end(), [&](const T& each) { return each.id == id; });
  return found == all.end() ? id : found->name;
}

}  // namespace

SiteState planned_days(const forecast::SiteForecast& site) {
  SiteState state;
  for (const forecast::PestForecast& pest : site.pests) {
    for (const auto& window : pest.windows) {
      if (!window.from && !window.until) continue;
      state.windows[pest.pest->id + "/" + window.window->id] = {window.from, window.until};
    }
    for (const auto& stage : pest.stages) {
      if (stage.summary.likely) state.stages[pest.pest->id + "/" + stage.stage->id] = {stage.summary.likely, {}};
    }
  }
  return state;
}

std::string state_head(Day today, const std::set<std::string>& problems) {
  return json_line({{"schema", k_schema}, {"today", iso(today)}, {"problems", problems}});
}

std::string state_line(const std::string& name, const SiteState& site) {
  return json_line({{"name", name},
                    {"windows", days_json(site.windows)},
                    {"stages", days_json(site.stages)},
                    {"groups", site.groups},
                    {"problems", site.problems}});
}

std::optional<WrittenState> WrittenState::read(std::string text, std::string_view file_name, Diagnostics& diagnostics) {
  WrittenState state;
  state.text_ = std::move(text);
  const std::string_view all{state.text_};
  const std::size_t before = diagnostics.size();
  if (all.empty()) diagnostics.push_back({Severity::error, {std::string{file_name}}, "the file is empty", "remove it"});
  std::size_t number = 1;
  for (std::size_t begin = 0; begin < all.size() && diagnostics.size() == before; ++number) {
    const Line line{begin, std::min(all.find('\n', begin), all.size()) - begin};
    begin += line.length + 1;
    const auto tree = document::parse_json(all.substr(line.begin, line.length), file_name, diagnostics);
    document::Faults faults{std::string{file_name}, diagnostics};
    if (tree && number == 1) {
      Head head = read_head(*tree, faults);
      state.today_ = head.today;
      state.problems_ = std::move(head.problems);
    } else if (tree) {
      state.sites_[read_site(*tree, faults).first] = line;
    }
    for (std::size_t i = before; i < diagnostics.size(); ++i) diagnostics[i].place.line += number - 1;
  }
  return diagnostics.size() == before ? std::optional{std::move(state)} : std::nullopt;
}

std::set<std::string> WrittenState::names() const {
  std::set<std::string> names;
  for (const auto& [name, line] : sites_) names.insert(name);
  return names;
}

std::optional<SiteState> WrittenState::site(const std::string& name) const {
  const auto found = sites_.find(name);
  if (found == sites_.end()) return std::nullopt;
  Diagnostics none;  // it was read once without any
  document::Faults faults{{}, none};
  const std::string_view line = std::string_view{text_}.substr(found->second.begin, found->second.length);
  return read_site(*document::parse_json(line, {}, none), faults).second;
}

std::string_view name(Change::What what) {
  switch (what) {
    case Change::What::opens:
      return "window opens";
    case Change::What::ends:
      return "window ends";
    case Change::What::stage:
      break;
  }
  return "stage";
}

std::vector<Change> changes(const std::string& site, const SiteState& older, const SiteState& now, Day today) {
  Moves moves{site, today};
  moves.compare(older.windows, now.windows, Change::What::opens, &PlannedDays::from);
  moves.compare(older.windows, now.windows, Change::What::ends, &PlannedDays::until);
  moves.compare(older.stages, now.stages, Change::What::stage, &PlannedDays::from);
  return moves.all();
}

std::string change_text(const Change& change, const rules::PestTable& table, Day older, Day today) {
  const rules::Pest* pest = table.find_pest(change.pest);
  std::string what = change.id;
  if (pest != nullptr) {
    what = change.what == Change::What::stage ? name_of(pest->stages, change.id) : name_of(pest->windows, change.id);
  }
  const char* edge = change.what == Change::What::opens ? "from " : change.what == Change::What::ends ? "until " : "";
  const int days = std::abs(change.days());
  return fmt::format("{} at {}: {} {} {} than {} ({}: {}{})", pest == nullptr ? change.pest : pest->name, change.site,
                     days, days == 1 ? "day" : "days", change.days() < 0 ? "earlier" : "later",
                     today - older == date::days{1} ? "yesterday" : "on " + iso(older), what, edge,
                     day_text(change.now, today));
}

}  // namespace budclock::report

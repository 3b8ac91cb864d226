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

void read_header(const document::JsonNode& tree, document::Faults& faults, State& state) {
  document::ObjectReader reader{tree, faults};
  if (const std::string schema = reader.text("schema"); !schema.empty() && schema != k_schema) {
    faults.add(*tree.find("schema"), "\"" + schema + "\" is not known here", fmt::format("it should be {}", k_schema));
  }
  const auto today = parse_iso_day(reader.text("today"));
  if (!today) faults.add(tree, "there is no day", "\"today\" should be as 2012-04-12");
  state.today = today.value_or(Day{});
  state.problems = read_problems(reader);
}

void read_site(const document::JsonNode& tree, document::Faults& faults, State& state) {
  document::ObjectReader site{tree, faults};
  SiteState& into = state.sites[site.text("name")];
  into.windows = read_days(site, "windows");
  into.stages = read_days(site, "stages");
  into.groups = read_groups(site);
  into.problems = read_problems(site);
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

  void append_to(std::vector<Change>& all) const {
    for (const auto& [pest, change] : farthest_) all.push_back(change);
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

std::string state_lines(const State& state) {
  std::string lines = json_line({{"schema", k_schema}, {"today", iso(state.today)}, {"problems", state.problems}});
  for (const auto& [name, site] : state.sites) {
    lines += json_line({{"name", name},
                        {"windows", days_json(site.windows)},
                        {"stages", days_json(site.stages)},
                        {"groups", site.groups},
                        {"problems", site.problems}});
  }
  return lines;
}

std::optional<State> read_state(std::string_view text, std::string_view file_name, Diagnostics& diagnostics) {
  State state;
  const std::size_t before = diagnostics.size();
  for (std::size_t line = 1; !text.empty() && diagnostics.size() == before; ++line) {
    const std::size_t end = std::min(text.find('\n'), text.size());
    const auto tree = document::parse_json(text.substr(0, end), file_name, diagnostics);
    text.remove_prefix(std::min(end + 1, text.size()));
    document::Faults faults{std::string{file_name}, diagnostics};
    if (tree && line == 1) read_header(*tree, faults, state);
    if (tree && line > 1) read_site(*tree, faults, state);
    for (std::size_t i = before; i < diagnostics.size(); ++i) diagnostics[i].place.line += line - 1;
  }
  if (state.today == Day{} && diagnostics.size() == before) {
    diagnostics.push_back({Severity::error, {std::string{file_name}}, "the file is empty", "remove it"});
  }
  return diagnostics.size() == before ? std::optional{std::move(state)} : std::nullopt;
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

std::vector<Change> changes(const State& older, const State& now) {
  std::vector<Change> all;
  for (const auto& [name, site] : now.sites) {
    const auto before = older.sites.find(name);
    if (before == older.sites.end()) continue;
    Moves moves{name, now.today};
    moves.compare(before->second.windows, site.windows, Change::What::opens, &PlannedDays::from);
    moves.compare(before->second.windows, site.windows, Change::What::ends, &PlannedDays::until);
    moves.compare(before->second.stages, site.stages, Change::What::stage, &PlannedDays::from);
    moves.append_to(all);
  }
  return all;
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

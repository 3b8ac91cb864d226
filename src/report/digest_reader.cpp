// From digest.json back to the digest, and several of them to one.
#include <budclock/document/object_reader.hpp>
#include <budclock/report/digest.hpp>
#include <budclock/rules/names.hpp>

#include <algorithm>
#include <fmt/format.h>
#include <iterator>
#include <map>
#include <tuple>
#include <utility>

namespace budclock::report {
namespace {

using document::Faults;
using document::JsonNode;
using document::NamedValue;
using document::ObjectReader;

constexpr std::array<NamedValue<Severity>, 2> k_severities{{{"fault", Severity::fault}, {"error", Severity::error}}};
constexpr int k_most_parts = 1'000'000;
constexpr int k_most_lines = 1'000'000'000;

const std::array<NamedValue<DigestGroup>, 4>& groups() {
  static const std::array<NamedValue<DigestGroup>, 4> k_groups{{{name(DigestGroup::last_days), DigestGroup::last_days},
                                                                {name(DigestGroup::act), DigestGroup::act},
                                                                {name(DigestGroup::leave), DigestGroup::leave},
                                                                {name(DigestGroup::look), DigestGroup::look}}};
  return k_groups;
}

const std::array<NamedValue<Due>, 2>& dues() {
  static const std::array<NamedValue<Due>, 2> k_dues{{{name(Due::now), Due::now}, {name(Due::soon), Due::soon}}};
  return k_dues;
}

const std::array<NamedValue<VisitKind>, 3>& visit_kinds() {
  static const std::array<NamedValue<VisitKind>, 3> k_kinds{
      {{name(VisitKind::follow_up), VisitKind::follow_up},
       {name(VisitKind::missed_follow_up), VisitKind::missed_follow_up},
       {name(VisitKind::missed_look), VisitKind::missed_look}}};
  return k_kinds;
}

const std::array<NamedValue<Change::What>, 3>& whats() {
  static const std::array<NamedValue<Change::What>, 3> k_whats{{{name(Change::What::opens), Change::What::opens},
                                                                {name(Change::What::ends), Change::What::ends},
                                                                {name(Change::What::stage), Change::What::stage}}};
  return k_whats;
}

class DigestReader {
 public:
  DigestReader(const rules::PestTable& table, Faults& faults) : table_{table}, faults_{faults} {}

  Digest read(const JsonNode& tree) {
    ObjectReader reader{tree, faults_};
    Digest digest;
    if (reader.text("schema") != "budclock/digest/1") {
      faults_.add(tree, "this is no digest", "name a folder that `budclock nightly` wrote");
      return digest;
    }
    digest.today = day(tree, "today").value_or(Day{});
    const auto number = [&](std::string_view key) {
      return static_cast<std::uint32_t>(
          reader.whole_number(key, 1, k_most_parts, document::Presence::optional).value_or(1));
    };
    digest.part = number("part");
    digest.parts = number("parts");
    digest.since = day_or_none(tree, "compared_with");
    digest.changed = reader.flag("changed");
    digest.problems = problems(reader);
    digest.told_before = reader.flag("told_before");
    for (const JsonNode& change : reader.items("changes")) digest.changes.push_back(read_change(change));
    for (const JsonNode& site : reader.items("sites")) digest.sites.push_back(read_site(site));
    return digest;
  }

 private:
  /// The text of a member that may be empty.
  std::string any_text(const JsonNode& node, std::string_view key) {
    ObjectReader reader{node, faults_};
    const JsonNode* member = reader.member(key, JsonNode::Kind::string, document::Presence::optional);
    if (member == nullptr) return {};
    if (printable(member->text) != member->text)
      faults_.add(*member, "a control character stands here", "run it again");
    return member->text;
  }

  std::optional<Day> day(const JsonNode& node, std::string_view key) {
    const auto found = parse_iso_day(ObjectReader{node, faults_}.text(key));
    if (!found) faults_.add(node, fmt::format("\"{}\" is no day", key), "write it as 2012-04-12");
    return found;
  }

  std::optional<Day> day_or_none(const JsonNode& node, std::string_view key) {
    const JsonNode* member = node.find(key);
    return member == nullptr || member->kind == JsonNode::Kind::null ? std::nullopt : day(node, key);
  }

  Place place(const JsonNode& node) {
    ObjectReader reader{node, faults_};
    const auto number = [&](std::string_view key) {
      return static_cast<std::size_t>(
          reader.whole_number(key, 0, k_most_lines, document::Presence::optional).value_or(0));
    };
    return {any_text(node, "file"), number("line"), number("column")};
  }

  Diagnostics problems(ObjectReader& reader) {
    Diagnostics all;
    for (const JsonNode& node : reader.items("problems")) {
      ObjectReader problem{node, faults_};
      all.push_back({problem.choice("severity", k_severities).value_or(Severity::error), place(node),
                     any_text(node, "message"), any_text(node, "remedy")});
    }
    return all;
  }

  Change read_change(const JsonNode& node) {
    ObjectReader reader{node, faults_};
    return {any_text(node, "site"),
            any_text(node, "pest"),
            any_text(node, "id"),
            reader.choice("what", whats()).value_or(Change::What::stage),
            day(node, "before").value_or(Day{}),
            day(node, "now").value_or(Day{})};
  }

  SiteDigest read_site(const JsonNode& node) {
    ObjectReader reader{node, faults_};
    SiteDigest site;
    site.site = any_text(node, "site");
    site.failed = reader.flag("failed");
    site.place = place(node);
    site.problems = problems(reader);
    site.told_before = reader.flag("told_before");
    for (const JsonNode& line : reader.items("lines")) {
      if (const auto read = read_line(line)) site.lines.push_back(*read);
    }
    for (const JsonNode& visit : reader.items("visits", document::Presence::optional)) {
      if (const auto read = read_visit(visit)) site.visits.push_back(*read);
    }
    return site;
  }

  std::optional<DigestVisit> read_visit(const JsonNode& node) {
    ObjectReader reader{node, faults_};
    DigestVisit visit;
    visit.pest = table_.find_pest(reader.text("pest"));
    if (visit.pest == nullptr) {
      faults_.add(node, "this pest is not known here", "give the --pests that this part was made with");
      return std::nullopt;
    }
    visit.kind = reader.choice("kind", visit_kinds()).value_or(VisitKind::follow_up);
    visit.due = reader.choice("due", dues()).value_or(Due::now);
    visit.name = any_text(node, "name");
    visit.done = day_or_none(node, "done");
    visit.from = day_or_none(node, "from");
    visit.until = day_or_none(node, "until");
    visit.text = any_text(node, "text");
    visit.is_new = reader.flag("new");
    return visit;
  }

  std::optional<DigestLine> read_line(const JsonNode& node) {
    ObjectReader reader{node, faults_};
    DigestLine line;
    line.pest = table_.find_pest(reader.text("pest"));
    const std::string id = reader.text("window");
    if (line.pest != nullptr) {
      const auto window = std::find_if(line.pest->windows.begin(), line.pest->windows.end(),
                                       [&](const rules::Window& each) { return each.id == id; });
      if (window != line.pest->windows.end()) line.window = &*window;
    }
    if (line.window == nullptr) {
      faults_.add(node, "this pest or window is not known here", "give the --pests that this part was made with");
      return std::nullopt;
    }
    line.group = reader.choice("group", groups()).value_or(DigestGroup::look);
    line.due = reader.choice("due", dues()).value_or(Due::now);
    line.from = day_or_none(node, "from");
    line.until = day_or_none(node, "until");
    line.confirmed = reader.flag("confirmed");
    line.is_new = reader.flag("new");
    line.text = any_text(node, "text");
    line.not_here = any_text(node, "not_at_site");
    line.actions = reader.choices("actions", rules::k_action_names);
    if (line.confirmed && (!may_be_done(line) || !line.until)) {
      faults_.add(node, "what is confirmed is an action that may be done until some day", "run it again");
    }
    return line;
  }

  const rules::PestTable& table_;
  Faults& faults_;
};

}  // namespace

std::optional<Digest> read_digest(std::string_view text, std::string_view file_name, const rules::PestTable& table,
                                  Diagnostics& diagnostics) {
  const std::size_t before = diagnostics.size();
  const auto tree = document::parse_json(text, file_name, diagnostics, document::k_most_written_json_bytes);
  if (!tree) return std::nullopt;
  Faults faults{std::string{file_name}, diagnostics};
  Digest digest = DigestReader{table, faults}.read(*tree);
  // A tree may come with faults of its syntax: a name that stands twice.
  return diagnostics.size() > before ? std::nullopt : std::optional{std::move(digest)};
}

Digest joined(std::vector<Digest> parts) {
  std::map<std::uint32_t, Digest> by_number;
  for (Digest& part : parts) by_number.try_emplace(part.part, std::move(part));
  Digest whole;
  whole.changed = false;
  const std::uint32_t wanted = by_number.empty() ? 0 : by_number.begin()->second.parts;
  for (std::uint32_t number = 1; number <= wanted; ++number) {
    if (by_number.contains(number)) continue;
    whole.problems.push_back(
        {Severity::error,
         {},
         fmt::format("part {} of {} is not here: its sites, their stops and bans are missing", number, wanted),
         "run it, or name its folder"});
  }
  bool all_told = whole.problems.empty();
  for (auto& [number, part] : by_number) {
    if (part.parts != wanted) {
      whole.problems.push_back({Severity::error,
                                {},
                                fmt::format("part {} of {} stands beside parts of {}", number, part.parts, wanted),
                                "join the parts of one run"});
      all_told = false;
    }
    whole.today = std::max(whole.today, part.today);
    if (part.since) whole.since = std::min(whole.since.value_or(*part.since), *part.since);
    whole.changed = whole.changed || part.changed;
    all_told = all_told && (part.problems.empty() || part.told_before);
    for (Diagnostic& problem : part.problems) {
      const bool known = std::find(whole.problems.begin(), whole.problems.end(), problem) != whole.problems.end();
      if (!known) whole.problems.push_back(std::move(problem));
    }
    std::move(part.changes.begin(), part.changes.end(), std::back_inserter(whole.changes));
    std::move(part.sites.begin(), part.sites.end(), std::back_inserter(whole.sites));
  }
  std::stable_sort(whole.sites.begin(), whole.sites.end(), [](const SiteDigest& a, const SiteDigest& b) {
    return std::tie(a.place.file, a.place.line, a.place.column) < std::tie(b.place.file, b.place.line, b.place.column);
  });
  std::stable_sort(whole.changes.begin(), whole.changes.end(),
                   [](const Change& a, const Change& b) { return a.site < b.site; });
  whole.told_before = all_told && !whole.problems.empty();
  return whole;
}

}  // namespace budclock::report

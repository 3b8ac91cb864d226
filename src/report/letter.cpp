#include <budclock/core/nearest.hpp>
#include <budclock/report/layout.hpp>
#include <budclock/report/letter.hpp>
#include <budclock/report/words.hpp>
#include <budclock/rules/names.hpp>

#include <algorithm>
#include <fmt/format.h>
#include <functional>
#include <optional>
#include <set>
#include <utility>

namespace budclock::report {
namespace {

using forecast::PestForecast;
using forecast::VisitState;
using forecast::WindowForecast;
using forecast::WindowState;
using rules::WindowKind;

/// A letter looks this far ahead, as the digest does.
constexpr date::days k_ahead{14};

struct PartRule {
  std::string_view name;
  std::vector<std::string_view> own;  ///< placeholders beside those of every part
};

const std::vector<PartRule>& part_rules() {
  static const std::vector<PartRule> k_rules{{"opening.txt", {}},
                                             {"pest.txt", {"pest", "plants"}},
                                             {"seen.txt", {"date", "seen"}},
                                             {"not_seen.txt", {"date", "not_seen"}},
                                             {"meaning.txt", {"effect"}},
                                             {"done.txt", {"date", "action"}},
                                             {"follow_up.txt", {"when", "success"}},
                                             {"missed.txt", {"date", "success"}},
                                             {"act.txt", {"action", "when", "need"}},
                                             {"look.txt", {"when", "find"}},
                                             {"act_if_found.txt", {"find", "action", "when"}},
                                             {"leave.txt", {"reason"}},
                                             {"nothing.txt", {}},
                                             {"others.txt", {"pests"}},
                                             {"safety.txt", {}},
                                             {"closing.txt", {}}};
  return k_rules;
}

/// Walks over a text: `literal` gets what stands there, `named` each placeholder and where it begins. Returns the place
/// of a brace without its fellow.
std::optional<std::size_t> walk(std::string_view text, const std::function<void(std::string_view)>& literal,
                                const std::function<void(std::string_view, std::size_t)>& named) {
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t brace = std::min(text.find_first_of("{}", at), text.size());
    literal(text.substr(at, brace - at));
    if (brace == text.size()) break;
    if (brace + 1 < text.size() && text[brace + 1] == text[brace]) {
      literal(text.substr(brace, 1));
      at = brace + 2;
      continue;
    }
    const std::size_t end = text[brace] == '{' ? text.find_first_of("{}\n", brace + 1) : std::string_view::npos;
    if (end == std::string_view::npos || text[end] != '}') return brace;
    named(text.substr(brace + 1, end - brace - 1), brace);
    at = end + 1;
  }
  return std::nullopt;
}

Place place_of(const LetterPart& part, std::size_t at) {
  const std::string_view before = part.text.substr(0, at);
  const auto line = static_cast<std::size_t>(std::count(before.begin(), before.end(), '\n'));
  return {std::string{part.file}, line + 1, at - (before.find_last_of('\n') + 1) + 1};  // npos + 1 is 0
}

void check(const LetterPart& part, Diagnostics& diagnostics) {
  const auto known = placeholders_of(part.name);
  if (known.empty()) {
    const auto nearest = nearest_name(part.name, letter_part_names());
    diagnostics.push_back({Severity::error,
                           {std::string{part.file}},
                           "no part of a letter has this name",
                           nearest ? fmt::format("did you mean {}?", *nearest)
                                   : fmt::format("the parts are {}", fmt::join(letter_part_names(), ", "))});
    return;
  }
  const auto lone = walk(
      part.text, [](std::string_view) {},
      [&](std::string_view name, std::size_t at) {
        if (std::find(known.begin(), known.end(), name) != known.end()) return;
        const auto nearest = nearest_name(name, known);
        diagnostics.push_back({Severity::error, place_of(part, at),
                               fmt::format("{{{}}} is no placeholder of {}", name, part.name),
                               nearest ? fmt::format("did you mean {{{}}}?", *nearest)
                                       : fmt::format("its placeholders are {{{}}}", fmt::join(known, "}, {"))});
      });
  if (!lone) return;
  diagnostics.push_back({Severity::error, place_of(part, *lone), "a brace stands alone",
                         "write a placeholder as {site}, and a brace that is meant as one twice"});
}

using Values = std::vector<std::pair<std::string_view, std::string>>;

/// What an action is to somebody who has never heard its name.
std::string plain(rules::Action action) {
  switch (action) {
    case rules::Action::look:
      return "a look";
    case rules::Action::prune:
      return "cutting out the twigs that are hurt";
    case rules::Action::pick:
      return "picking off the leaves that are hurt";
    case rules::Action::contact:
      return "a spray that works where it touches the pest";
    case rules::Action::soap:
      return "a soap spray made for plants";
    case rules::Action::oil:
      return "an oil spray made for plants";
    case rules::Action::soil_systemic:
      return "a treatment that the roots take up";
    case rules::Action::trunk_systemic:
      return "a treatment that the trunk takes up";
    case rules::Action::foliar_systemic:
      return "a spray that the leaves take up";
    case rules::Action::quarantine:
      return "keeping the plants where they are";
  }
  return {};
}

std::string plain(const WindowForecast& window) {
  std::vector<std::string> all;
  for (const rules::Action action : kinds_left(window)) all.push_back(plain(action));
  return list(all, "or");
}

class Letter {
 public:
  Letter(const forecast::SiteForecast& site, const LetterFacts& facts, const LetterTemplates& templates)
      : site_{site}, facts_{facts}, templates_{templates} {}

  Document make() {
    part("opening.txt", {});
    std::vector<std::string> others;
    for (const PestForecast& pest : site_.pests) {
      if (!section(pest)) others.push_back(pest.pest->name);
    }
    if (!others.empty()) part("others.txt", {{"pests", list(others)}});
    if (proposes_) part("safety.txt", {});
    part("closing.txt", {});
    return std::move(out_);
  }

 private:
  std::string date(Day day) const { return day_text(day, site_.today); }

  /// Lines of a paragraph are joined.
  void part(std::string_view name, Values values) {
    values.insert(values.end(), {{"client", facts_.client.empty() ? "client" : facts_.client},
                                 {"site", site_.site},
                                 {"today", iso(site_.today)}});
    std::string text;
    walk(
        templates_.at(std::string{name}), [&](std::string_view literal) { text += literal; },
        [&](std::string_view wanted, std::size_t) {
          const auto found =
              std::find_if(values.begin(), values.end(), [&](const auto& each) { return each.first == wanted; });
          text += printable(found->second);
        });
    write(text);
  }

  void write(const std::string& text) {
    std::string paragraph;
    const auto flush = [&] {
      if (!paragraph.empty()) out_.push_back({PartKind::paragraph, std::exchange(paragraph, {})});
    };
    for (std::size_t at = 0; at < text.size();) {
      const std::size_t end = std::min(text.find('\n', at), text.size());
      std::string line = text.substr(at, end - at);
      at = end + 1;
      if (line.ends_with('\r')) line.pop_back();
      line = printable(line);
      const auto marked = [&](std::string_view mark, PartKind kind) {
        if (!line.starts_with(mark)) return false;
        flush();
        out_.push_back({kind, line.substr(mark.size())});
        return true;
      };
      if (marked("# ", PartKind::title) || marked("## ", PartKind::section) || marked("- ", PartKind::item)) continue;
      if (line.find_first_not_of(" \t") == std::string::npos) {
        flush();
      } else {
        paragraph += (paragraph.empty() ? "" : " ") + line;
      }
    }
    flush();
  }

  bool is_of(const journal::Sighting& row, const rules::Pest& pest) const {
    return row.pest == pest.id && row.date <= site_.today && year_of(row.date) == year_of(site_.today);
  }

  /// What was found, or not, on the last day on which somebody looked.
  void seen(const rules::Pest& pest) {
    std::optional<Day> last;
    for (const journal::Sighting& row : facts_.sightings) {
      if (is_of(row, pest)) last = std::max(last.value_or(row.date), row.date);
    }
    if (!last) return;
    std::vector<std::string> found;
    std::vector<std::string> absent;
    const auto add = [](std::vector<std::string>& texts, const std::string& text) {
      if (std::find(texts.begin(), texts.end(), text) == texts.end()) texts.push_back(text);
    };
    for (const journal::Sighting& row : facts_.sightings) {
      if (!is_of(row, pest) || row.date != *last) continue;
      for (const std::string& id : row.saw) add(found, rules::find_observation(pest, id)->text);
      for (const std::string& id : row.not_saw) add(absent, rules::find_observation(pest, id)->text);
      if (row.not_found) add(absent, row.stage.empty() ? "the " + pest.name : stage_name(pest, row.stage));
      if (!row.not_found && !row.stage.empty()) add(found, stage_name(pest, row.stage));
    }
    if (!found.empty()) part("seen.txt", {{"date", date(*last)}, {"seen", list(found)}});
    if (!absent.empty()) part("not_seen.txt", {{"date", date(*last)}, {"not_seen", list(absent, "or")}});
  }

  static std::string stage_name(const rules::Pest& pest, const std::string& id) {
    const auto stage =
        std::find_if(pest.stages.begin(), pest.stages.end(), [&](const rules::Stage& each) { return each.id == id; });
    return stage == pest.stages.end() ? id : stage->name;
  }

  bool is_near(const WindowForecast& window) const {
    return is_open(window) || (window.state == WindowState::ahead && *window.from <= site_.today + k_ahead);
  }

  /// A look is taken while what it may find can still be acted on.
  std::optional<Day> last_day_to_look(const PestForecast& pest, const WindowForecast& look) const {
    std::optional<Day> last = last_day(look);
    for (const WindowForecast& window : pest.windows) {
      const bool may_follow =
          window.window->kind == WindowKind::act && !window.offered && is_near(window) && !is_held_back(site_, window);
      const std::optional<Day> end = may_follow ? last_day(window) : std::nullopt;
      if (end && *end >= *look.from) last = std::min(last.value_or(*end), *end);
    }
    return last;
  }

  std::string between(Day from, std::optional<Day> last) const {
    if (!last) return "from " + date(from) + " on";
    return *last == from ? "on " + date(from) : fmt::format("between {} and {}", date(from), date(*last));
  }

  std::string when(const WindowForecast& window, std::optional<Day> last) const {
    const std::string until = last ? date(*last) : "";
    if (*window.from > site_.today) {
      return between(*window.from, last);
    }
    return last ? "by " + until : "soon";
  }

  std::string when(const forecast::FollowUp& visit) const {
    if (visit.state == VisitState::not_known) return visit.next_season ? "next season" : "at our next look";
    if (visit.state == VisitState::due) return visit.until ? "by " + date(*visit.until) : "soon";
    return between(*visit.from, visit.until);
  }

  void visits(const PestForecast& pest) {
    const std::string success = success_text(*pest.pest);
    for (const forecast::FollowUp& visit : pest.follow_ups) {
      part("done.txt", {{"date", date(visit.done)}, {"action", plain(visit.action)}});
      if (visit.state == VisitState::settled) continue;
      const std::string hope = success.empty() ? "the plant is doing better." : success;
      if (visit.state == VisitState::missed) {
        part("missed.txt", {{"date", date(*visit.until)}, {"success", hope}});
      } else {
        part("follow_up.txt", {{"when", when(visit)}, {"success", hope}});
      }
    }
  }

  std::string find_first(const rules::Pest& pest, const rules::Window& window) const {
    std::vector<std::string> texts;
    for (const std::string& id : window.gate.seen) texts.push_back(rules::find_observation(pest, id)->text);
    return texts.empty() ? window.find : list(texts);
  }

  /// What is proposed; true where anything is.
  bool plans(const PestForecast& pest) {
    bool any = false;
    bool offered = false;
    for (const WindowForecast& window : pest.windows) {
      if (window.window->kind != WindowKind::act || !window.offered) continue;
      part("act.txt", {{"action", plain(window)},
                       {"when", when(window, last_day(window))},
                       {"need", std::string{rules::name(pest.pest->need)}}});
      offered = any = proposes_ = true;
    }
    for (const WindowForecast& window : pest.windows) {
      if (window.window->kind != WindowKind::look || !is_near(window) || offered) continue;
      part("look.txt", {{"when", when(window, last_day_to_look(pest, window))}, {"find", window.window->find}});
      any = true;
    }
    std::set<std::string> told;
    for (const WindowForecast& window : pest.windows) {
      if (window.window->kind != WindowKind::act || window.offered || !is_near(window)) continue;
      if (is_held_back(site_, window)) {
        const rules::Window* ban = window.barred_by;
        if (ban != nullptr && told.insert(ban->reason).second) part("leave.txt", {{"reason", ban->reason}});
        any = any || ban != nullptr;
        if (ban != nullptr || !forecast::is_barred_at_site(window)) continue;
        for (const rules::SiteRestriction& bar : window.bars) {
          const std::string reason = fmt::format("{}: {}.", bar.fact, bar.text);
          if (told.insert(reason).second) part("leave.txt", {{"reason", reason}});
        }
        any = true;
        continue;
      }
      if (offered) continue;
      part("act_if_found.txt", {{"find", find_first(*pest.pest, *window.window)},
                                {"action", plain(window)},
                                {"when", when(window, last_day(window))}});
      any = proposes_ = true;
    }
    return any;
  }

  bool concerns(const PestForecast& pest) const {
    const bool seen = std::any_of(facts_.sightings.begin(), facts_.sightings.end(),
                                  [&](const journal::Sighting& row) { return is_of(row, *pest.pest); });
    return seen || !pest.follow_ups.empty() ||
           std::any_of(pest.windows.begin(), pest.windows.end(), [&](const WindowForecast& window) {
             return window.window->kind != WindowKind::abstain && (is_near(window) || window.offered);
           });
  }

  bool section(const PestForecast& forecast) {
    if (!concerns(forecast)) return false;
    const rules::Pest& pest = *forecast.pest;
    std::vector<std::string> hosts;
    if (const auto known = facts_.hosts.find(pest.id); known != facts_.hosts.end()) hosts = known->second;
    if (hosts.empty()) {
      for (const rules::Host& host : pest.hosts) hosts.push_back(host.name);
    }
    part("pest.txt", {{"pest", pest.name}, {"plants", list(hosts)}});
    seen(pest);
    if (pest.effect) part("meaning.txt", {{"effect", pest.effect->text.text}});
    visits(forecast);
    if (!plans(forecast)) part("nothing.txt", {});
    return true;
  }

  const forecast::SiteForecast& site_;
  const LetterFacts& facts_;
  const LetterTemplates& templates_;
  Document out_;
  bool proposes_ = false;
};

}  // namespace

std::vector<std::string_view> letter_part_names() {
  std::vector<std::string_view> names;
  for (const PartRule& rule : part_rules()) names.push_back(rule.name);
  return names;
}

std::vector<std::string_view> placeholders_of(std::string_view part) {
  for (const PartRule& rule : part_rules()) {
    if (rule.name != part) continue;
    std::vector<std::string_view> all{"client", "site", "today"};
    all.insert(all.end(), rule.own.begin(), rule.own.end());
    return all;
  }
  return {};
}

LetterTemplates read_letter(std::span<const LetterPart> parts, Diagnostics& diagnostics) {
  LetterTemplates templates;
  for (const LetterPart& part : parts) {
    check(part, diagnostics);
    templates[std::string{part.name}] = part.text;
  }
  return templates;
}

Document letter(const forecast::SiteForecast& site, const LetterFacts& facts, const LetterTemplates& templates) {
  return Letter{site, facts, templates}.make();
}

}  // namespace budclock::report

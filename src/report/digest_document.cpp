#include <budclock/report/digest.hpp>
#include <budclock/report/words.hpp>
#include <budclock/rules/names.hpp>

#include <algorithm>
#include <fmt/format.h>
#include <utility>

namespace budclock::report {
namespace {

using rules::WindowKind;

/// More names or problems than this on the first screen would push the stops off it.
constexpr std::size_t k_first_screen = 10;

std::string counted(std::size_t count, const char* one, const char* many) {
  return fmt::format("{} {}", count, count == 1 ? one : many);
}

/// Texts, each with the sites that it is for.
using Sited = std::vector<std::pair<std::string, std::vector<std::string>>>;

/// A line and the site that it is for.
using SiteLine = std::pair<const SiteDigest*, const DigestLine*>;

class DigestDocument {
 public:
  DigestDocument(const Digest& digest, const rules::PestTable& table) : digest_{digest}, table_{table} {}

  Document make() {
    head();
    problems();
    what_changed();
    for (const Due due : {Due::now, Due::soon}) {
      add(PartKind::section, due == Due::now ? "NOW" : "IN THE NEXT 14 DAYS");
      const std::size_t before = out_.size();
      for (const auto group : {DigestGroup::last_days, DigestGroup::act, DigestGroup::leave, DigestGroup::look}) {
        show(group, due);
      }
      show_visits(due);
      if (out_.size() == before) add(PartKind::remark, "Nothing.");
    }
    add(PartKind::closing,
        "A digest tells where to look first. Each site's report has the sources, the cautions and what is known of the "
        "dates. Your local extension service, the label and your licence decide what is done.");
    return std::move(out_);
  }

 private:
  void add(PartKind kind, std::string text) { out_.push_back({kind, std::move(text)}); }

  void head() {
    std::size_t failed = 0;
    for (const SiteDigest& site : digest_.sites) failed += site.failed ? 1 : 0;
    add(PartKind::title,
        fmt::format("Pests on {}: {}{}", iso(digest_.today), counted(digest_.sites.size(), "site", "sites"),
                    failed > 0 ? fmt::format(", {} failed", failed) : ""));
    list_first("FIRST STOPS", first_stops());
    list_first("NOT TODAY", bans_today());
    if (const auto warnings = never(); !warnings.empty()) list_first("NEVER", warnings, warnings.size());
  }

  void list_first(const char* title, const std::vector<std::string>& entries, std::size_t most = k_first_screen) {
    add(PartKind::section, title);
    if (entries.empty()) add(PartKind::remark, "Nothing.");
    for (std::size_t i = 0; i < std::min(entries.size(), most); ++i) {
      add(PartKind::item, entries[i]);
    }
    if (entries.size() > most) {
      add(PartKind::item, fmt::format("and {} more, below", entries.size() - most));
    }
  }

  /// Sites where an action is confirmed, then those where something ends or may be done, each with its pests; without
  /// any, those to look at.
  std::vector<std::string> first_stops() const {
    std::vector<std::string> stops;
    std::vector<const SiteDigest*> sites;
    for (const auto& [site, line] : confirmed_lines()) {
      stops.push_back(fmt::format("by {}: {}: {}, CONFIRMED", day_text(*line->until, digest_.today),
                                  printable(site->site), line->pest->name));
    }
    const bool confirmed = !stops.empty();
    for (const auto group : {DigestGroup::last_days, DigestGroup::act, DigestGroup::look}) {
      if (group == DigestGroup::look && !stops.empty()) break;
      for (const auto& [site, line] : lines_of(group, Due::now)) {
        if (line->confirmed || std::find(sites.begin(), sites.end(), site) != sites.end()) continue;
        sites.push_back(site);
        const std::string until = line->until ? "by " + day_text(*line->until, digest_.today) + ": " : "";
        stops.push_back(fmt::format("{}{}: {}", until, printable(site->site), what_for(*site, group)));
      }
    }
    const bool others = !stops.empty();
    for (const SiteDigest& site : digest_.sites) {
      for (const DigestVisit& visit : site.visits) {
        if (visit.due != Due::now || visit.kind == VisitKind::missed_look) continue;
        const bool due = visit.kind == VisitKind::follow_up;
        const std::string by = due && visit.until ? fmt::format("by {}: ", day_text(*visit.until, digest_.today)) : "";
        stops.push_back(fmt::format("{}{}: {}: {} after {}", by, printable(site.site), name(visit.kind),
                                    visit.pest->name, visit.name));
      }
    }
    if (others && !confirmed) stops.insert(stops.begin(), "Nothing is confirmed: look first, everywhere.");
    return stops;
  }

  std::vector<SiteLine> confirmed_lines() const {
    std::vector<SiteLine> lines;
    for (const auto group : {DigestGroup::last_days, DigestGroup::act}) {
      for (const SiteLine& each : lines_of(group, Due::now)) {
        if (each.second->confirmed) lines.push_back(each);
      }
    }
    std::stable_sort(lines.begin(), lines.end(),
                     [](const SiteLine& a, const SiteLine& b) { return *a.second->until < *b.second->until; });
    return lines;
  }

  /// "act only if found: A and B; look: C": what is due now, without the looks that go on for weeks.
  static std::string what_for(const SiteDigest& site, DigestGroup group) {
    std::vector<std::string> acts;
    std::vector<std::string> looks;
    for (const DigestLine& line : site.lines) {
      const bool look = line.group == DigestGroup::last_days || line.group == group;
      if (line.due != Due::now || line.group == DigestGroup::leave || line.confirmed) continue;
      if (!may_be_done(line) && !look) continue;
      std::vector<std::string>& names = may_be_done(line) ? acts : looks;
      if (std::find(names.begin(), names.end(), line.pest->name) == names.end()) names.push_back(line.pest->name);
    }
    std::string text = acts.empty() ? "" : "act only if found: " + list(acts);
    if (!looks.empty()) text += (text.empty() ? "look: " : "; look: ") + list(looks);
    return text;
  }

  /// Each ban that stands, and each action that a site bars, and where.
  std::vector<std::string> bans_today() const {
    Sited bans;
    for (const SiteDigest& site : digest_.sites) {
      for (const DigestLine& line : site.lines) {
        const bool stands = line.group == DigestGroup::leave && line.due == Due::now;
        if (!stands || (line.window->kind != WindowKind::abstain && line.not_here.empty())) continue;
        const std::string why = line.not_here.empty() ? "" : fmt::format(" ({})", line.not_here);
        const std::string text =
            fmt::format("{} on {}: no {}{}", line.pest->name, plants_of(line), actions_text(*line.window), why);
        add_site(bans, text, site.site);
      }
    }
    return with_sites(bans);
  }

  /// What the pages of the pests say must never be done, where something may be done about them now.
  std::vector<std::string> never() const {
    Sited warnings;
    for (const SiteDigest& site : digest_.sites) {
      for (const DigestLine& line : site.lines) {
        if (!may_be_done(line) || line.due != Due::now) continue;
        for (const rules::Remark& remark : line.pest->do_not) add_site(warnings, remark.text, site.site);
      }
    }
    return with_sites(warnings);
  }

  static void add_site(Sited& all, const std::string& text, const std::string& site) {
    auto entry = std::find_if(all.begin(), all.end(), [&](const auto& each) { return each.first == text; });
    if (entry == all.end()) entry = all.insert(all.end(), {text, {}});
    const std::string name = printable(site);
    if (entry->second.empty() || entry->second.back() != name) entry->second.push_back(name);
  }

  static std::vector<std::string> with_sites(Sited& all) {
    std::vector<std::string> texts;
    for (auto& [text, sites] : all) {
      const std::size_t count = sites.size();
      sites.resize(std::min(count, k_first_screen));
      const std::string more = count > k_first_screen ? fmt::format(" and {} more", count - k_first_screen) : "";
      texts.push_back(fmt::format("{}: at {}{}", without_stop(text), fmt::join(sites, ", "), more));
    }
    return texts;
  }

  static std::string_view without_stop(std::string_view text) {
    if (text.ends_with('.')) text.remove_suffix(1);
    return text;
  }

  static std::string plants_of(const DigestLine& line) {
    if (!line.window->host.empty()) return line.window->host;
    std::vector<std::string> names;
    for (const rules::Host& host : line.pest->hosts) names.push_back(host.name);
    return list(names);
  }

  void problems() {
    std::vector<std::string> lines;
    if (!digest_.told_before) {
      for (const Diagnostic& problem : digest_.problems) lines.push_back(to_text(problem));
    }
    for (const bool failed : {true, false}) {
      for (const SiteDigest& site : digest_.sites) {
        if (site.failed == failed && !site.problems.empty() && !site.told_before) {
          lines.push_back(site_problem_text(site));
        }
      }
    }
    const std::string old = told_before();
    if (lines.empty() && old.empty()) return;
    add(PartKind::section, "PROBLEMS");
    for (std::size_t i = 0; i < std::min(lines.size(), k_first_screen); ++i) {
      add(PartKind::warning, lines[i]);
    }
    if (lines.size() > k_first_screen) {
      add(PartKind::warning, fmt::format("and {} more, in the digest for spreadsheets", lines.size() - k_first_screen));
    }
    if (!old.empty()) add(PartKind::item, old);
  }

  /// What is set aside as it was on the day compared with; empty when nothing is.
  std::string told_before() const {
    std::vector<std::string> where;
    for (const SiteDigest& site : digest_.sites) {
      if (site.told_before) where.push_back(printable(site.site));
    }
    if (digest_.told_before) where.push_back("what all sites share");
    if (where.empty()) return {};
    if (where.size() > k_first_screen) {
      const std::size_t more = where.size() - k_first_screen;
      where.resize(k_first_screen);
      where.push_back(fmt::format("{} more", more));
    }
    return fmt::format("Told before, and still set aside: {}. The sites' reports say what.", list(where));
  }

  void what_changed() {
    if (!digest_.since) return;
    const bool yesterday = digest_.today - *digest_.since == date::days{1};
    const std::string since = yesterday ? "YESTERDAY" : iso(*digest_.since);
    add(PartKind::section, "CHANGED SINCE " + since);
    std::size_t fresh = 0;
    for (const SiteDigest& site : digest_.sites) {
      for (const DigestLine& line : site.lines) fresh += line.is_new ? 1 : 0;
      for (const DigestVisit& visit : site.visits) fresh += visit.is_new ? 1 : 0;
    }
    if (fresh > 0) add(PartKind::item, counted(fresh, "line", "lines") + " below marked NEW.");
    if (digest_.changes.empty()) add(PartKind::item, "No date of the next 14 days has moved.");
    for (const Change& change : digest_.changes) {
      add(PartKind::item, printable(change_text(change, table_, *digest_.since, digest_.today)) + ".");
    }
  }

  /// By what ends first; of one site, together.
  std::vector<SiteLine> lines_of(DigestGroup group, Due due) const {
    std::vector<std::vector<SiteLine>> by_site;
    for (const SiteDigest& site : digest_.sites) {
      std::vector<SiteLine> lines;
      for (const DigestLine& line : site.lines) {
        if (line.group == group && line.due == due) lines.emplace_back(&site, &line);
      }
      if (!lines.empty()) by_site.push_back(std::move(lines));
    }
    const auto first_end = [](const std::vector<SiteLine>& lines) {
      const DigestLine& line = *lines.front().second;  // lines of a site come in this order already
      return std::pair{!line.confirmed, line.until.value_or(Day{date::year{k_last_year} / 12 / 31})};
    };
    std::stable_sort(by_site.begin(), by_site.end(),
                     [&](const auto& a, const auto& b) { return first_end(a) < first_end(b); });
    std::vector<SiteLine> all;
    for (const auto& lines : by_site) all.insert(all.end(), lines.begin(), lines.end());
    return all;
  }

  void show(DigestGroup group, Due due) {
    const SiteDigest* site = nullptr;
    for (const auto& [of, line] : lines_of(group, due)) {
      if (site == nullptr) add(PartKind::group, heading(group, due));
      if (of != site) add(PartKind::place, printable(of->site));
      site = of;
      add(PartKind::stop, line_text(*line));
    }
  }

  /// Those that were missed are told with the others, in their own words.
  void show_visits(Due due) {
    bool any = false;
    for (const SiteDigest& site : digest_.sites) {
      bool first = true;
      for (const DigestVisit& visit : site.visits) {
        if (visit.due != due) continue;
        if (!any) add(PartKind::group, due == Due::now ? "Follow-up visits, and what was missed" : "Follow-up, from");
        if (first) add(PartKind::place, printable(site.site));
        any = true;
        first = false;
        add(PartKind::stop, fmt::format("{}{}: {}", visit.is_new ? "NEW: " : "", visit.pest->name, visit.text));
      }
    }
  }

  static std::string heading(DigestGroup group, Due due) {
    switch (group) {
      case DigestGroup::last_days:
        return due == Due::now ? "Last days (a week or less)" : "Short: opens and ends within the 14 days";
      case DigestGroup::act:
        return due == Due::now ? "Act if confirmed" : "Act if confirmed, from";
      case DigestGroup::leave:
        return due == Due::now ? "Leave alone" : "Leave alone, from";
      case DigestGroup::look:
        return due == Due::now ? "Look" : "Look, from";
    }
    return {};
  }

  std::string dates(const DigestLine& line) const {
    const auto text = [&](const Day day) { return day_text(day, digest_.today); };
    const std::string until = line.until ? "until " + text(*line.until) : "";
    if (line.until && *line.until < digest_.today) return "too late since " + text(*line.until);
    if (line.due == Due::now || !line.from) return until;
    return "from " + text(*line.from) + (until.empty() ? "" : " " + until);
  }

  std::string line_text(const DigestLine& line) const {
    const rules::Window& window = *line.window;
    const std::string when = dates(line);
    const std::string host = window.host.empty() ? "" : " on " + window.host;
    std::string text = line.is_new ? "NEW: " : "";
    if (!when.empty()) text += when + ": ";
    text += line.pest->name + host + ": ";
    if (window.kind == WindowKind::abstain) {
      if (when.empty()) text += window.name + ": ";  // nothing but its name tells when it applies
      return text + fmt::format("no {}. {}", actions_text(window), line.text);
    }
    if (line.confirmed) text += "CONFIRMED: ";
    text += window.name;
    if (!line.text.empty()) text += ": " + line.text;
    if (!text.ends_with('.')) text += '.';
    if (window.kind == WindowKind::act && line.group != DigestGroup::leave) {
      text += fmt::format(" Kind of action: {}. Action is {} needed.", actions_text(line.actions),
                          rules::name(line.pest->need));
    }
    return text;
  }

  const Digest& digest_;
  const rules::PestTable& table_;
  Document out_;
};

}  // namespace

std::string site_problem_text(const SiteDigest& site) {
  // What keeps the site from being answered is told before what was only set aside.
  const auto worst = std::find_if(site.problems.begin(), site.problems.end(),
                                  [](const Diagnostic& problem) { return problem.severity == Severity::error; });
  const Diagnostic& first = worst == site.problems.end() ? site.problems.front() : *worst;
  const std::size_t others = site.problems.size() - 1;
  const std::string where = site.place.line == 0 ? "" : fmt::format(" ({}:{})", site.place.file, site.place.line);
  return fmt::format("{}: {}{}{}", printable(site.site + where),
                     site.failed ? "failed: " : "set aside: ", to_text(first),
                     others > 0 ? fmt::format(" (and {} more)", others) : "");
}

Document site_problems(const SiteDigest& site) {
  Document document;
  if (site.problems.empty()) return document;
  document.push_back({PartKind::section, "Problems with its data"});
  for (const Diagnostic& problem : site.problems) document.push_back({PartKind::warning, to_text(problem)});
  return document;
}

Document failed_site_document(const SiteDigest& site, Day today) {
  Document document{{PartKind::title, fmt::format("{}, {}", printable(site.site), iso(today))},
                    {PartKind::paragraph, "There is no forecast for this site today."}};
  const Document problems = site_problems(site);
  document.insert(document.end(), problems.begin(), problems.end());
  return document;
}

Document digest_document(const Digest& digest, const rules::PestTable& table) {
  return DigestDocument{digest, table}.make();
}

}  // namespace budclock::report

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

/// A line and the site that it is for.
using SiteLine = std::pair<const SiteDigest*, const DigestLine*>;

class DigestText {
 public:
  DigestText(const Digest& digest, const rules::PestTable& table, const TextStyle& style)
      : digest_{digest}, table_{table}, style_{style} {}

  std::string text() {
    head();
    problems();
    what_changed();
    for (const Due due : {Due::now, Due::soon}) {
      out_ += "\n" + bold(due == Due::now ? "NOW" : "IN THE NEXT 14 DAYS", style_) + "\n";
      const std::size_t before = out_.size();
      for (const auto group : {DigestGroup::last_days, DigestGroup::act, DigestGroup::leave, DigestGroup::look}) {
        show(group, due);
      }
      if (out_.size() == before) out_ += paragraph("Nothing.", 2, style_);
    }
    out_ += "\n" + paragraph(
                       "A digest tells where to look first. Each site's report has the sources, the cautions and what "
                       "is known of the dates. Your local extension service, the label and your licence decide what is "
                       "done.",
                       0, style_);
    return std::move(out_);
  }

 private:
  void head() {
    std::size_t failed = 0;
    for (const SiteDigest& site : digest_.sites) failed += site.failed ? 1 : 0;
    out_ += bold(fmt::format("Pests on {}: {}", iso(digest_.today), counted(digest_.sites.size(), "site", "sites")),
                 style_);
    out_ += failed > 0 ? fmt::format(", {} failed\n", failed) : "\n";
    out_ += paragraph("First stops: " + first_stops(), 2, style_);
    out_ += paragraph("Bans today: " + bans_today(), 2, style_);
  }

  /// Sites with something to do now, what ends first first.
  std::string first_stops() const {
    std::vector<std::string> names;
    for (const auto group : {DigestGroup::last_days, DigestGroup::act, DigestGroup::look}) {
      for (const auto& [site, line] : lines_of(group, Due::now)) {
        const std::string name = printable(site->site);
        if (std::find(names.begin(), names.end(), name) == names.end()) names.push_back(name);
      }
      // Looks that go on for weeks are no first stops while something ends or may be done.
      if (group == DigestGroup::act && !names.empty()) break;
    }
    return shortened(std::move(names)) + ".";
  }

  std::string bans_today() const {
    std::vector<std::string> names;
    for (const SiteDigest& site : digest_.sites) {
      std::vector<std::string> pests;
      for (const DigestLine& line : site.lines) {
        const bool stands = line.group == DigestGroup::leave && line.due == Due::now;
        const bool is_ban = stands && line.window->kind == WindowKind::abstain;
        if (is_ban && std::find(pests.begin(), pests.end(), line.pest->name) == pests.end()) {
          pests.push_back(line.pest->name);
        }
      }
      if (!pests.empty()) names.push_back(fmt::format("{} ({})", printable(site.site), fmt::join(pests, ", ")));
    }
    return shortened(std::move(names)) + ".";
  }

  static std::string shortened(std::vector<std::string> names) {
    if (names.empty()) return "none";
    const std::size_t all = names.size();
    names.resize(std::min(all, k_first_screen));
    const std::string text = fmt::format("{}", fmt::join(names, "; "));
    return all > k_first_screen ? fmt::format("{}; and {} more", text, all - k_first_screen) : text;
  }

  void problems() {
    std::vector<std::string> lines;
    for (const bool failed : {true, false}) {
      for (const SiteDigest& site : digest_.sites) {
        if (site.failed == failed && !site.problems.empty()) lines.push_back(site_problem(site));
      }
    }
    for (const Diagnostic& problem : digest_.problems) lines.push_back(to_text(problem));
    if (lines.empty()) return;
    out_ += "\n" + bold("PROBLEMS", style_) + "\n";
    for (std::size_t i = 0; i < std::min(lines.size(), k_first_screen); ++i) {
      out_ += paragraph(lines[i], 4, style_, "  ! ");
    }
    if (lines.size() > k_first_screen) {
      out_ += paragraph(fmt::format("and {} more, in the digest for spreadsheets", lines.size() - k_first_screen), 4,
                        style_, "  ! ");
    }
  }

  static std::string site_problem(const SiteDigest& site) {
    // What keeps the site from being answered is told before what was only set aside.
    const auto worst = std::find_if(site.problems.begin(), site.problems.end(),
                                    [](const Diagnostic& problem) { return problem.severity == Severity::error; });
    const Diagnostic& first = worst == site.problems.end() ? site.problems.front() : *worst;
    const std::size_t others = site.problems.size() - 1;
    return fmt::format("{}: {}{}{}", printable(site.site), site.failed ? "failed: " : "set aside: ", to_text(first),
                       others > 0 ? fmt::format(" (and {} more)", others) : "");
  }

  void what_changed() {
    if (!digest_.since) return;
    const bool yesterday = digest_.today - *digest_.since == date::days{1};
    const std::string since = yesterday ? "YESTERDAY" : iso(*digest_.since);
    out_ += "\n" + bold("CHANGED SINCE " + since, style_) + "\n";
    if (digest_.changes.empty()) out_ += paragraph("Nothing of the next 14 days.", 2, style_);
    for (const Change& change : digest_.changes) {
      out_ += paragraph(printable(change_text(change, table_, *digest_.since, digest_.today)) + ".", 4, style_, "  - ");
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
      if (site == nullptr) out_ += bold(heading(group, due), style_) + "\n";
      if (of != site) out_ += paragraph(printable(of->site), 2, style_);
      site = of;
      out_ += paragraph(line_text(*line), 6, style_, "    - ");
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
    std::string text = when.empty() ? "" : when + ": ";
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
      text +=
          fmt::format(" Kind of action: {}. Action is {} needed.", actions_text(window), rules::name(line.pest->need));
    }
    return text;
  }

  const Digest& digest_;
  const rules::PestTable& table_;
  const TextStyle& style_;
  std::string out_;
};

}  // namespace

std::string digest_text(const Digest& digest, const rules::PestTable& table, const TextStyle& style) {
  return DigestText{digest, table, style}.text();
}

}  // namespace budclock::report

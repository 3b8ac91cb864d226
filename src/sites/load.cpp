#include <budclock/core/nearest.hpp>
#include <budclock/sites/load.hpp>

#include "safety_reader.hpp"
#include "site_reader.hpp"

#include <algorithm>
#include <charconv>
#include <fmt/format.h>

namespace budclock::sites {
namespace {

using document::JsonNode;
using document::NamedValue;
using document::Presence;

constexpr std::array<NamedValue<int>, 1> k_schemas{{{"budclock/sites/1", 1}}};

bool is_json(std::string_view text) {
  constexpr std::string_view k_byte_order_mark = "\xEF\xBB\xBF";
  if (text.starts_with(k_byte_order_mark)) text.remove_prefix(k_byte_order_mark.size());
  const std::size_t first = text.find_first_not_of(" \t\r\n");
  return first != std::string_view::npos && (text[first] == '{' || text[first] == '[');
}

/// The index of the site that a message such as "... stands twice at /sites/3/name" speaks of; nothing when it is not
/// about one site.
std::optional<std::size_t> site_in_message(const std::string& message) {
  constexpr std::string_view k_before = " at /sites/";
  const std::size_t at = message.rfind(k_before);
  if (at == std::string::npos) return std::nullopt;
  std::size_t index = 0;
  const char* const begin = message.data() + at + k_before.size();
  const auto [end, error] = std::from_chars(begin, message.data() + message.size(), index);
  return error == std::errc{} && end != begin ? std::optional{index} : std::nullopt;
}

SiteList load_json(std::string_view text, std::string_view file_name, const rules::PestTable& pests,
                   Diagnostics& diagnostics, std::optional<Day> last) {
  const std::size_t before = diagnostics.size();
  const auto root = document::parse_json(text, file_name, diagnostics);
  if (!root) return {};
  std::vector<std::size_t> faulty;
  for (std::size_t i = before; i < diagnostics.size(); ++i) {
    if (const auto index = site_in_message(diagnostics[i].message)) {
      faulty.push_back(*index);
      diagnostics[i].severity = Severity::fault;
    }
  }

  document::Faults faults{std::string{file_name}, diagnostics};
  document::ObjectReader reader{*root, faults};
  reader.choice("schema", k_schemas);
  reader.text("firm", Presence::optional);
  reader.text("note", Presence::optional);
  const auto limits = read_limits(reader, pests);
  const auto& nodes = reader.items("sites");
  reader.finish();
  SiteReader sites{file_name, pests, diagnostics, last, limits};
  for (std::size_t i = 0; i < nodes.size(); ++i) {
    sites.read(nodes[i], std::find(faulty.begin(), faulty.end(), i) != faulty.end());
  }
  const auto begin = diagnostics.begin() + static_cast<std::ptrdiff_t>(before);
  std::stable_sort(begin, diagnostics.end(), [](const Diagnostic& a, const Diagnostic& b) {
    return std::pair{a.place.line, a.place.column} < std::pair{b.place.line, b.place.column};
  });
  const bool unusable =
      std::any_of(begin, diagnostics.end(), [](const Diagnostic& found) { return found.severity == Severity::error; });
  return unusable ? SiteList{} : sites.take();
}

SiteList load_csv(std::string_view text, std::string_view file_name, const rules::PestTable& pests,
                  Diagnostics& diagnostics, std::optional<Day> last) {
  SiteReader sites{file_name, pests, diagnostics, last, {}};
  SiteRows rows = read_site_rows(text, file_name, diagnostics);
  for (const JsonNode& tree : rows.trees) sites.read(tree, false);
  SiteList list = sites.take();
  for (const std::size_t line : rows.unread) {
    list.set_aside.push_back({fmt::format("line {}", line), {std::string{file_name}, line, 1}});
  }
  return list;
}

}  // namespace

SiteList load_sites(std::string_view text, std::string_view file_name, const rules::PestTable& pests,
                    Diagnostics& diagnostics, std::optional<Day> last) {
  return is_json(text) ? load_json(text, file_name, pests, diagnostics, last)
                       : load_csv(text, file_name, pests, diagnostics, last);
}

const Site* find_site(const std::vector<Site>& sites, std::string_view name) {
  const auto lower = [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; };
  const auto same = [&](const Site& site) {
    return std::equal(site.name.begin(), site.name.end(), name.begin(), name.end(),
                      [&](char a, char b) { return lower(a) == lower(b); });
  };
  const auto found = std::find_if(sites.begin(), sites.end(), same);
  return found == sites.end() ? nullptr : &*found;
}

std::string suggest_site(const std::vector<Site>& sites, std::string_view name) {
  std::vector<std::string_view> names;
  for (const Site& site : sites) names.push_back(site.name);
  if (const auto near = nearest_name(name, names)) return fmt::format("did you mean \"{}\"?", *near);
  constexpr std::size_t k_most_named = 10;
  const bool more = names.size() > k_most_named;
  if (more) names.resize(k_most_named);
  return names.empty() ? "the sites file has no site"
                       : fmt::format("the sites are: {}{}", fmt::join(names, ", "), more ? ", ..." : "");
}

}  // namespace budclock::sites

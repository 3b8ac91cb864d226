#include <budclock/report/digest.hpp>
#include <budclock/report/page.hpp>

#include "commands.hpp"
#include "messages.hpp"
#include "pest_files.hpp"
#include "practice_files.hpp"

#include <algorithm>
#include <fmt/format.h>
#include <ostream>
#include <utility>

namespace budclock::cli {
namespace {

std::string written(const report::Digest& digest, const rules::PestTable& table, const DigestOptions& options) {
  switch (options.format) {
    case Format::csv:
      return report::digest_csv(digest, options.csv);
    case Format::json:
      return report::digest_json(digest, table);
    case Format::page:
      return report::digest_page(digest, report::digest_document(digest, table));
    case Format::markdown:
      return report::as_markdown(report::digest_document(digest, table));
    default:
      break;
  }
  return report::as_text(report::digest_document(digest, table), report::k_digest_style);
}

std::string site_names(const report::Digest& digest) {
  constexpr std::size_t k_most = 10;
  std::vector<std::string> names;
  for (const report::SiteDigest& site : digest.sites) names.push_back(site.site);
  const std::size_t all = names.size();
  names.resize(std::min(all, k_most));
  return fmt::format("{}{}", fmt::join(names, ", "), all > k_most ? fmt::format(" and {} more", all - k_most) : "");
}

}  // namespace

ExitStatus run_digest(const DigestOptions& options, Environment& environment) {
  Diagnostics of_pests;
  const auto loaded = load_pests(options.pest_folder, environment, of_pests);
  if (!loaded) return ExitStatus::no_answer;

  Diagnostics problems;
  std::vector<report::Digest> parts;
  std::vector<std::string> files;
  for (const std::string& folder : options.folders) {
    const std::string path = folder + (folder.ends_with('/') ? "" : "/") + "digest.json";
    const auto text = read_whole_file(path, problems);
    auto part = text ? report::read_digest(*text, path, *loaded, problems) : std::nullopt;
    if (!part) continue;
    parts.push_back(std::move(*part));
    files.push_back(path);
  }
  if (parts.empty()) {
    print(problems, environment);
    return ExitStatus::no_answer;
  }
  const Day today = std::max_element(parts.begin(), parts.end(), [](const auto& a, const auto& b) {
                      return a.today < b.today;
                    })->today;
  for (std::size_t i = 0; i < parts.size(); ++i) {
    if (parts[i].today == today) continue;
    problems.push_back({Severity::error,
                        {files[i]},
                        fmt::format("is of {}, not of {}; its sites are left out: {}", iso(parts[i].today), iso(today),
                                    site_names(parts[i])),
                        "run that part again"});
  }
  std::erase_if(parts, [&](const report::Digest& part) { return part.today != today; });
  if (const Day now = options.today.value_or(environment.today); today != now) {
    problems.push_back({Severity::error,
                        {},
                        fmt::format("the parts are of {}, not of {}", iso(today), iso(now)),
                        "run them again, or say --today"});
  }
  report::Digest whole = report::joined(std::move(parts));
  print(problems, environment);
  whole.told_before = whole.told_before && problems.empty();
  whole.problems.insert(whole.problems.begin(), problems.begin(), problems.end());
  environment.out << written(whole, *loaded, options);
  return whole.has_new_problems() ? ExitStatus::set_aside : ExitStatus::answered;
}

}  // namespace budclock::cli

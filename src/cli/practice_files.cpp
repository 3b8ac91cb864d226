#include "practice_files.hpp"

#include <budclock/files/open_file.hpp>

#include "file_patterns.hpp"

#include <cerrno>
#include <filesystem>
#include <fmt/format.h>

namespace budclock::cli {
namespace {

Diagnostic unreadable(const std::string& path, int error) {
  return {Severity::error, {path}, fmt::format("cannot be read ({})", files::reason(error)), "check the path"};
}

bool is_there(const std::string& path) {
  std::error_code ignored;
  return std::filesystem::exists(path, ignored);
}

/// A log that nobody named may be missing, but not unreadable.
std::optional<std::string> read_log_file(const LogPath& log, Diagnostics& diagnostics) {
  std::string text;
  const int error = files::read_file(log.path, text);
  if (error == 0) return text;
  if (error != ENOENT || log.named) diagnostics.push_back(unreadable(log.path, error));
  return std::nullopt;
}

/// A file of that name in the folder of the sites file.
std::string beside(const std::string& sites_file, const std::string& name) {
  const std::string folder = folder_of(sites_file);
  return (folder == "." ? "" : folder.ends_with('/') ? folder : folder + "/") + name;
}

}  // namespace

std::optional<std::string> read_whole_file(const std::string& path, Diagnostics& diagnostics) {
  std::string text;
  const int error = files::read_file(path, text);
  if (error == 0) return text;
  diagnostics.push_back(unreadable(path, error));
  return std::nullopt;
}

std::string find_sites_file(const PracticeOptions& options, const Environment& environment) {
  if (!options.sites_file.empty()) return options.sites_file;
  if (!environment.sites_file.empty()) return environment.sites_file;
  for (const char* usual : {"budclock-sites.json", "budclock-sites.csv"}) {
    if (is_there(usual)) return usual;
  }
  return {};
}

std::vector<std::string> SitesFile::names() const {
  std::vector<std::string> names;
  for (const sites::Site& site : list.sites) names.push_back(site.name);
  for (const sites::SiteSetAside& site : list.set_aside) {
    if (!site.name.empty()) names.push_back(site.name);
  }
  return names;
}

std::optional<SitesFile> read_sites_file(const PracticeOptions& options, const Environment& environment,
                                         const rules::PestTable& pests, Diagnostics& diagnostics) {
  SitesFile file{find_sites_file(options, environment), {}};
  if (file.path.empty()) {
    diagnostics.push_back({Severity::error,
                           {},
                           "there is no sites file",
                           "name it with --sites or BUDCLOCK_SITES, or call it budclock-sites.json"});
    return std::nullopt;
  }
  const auto text = read_whole_file(file.path, diagnostics);
  if (!text) return std::nullopt;
  file.list = sites::load_sites(*text, file.path, pests, diagnostics, environment.today);
  return file;
}

const sites::Site* find_site(const SitesFile& file, const std::string& name, std::string& problem) {
  if (const sites::Site* site = sites::find_site(file.list.sites, name)) return site;
  for (const sites::SiteSetAside& site : file.list.set_aside) {
    if (site.name != name) continue;
    problem = fmt::format("the site \"{}\" is set aside: mend what is wrong on line {} of {}", name, site.place.line,
                          file.path);
    return nullptr;
  }
  problem = fmt::format("no site is called \"{}\": {}", name, sites::suggest_site(file.list.sites, name));
  return nullptr;
}

LogPath find_log(const PracticeOptions& options, const Environment& environment, const std::string& sites_file) {
  if (!options.log_file.empty()) return {options.log_file, true};
  if (!environment.log_file.empty()) return {environment.log_file, true};
  return {beside(sites_file, "scouting-log.csv"), false};
}

LogPath find_actions(const PracticeOptions& options, const Environment& environment, const std::string& sites_file) {
  if (!options.actions_file.empty()) return {options.actions_file, true};
  if (!environment.actions_file.empty()) return {environment.actions_file, true};
  return {beside(sites_file, "action-log.csv"), false};
}

std::vector<journal::Sighting> read_scouting_log(const LogPath& log, const journal::LogContext& context,
                                                 Diagnostics& diagnostics) {
  const auto text = read_log_file(log, diagnostics);
  return text ? journal::read_log(*text, log.path, context, diagnostics) : std::vector<journal::Sighting>{};
}

std::vector<journal::ActionTaken> read_action_log(const LogPath& log, const journal::LogContext& context,
                                                  Diagnostics& diagnostics) {
  const auto text = read_log_file(log, diagnostics);
  return text ? journal::read_actions(*text, log.path, context, diagnostics) : std::vector<journal::ActionTaken>{};
}

}  // namespace budclock::cli

// The files that carry a practitioner's own knowledge: sites, the scouting log and the action log.
#pragma once

#include <budclock/journal/action_log.hpp>
#include <budclock/journal/log.hpp>
#include <budclock/sites/load.hpp>

#include "environment.hpp"
#include "options.hpp"

#include <optional>
#include <string>
#include <vector>

namespace budclock::cli {

/// The whole file; nothing, after an error diagnostic, when it cannot be read.
std::optional<std::string> read_whole_file(const std::string& path, Diagnostics& diagnostics);

/// --sites, else BUDCLOCK_SITES, else budclock-sites.json or budclock-sites.csv in the working folder; empty when
/// there is none.
std::string find_sites_file(const PracticeOptions& options, const Environment& environment);

struct SitesFile {
  std::string path;
  sites::SiteList list;

  /// Those of all sites, those set aside too.
  std::vector<std::string> names() const;
};

/// Reads the sites file, in which nothing can have been noted after the day of the environment; nothing, after an error
/// diagnostic, when there is none or it cannot be read.
std::optional<SitesFile> read_sites_file(const PracticeOptions& options, const Environment& environment,
                                         const rules::PestTable& pests, Diagnostics& diagnostics);

/// The site of that name; null, with what is wrong in `problem`, when there is none that can be used.
const sites::Site* find_site(const SitesFile& file, const std::string& name, std::string& problem);

struct LogPath {
  std::string path;
  bool named = false;  ///< on the command line or by the environment: then it is missed when it is not there
};

/// --log, else BUDCLOCK_LOG, else scouting-log.csv beside the sites file (in the working folder where there is none).
LogPath find_log(const PracticeOptions& options, const Environment& environment, const std::string& sites_file);

/// --actions, else BUDCLOCK_ACTIONS, else action-log.csv beside the sites file.
LogPath find_actions(const PracticeOptions& options, const Environment& environment, const std::string& sites_file);

/// The sound rows of the log; none when a log that nobody named is not there.
std::vector<journal::Sighting> read_scouting_log(const LogPath& log, const journal::LogContext& context,
                                                 Diagnostics& diagnostics);

/// The same of an action log.
std::vector<journal::ActionTaken> read_action_log(const LogPath& log, const journal::LogContext& context,
                                                  Diagnostics& diagnostics);

}  // namespace budclock::cli

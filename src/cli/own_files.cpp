#include "own_files.hpp"

#include "practice_files.hpp"

#include <algorithm>
#include <filesystem>
#include <fmt/format.h>
#include <system_error>
#include <utility>

namespace budclock::cli {

std::vector<OwnFile> read_own_files(const std::string& folder, const OwnFiles& wanted, Diagnostics& diagnostics) {
  std::vector<std::string> paths;
  std::error_code failure;
  for (std::filesystem::directory_iterator entry{folder, failure}, end; !failure && entry != end;
       entry.increment(failure)) {
    if (entry->path().extension() == wanted.ending) paths.push_back(entry->path().string());
  }
  std::sort(paths.begin(), paths.end());
  if (failure) {
    diagnostics.push_back({Severity::error,
                           {folder},
                           fmt::format("cannot be read as a folder ({})", failure.message()),
                           fmt::format("name the folder that holds your {}", wanted.kind)});
  } else if (paths.empty()) {
    diagnostics.push_back({Severity::error, {folder}, wanted.none, wanted.remedy});
  }
  std::vector<OwnFile> files;
  for (const std::string& path : paths) {
    if (auto text = read_whole_file(path, diagnostics)) files.push_back({path, std::move(*text)});
  }
  return files;
}

}  // namespace budclock::cli

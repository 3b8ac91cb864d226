// Files of the user's own in a folder, which are added to the shipped ones or stand in their place.
#pragma once

#include <budclock/core/diagnostic.hpp>

#include <string>
#include <vector>

namespace budclock::cli {

struct OwnFile {
  std::string path;
  std::string text;
};

/// Which files of a folder are meant, and what to say of a folder without them.
struct OwnFiles {
  std::string ending;  ///< ".json"
  std::string kind;    ///< "pest files"
  std::string none;    ///< "holds no pest file"
  std::string remedy;  ///< for that
};

/// Reads those files, in the order of their names. A folder that cannot be read or holds none, and each file that
/// cannot be read, is an error among the diagnostics.
std::vector<OwnFile> read_own_files(const std::string& folder, const OwnFiles& wanted, Diagnostics& diagnostics);

}  // namespace budclock::cli

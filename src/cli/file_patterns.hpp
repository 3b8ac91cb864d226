// From the file names and patterns of a sites file to paths.
#pragma once

#include <string>
#include <vector>

namespace budclock::cli {

/// The files that `pattern` names: * stands for any letters and ? for one, within one folder's name. A relative
/// pattern starts from `folder`, whose name is taken as it is. In order of their names; a name without * and ? comes
/// back whether there is such a file or not, a pattern that fits no file gives none. Throws std::system_error where a
/// folder cannot be read: a file that is missed then would be missing in silence.
std::vector<std::string> expand_pattern(const std::string& folder, const std::string& pattern);

/// The folder that a file stands in; "." for one in the working folder.
std::string folder_of(const std::string& path);

}  // namespace budclock::cli

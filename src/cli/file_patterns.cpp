#include "file_patterns.hpp"

#include <cerrno>
#include <glob.h>
#include <new>
#include <system_error>

namespace budclock::cli {
namespace {

/// Marks the letters that `glob` would read as more than letters.
std::string taken_literally(const std::string& text, const char* special) {
  std::string literal;
  for (const char c : text) {
    if (std::string_view{special}.find(c) != std::string_view::npos) literal += '\\';
    literal += c;
  }
  return literal;
}

}  // namespace

std::string folder_of(const std::string& path) {
  const std::size_t slash = path.find_last_of('/');
  return slash == std::string::npos ? "." : slash == 0 ? "/" : path.substr(0, slash);
}

std::vector<std::string> expand_pattern(const std::string& folder, const std::string& pattern) {
  const bool stands_alone = pattern.starts_with('/') || folder == ".";
  const std::string before = stands_alone ? "" : folder.ends_with('/') ? folder : folder + "/";
  if (pattern.find_first_of("*?") == std::string::npos) return {before + pattern};
  const std::string searched = taken_literally(before, "*?[]\\") + taken_literally(pattern, "[]\\");
  std::vector<std::string> files;
  glob_t found{};
  // The program sets no locale, so the order is that of the bytes.
  const int outcome = ::glob(searched.c_str(), GLOB_ERR, nullptr, &found);
  const int error = errno;
  if (outcome == 0) files.assign(found.gl_pathv, found.gl_pathv + found.gl_pathc);
  ::globfree(&found);
  if (outcome == GLOB_NOSPACE) throw std::bad_alloc{};
  if (outcome == GLOB_ABORTED && error != ENOENT && error != ENOTDIR) {
    throw std::system_error{error, std::generic_category()};
  }
  return files;
}

}  // namespace budclock::cli

#include <budclock/files/file_set.hpp>

#include "incoming_file.hpp"

#include <algorithm>
#include <cerrno>
#include <dirent.h>
#include <fcntl.h>
#include <filesystem>
#include <fmt/format.h>
#include <memory>
#include <new>
#include <set>
#include <sys/stat.h>
#include <system_error>
#include <unistd.h>
#include <utility>

namespace budclock::files {
namespace {

constexpr const char* k_lock_name = ".budclock-lock";

Diagnostic failed(const std::string& path, std::string_view what, int error) {
  const bool full = error == ENOSPC || error == EDQUOT || error == EFBIG;
  return {Severity::error,
          {path, 0, 0},
          fmt::format("{}: {}", what, reason(error)),
          full ? "make room, then run it again" : "check the folder and its rights"};
}

int rename_to(const std::string& from, const std::string& to) {
  return ::rename(from.c_str(), to.c_str()) == 0 ? 0 : errno;
}

std::string manifest_text(std::span<const Staged> files) {
  std::vector<const Staged*> listed;
  for (const Staged& file : files) {
    if (file.listed) listed.push_back(&file);
  }
  std::sort(listed.begin(), listed.end(), [](const Staged* a, const Staged* b) { return a->name < b->name; });
  std::string text;
  for (const Staged* file : listed) text += fmt::format("{} {} {}\n", file->checksum, file->size, file->name);
  return text;
}

/// Gives files their names and makes that last; nothing, or what failed.
std::optional<Diagnostic> rename_all(const std::vector<std::pair<std::string, std::string>>& moves,
                                     const std::vector<std::string>& folders) {
  for (const auto& [from, to] : moves) {
    if (const int error = rename_to(from, to)) return failed(to, "cannot be replaced", error);
  }
  for (const std::string& folder : folders) {
    if (const int error = sync_folder(folder)) return failed(folder, "cannot be written", error);
  }
  return std::nullopt;
}

/// Removes the files, but for folders by their names; nothing, or which one resists.
std::optional<Diagnostic> remove_all(const std::vector<std::string>& paths) {
  for (const std::string& path : paths) {
    if (::unlink(path.c_str()) == 0 || errno == ENOENT || errno == EISDIR) continue;
    return failed(path, "cannot be removed", errno);
  }
  return std::nullopt;
}

struct CloseFolder {
  void operator()(DIR* folder) const { ::closedir(folder); }
};

bool is_number(std::string_view text) {
  return !text.empty() && text.find_first_not_of("0123456789") == std::string_view::npos;
}

/// The names of a manifest. A line that is none of ours gives none.
std::vector<std::string> names_in(std::string_view manifest) {
  std::vector<std::string> names;
  while (!manifest.empty()) {
    const std::size_t end = manifest.find('\n');
    const std::string_view line = manifest.substr(0, end);
    manifest.remove_prefix(end == std::string_view::npos ? manifest.size() : end + 1);
    const std::size_t first = line.find(' ');
    const std::size_t second = first == std::string_view::npos ? first : line.find(' ', first + 1);
    if (second == std::string_view::npos || !is_number(line.substr(0, first))) continue;
    if (is_number(line.substr(first + 1, second - first - 1))) names.emplace_back(line.substr(second + 1));
  }
  return names;
}

}  // namespace

FileSet::FileSet(std::string folder, std::vector<std::string> subfolders)
    : folder_{std::move(folder)}, subfolders_{std::move(subfolders)} {
  if (!folder_.ends_with('/')) folder_ += '/';
}

FileSet::~FileSet() {
  if (!ready_) return;
  try {
    remove_leftovers();
  } catch (const std::bad_alloc&) {  // the next run will remove them
  }
}

std::vector<std::string> FileSet::folders() const {
  std::vector<std::string> all{folder_};
  for (const std::string& name : subfolders_) all.push_back(folder_ + name + "/");
  return all;
}

int FileSet::remove_leftovers() const {
  for (const std::string& folder : folders()) {
    const std::unique_ptr<DIR, CloseFolder> open{::opendir(folder.c_str())};
    if (!open) return errno;
    std::vector<std::string> left;
    errno = 0;  // to tell the end from a failure
    for (const dirent* entry = ::readdir(open.get()); entry != nullptr; entry = ::readdir(open.get())) {
      const std::string_view name{entry->d_name};
      if (name.starts_with('.') && name.ends_with(k_waiting_end)) left.push_back(folder + std::string{name});
      errno = 0;
    }
    if (errno != 0) return errno;
    for (const std::string& path : left) {
      if (::unlink(path.c_str()) != 0) return errno;
    }
  }
  return 0;
}

FileSet::Opened FileSet::open(LockMode mode, Diagnostics& diagnostics) {
  for (const std::string& folder : folders()) {
    std::error_code error;
    std::filesystem::create_directories(folder, error);
    if (error) {
      diagnostics.push_back(failed(folder, "the folder cannot be made", error.value()));
      return Opened::failed;
    }
  }
  lock_ = OpenFile{path_of(k_lock_name), O_RDWR | O_CREAT};
  if (const int error = lock(lock_, mode)) {
    if (error == EWOULDBLOCK) {
      diagnostics.push_back({Severity::error, {folder_, 0, 0}, "another run is writing here", "let it end first"});
      return Opened::held;
    }
    diagnostics.push_back(failed(path_of(k_lock_name), "cannot be locked", error));
    return Opened::failed;
  }
  if (const int error = remove_leftovers()) {
    diagnostics.push_back(failed(folder_, "what a killed run left cannot be removed", error));
    return Opened::failed;
  }
  ready_ = true;
  return Opened::ready;
}

Staged FileSet::stage(const std::string& name, std::string_view bytes) const {
  return stage(name, [&](const Sink& out) { out(bytes); });
}

Staged FileSet::stage(const std::string& name, const std::function<void(const Sink&)>& write) const {
  const std::string path = path_of(name);
  IncomingFile file{path};
  Checksum sum;
  write([&](std::string_view bytes) {
    sum.add(bytes);
    file.add(bytes);
  });
  const auto [changed, error] = file.finish();
  Staged staged{name, sum.value(), sum.size(), changed};
  if (error != 0) staged.failure = failed(path, "cannot be written", error);
  return staged;
}

/// Those that changed: the names under which they wait, and their own.
FileSet::Moves FileSet::moves_of(std::span<const Staged> files) const {
  Moves moves;
  for (const Staged& file : files) {
    if (file.changed) moves.emplace_back(waiting_name(path_of(file.name)), path_of(file.name));
  }
  return moves;
}

/// What only the old manifest lists, in the subfolders alone: the folder itself may hold files, and a manifest, of
/// others.
std::vector<std::string> FileSet::gone_files(std::string_view old_manifest, std::span<const Staged> files) const {
  std::set<std::string_view> kept;
  for (const Staged& file : files) kept.insert(file.name);
  std::vector<std::string> gone;
  for (const std::string& name : names_in(old_manifest)) {
    const bool ours = std::any_of(subfolders_.begin(), subfolders_.end(), [&](const std::string& folder) {
      return name.starts_with(folder + "/") && name.find('/', folder.size() + 1) == std::string::npos;
    });
    if (ours && !kept.contains(name)) gone.push_back(path_of(name));
  }
  return gone;
}

Diagnostics FileSet::commit(std::span<const Staged> files, const std::string& manifest) const {
  Diagnostics failures;
  for (const Staged& file : files) {
    if (file.failure) failures.push_back(*file.failure);
  }
  if (!failures.empty()) return failures;

  std::string old_manifest;
  if (const int error = read_file(path_of(manifest), old_manifest); error != 0 && error != ENOENT) {
    return {failed(path_of(manifest), "cannot be read", error)};
  }
  // The manifest waits on the disk before the first file changes its name, so that a full disk is met before that.
  const Staged list = stage(manifest, manifest_text(files));
  if (list.failure) return {*list.failure};
  // All names are made before the first is given, so that no lack of memory stops half-way.
  const Moves of_files = moves_of(files);
  const Moves of_list = moves_of({&list, 1});
  const std::vector<std::string> gone = gone_files(old_manifest, files);
  const std::vector<std::string> all_folders = folders();
  if (const auto failure = rename_all(of_files, all_folders)) return {*failure};
  // Before the manifest that no longer names them: a run that is killed in between leaves the list of what is to go.
  if (const auto failure = remove_all(gone)) return {*failure};
  if (const auto failure = rename_all(of_list, all_folders)) return {*failure};
  return {};
}

}  // namespace budclock::files

// A folder of files that are written together. A reader sees each file wholly old or wholly new, whenever the writer
// is killed and wherever the disk runs full, and can tell by the manifest whether the files belong together.
#pragma once

#include <budclock/core/diagnostic.hpp>
#include <budclock/core/sink.hpp>
#include <budclock/files/open_file.hpp>

#include <cstddef>
#include <cstdint>
#include <functional>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace budclock::files {

/// The checksum that cksum(1) prints (POSIX.1-2017, XCU cksum), of bytes that come piece by piece.
class Checksum {
 public:
  void add(std::string_view bytes);
  std::uint32_t value() const;
  std::size_t size() const { return size_; }

 private:
  std::uint32_t sum_ = 0;
  std::size_t size_ = 0;
};

std::uint32_t cksum(std::string_view bytes);

/// A file that waits under a temporary name for the others of its set.
struct Staged {
  std::string name;  ///< below the folder of the set
  std::uint32_t checksum = 0;
  std::size_t size = 0;
  bool changed = false;  ///< false: the bytes are there already, and nothing is written
  bool listed = true;    ///< in the manifest
  std::optional<Diagnostic> failure{};
};

/// Use: open it, stage every file, commit. What is staged and not committed is removed.
///
/// While a file waits it is called ".NAME.budclock-new", in the folder where it will stand. A run that was killed
/// leaves such names and nothing else; the next to open the set removes them.
class FileSet {
 public:
  /// `subfolders` are those (one level deep) that names may begin with.
  FileSet(std::string folder, std::vector<std::string> subfolders);
  FileSet(const FileSet&) = delete;
  FileSet& operator=(const FileSet&) = delete;
  ~FileSet();

  enum class Opened : std::uint8_t { ready, held, failed };

  /// Makes the folders where they are missing, takes the lock (the file ".budclock-lock") and removes what a killed run
  /// left. When another process holds the lock, or something fails, `diagnostics` says so.
  Opened open(LockMode mode, Diagnostics& diagnostics);

  /// Writes the bytes under a temporary name, down to the disk, unless the file has them already. A file that is
  /// replaced passes its rights on. A failure leaves no temporary file. May be called from several threads, for
  /// different names.
  Staged stage(const std::string& name, std::string_view bytes) const;
  /// The same of bytes that `write` hands on piece by piece; what it throws leaves no file either.
  Staged stage(const std::string& name, const std::function<void(const Sink&)>& write) const;

  /// Gives all files their names, then removes the files in subfolders that only the manifest before lists, and last
  /// writes the manifest: a line "CHECKSUM SIZE NAME" for each listed file, as cksum(1) prints it, by name.
  /// Where a file could not be staged, nothing is changed. Returns what failed; empty when all is done.
  Diagnostics commit(std::span<const Staged> files, const std::string& manifest) const;

  std::string path_of(const std::string& name) const { return folder_ + name; }

 private:
  std::vector<std::string> folders() const;
  int remove_leftovers() const;
  using Moves = std::vector<std::pair<std::string, std::string>>;
  Moves moves_of(std::span<const Staged> files) const;
  std::vector<std::string> gone_files(std::string_view old_manifest, std::span<const Staged> files) const;

  std::string folder_;  ///< with a slash at its end
  std::vector<std::string> subfolders_;
  OpenFile lock_;
  bool ready_ = false;
};

}  // namespace budclock::files

// Files as the system has them: open, read whole, locked. Errors are values of errno; 0 means that all went well.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>

namespace budclock::files {

/// A file descriptor that closes itself, and is not handed on to programs that we start.
class OpenFile {
 public:
  OpenFile() = default;
  /// `flags` as for open(2), without O_CLOEXEC; a new file gets the rights that the umask leaves.
  OpenFile(const std::string& path, int flags);
  OpenFile(OpenFile&& other) noexcept;
  OpenFile& operator=(OpenFile&& other) noexcept;
  OpenFile(const OpenFile&) = delete;
  OpenFile& operator=(const OpenFile&) = delete;
  ~OpenFile();

  int get() const { return descriptor_; }
  bool is_open() const { return descriptor_ >= 0; }
  /// Why it is not open.
  int error() const { return error_; }

 private:
  int descriptor_ = -1;
  int error_ = 0;
};

/// "No space left on device".
std::string reason(int error);

/// The whole file into `text`; 0, or why not.
int read_all(const OpenFile& file, std::string& text);
int read_file(const std::string& path, std::string& text);

enum class LockMode : std::uint8_t {
  wait,      ///< until the other process has ended
  try_once,  ///< EWOULDBLOCK when another process holds it
};

/// Locks the file for this process alone, until it is closed or the process ends, however it ends (flock(2)); 0, or
/// why not.
int lock(const OpenFile& file, LockMode mode);

/// The part before the last slash, with it; "./" for a name without a slash.
std::string folder_of(const std::string& path);

/// The end of a name under which a file waits.
inline constexpr std::string_view k_waiting_end = ".budclock-new";

/// The name, in the same folder, under which a file waits until it is whole: "logs/.log.csv.budclock-new".
std::string waiting_name(const std::string& path);

/// Makes new names and renamings in the folder last through a power cut; 0, or why not.
int sync_folder(const std::string& folder);

}  // namespace budclock::files

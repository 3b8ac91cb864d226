// A new file that waits for its name, or none where the old one has the same bytes. Private to this folder.
#pragma once

#include <budclock/files/open_file.hpp>

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <sys/types.h>

namespace budclock::files {

/// Takes the bytes of a file piece by piece. As long as they are those of the file that stands at the path, nothing is
/// written; from the first that is not on, they go to a new file under the waiting name. Unless it is finished without
/// error, nothing of it is left.
class IncomingFile {
 public:
  explicit IncomingFile(const std::string& path);
  IncomingFile(const IncomingFile&) = delete;
  IncomingFile& operator=(const IncomingFile&) = delete;
  ~IncomingFile();

  /// After an error nothing more is written.
  void add(std::string_view bytes);

  struct Finished {
    bool changed = false;  ///< a new file waits, down to the disk, with the rights of the old
    int error = 0;
  };
  Finished finish();

 private:
  void flush();
  bool old_goes_on_with(std::string_view bytes);
  int begin_new();
  int write(std::string_view bytes);

  std::string waiting_;
  OpenFile old_;
  std::optional<mode_t> rights_;  ///< of the old file; nothing: there is none that can be read
  OpenFile new_;
  std::string buffer_;    ///< handed over, and neither compared nor written yet
  std::size_t same_ = 0;  ///< so many of the old file's first bytes are the new one's too
  int error_ = 0;
  bool done_ = false;
};

}  // namespace budclock::files

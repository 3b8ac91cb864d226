#include <budclock/files/open_file.hpp>

#include <algorithm>
#include <cerrno>
#include <fcntl.h>
#include <sys/file.h>
#include <system_error>
#include <unistd.h>
#include <utility>

namespace budclock::files {

OpenFile::OpenFile(const std::string& path, int flags) : descriptor_{::open(path.c_str(), flags | O_CLOEXEC, 0666)} {
  if (descriptor_ < 0) error_ = errno;
}

OpenFile::OpenFile(OpenFile&& other) noexcept
    : descriptor_{std::exchange(other.descriptor_, -1)}, error_{other.error_} {}

OpenFile& OpenFile::operator=(OpenFile&& other) noexcept {
  std::swap(descriptor_, other.descriptor_);
  std::swap(error_, other.error_);
  return *this;
}

OpenFile::~OpenFile() {
  if (descriptor_ >= 0) ::close(descriptor_);
}

std::string reason(int error) { return std::generic_category().message(error); }

int read_all(const OpenFile& file, std::string& text) {
  if (!file.is_open()) return file.error();
  constexpr std::size_t k_block = std::size_t{64} << 10;
  text.clear();
  for (;;) {
    const std::size_t size = text.size();
    text.resize(size + k_block);
    const ssize_t count = ::read(file.get(), text.data() + size, k_block);
    const int error = count < 0 ? errno : 0;
    text.resize(size + static_cast<std::size_t>(std::max<ssize_t>(count, 0)));
    if (count == 0) return 0;
    if (error != 0 && error != EINTR) return error;
  }
}

int read_file(const std::string& path, std::string& text) { return read_all(OpenFile{path, O_RDONLY}, text); }

int lock(const OpenFile& file, LockMode mode) {
  if (!file.is_open()) return file.error();
  while (::flock(file.get(), mode == LockMode::wait ? LOCK_EX : LOCK_EX | LOCK_NB) != 0) {
    if (errno != EINTR) return errno;
  }
  return 0;
}

std::string folder_of(const std::string& path) {
  const std::size_t slash = path.find_last_of('/');
  return slash == std::string::npos ? "./" : path.substr(0, slash + 1);
}

std::string waiting_name(const std::string& path) {
  return folder_of(path) + "." + path.substr(path.find_last_of('/') + 1) + std::string{k_waiting_end};
}

int sync_folder(const std::string& folder) {
  const OpenFile open{folder, O_RDONLY | O_DIRECTORY};
  if (!open.is_open()) return open.error();
  return ::fsync(open.get()) == 0 ? 0 : errno;
}

}  // namespace budclock::files

#include "incoming_file.hpp"

#include <algorithm>
#include <array>
#include <cerrno>
#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

namespace budclock::files {
namespace {

constexpr std::size_t k_block = std::size_t{64} << 10;
using Block = std::array<char, k_block>;

/// At most a block from `offset` on; less only at the end. Nothing after an error.
std::optional<std::string_view> read_block(const OpenFile& file, Block& block, std::size_t offset, std::size_t most) {
  std::size_t size = 0;
  while (size < std::min(most, k_block)) {
    const ssize_t count =
        ::pread(file.get(), block.data() + size, std::min(most, k_block) - size, static_cast<off_t>(offset + size));
    if (count == 0) break;
    if (count < 0 && errno != EINTR) return std::nullopt;
    if (count > 0) size += static_cast<std::size_t>(count);
  }
  return std::string_view{block.data(), size};
}

}  // namespace

IncomingFile::IncomingFile(const std::string& path) : waiting_{waiting_name(path)}, old_{path, O_RDONLY | O_NONBLOCK} {
  struct stat status {};
  if (old_.is_open() && ::fstat(old_.get(), &status) == 0 && S_ISREG(status.st_mode)) rights_ = status.st_mode & 0777;
}

IncomingFile::~IncomingFile() {
  if (new_.is_open() && !done_) ::unlink(waiting_.c_str());
}

void IncomingFile::add(std::string_view bytes) {
  if (error_ != 0) return;
  buffer_ += bytes;
  if (buffer_.size() >= k_block) flush();
}

IncomingFile::Finished IncomingFile::finish() {
  flush();
  if (error_ == 0 && !new_.is_open()) {
    Block block;
    const auto rest = rights_ ? read_block(old_, block, same_, 1) : std::nullopt;
    if (rest && rest->empty()) return {};
    error_ = begin_new();  // the old file is longer
  }
  if (error_ == 0 && rights_ && ::fchmod(new_.get(), *rights_) != 0) error_ = errno;
  if (error_ == 0 && ::fsync(new_.get()) != 0) error_ = errno;
  done_ = error_ == 0;
  return {true, error_};
}

void IncomingFile::flush() {
  if (error_ != 0 || buffer_.empty()) return;
  if (!new_.is_open()) {
    if (old_goes_on_with(buffer_)) {
      same_ += buffer_.size();
      buffer_.clear();
      return;
    }
    error_ = begin_new();
  }
  if (error_ == 0) error_ = write(buffer_);
  buffer_.clear();
}

bool IncomingFile::old_goes_on_with(std::string_view bytes) {
  if (!rights_) return false;
  Block block;
  for (std::size_t at = 0; at < bytes.size();) {
    const auto old = read_block(old_, block, same_ + at, bytes.size() - at);
    if (!old || old->empty() || bytes.substr(at, old->size()) != *old) return false;
    at += old->size();
  }
  return true;
}

/// With the bytes that are those of the old file. What stands under the waiting name is not followed, if it is a link,
/// but replaced.
int IncomingFile::begin_new() {
  ::unlink(waiting_.c_str());
  new_ = OpenFile{waiting_, O_WRONLY | O_CREAT | O_EXCL};
  if (!new_.is_open()) return new_.error();
  Block block;
  for (std::size_t at = 0; at < same_;) {
    const auto old = read_block(old_, block, at, same_ - at);
    if (!old) return errno;
    if (old->empty()) return EIO;  // it has been cut short since it was compared
    if (const int error = write(*old)) return error;
    at += old->size();
  }
  return 0;
}

int IncomingFile::write(std::string_view bytes) {
  while (!bytes.empty()) {
    const ssize_t count = ::write(new_.get(), bytes.data(), bytes.size());
    if (count < 0 && errno != EINTR) return errno;
    if (count > 0) bytes.remove_prefix(static_cast<std::size_t>(count));
  }
  return 0;
}

}  // namespace budclock::files

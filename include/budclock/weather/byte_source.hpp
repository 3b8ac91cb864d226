// Where a reader's bytes come from: a stream, an open file, memory.
#pragma once

#include <cstddef>
#include <istream>
#include <span>
#include <string_view>

namespace budclock::weather {

/// A forward-only run of bytes.
class ByteSource {
 public:
  ByteSource() = default;
  ByteSource(const ByteSource&) = delete;
  ByteSource& operator=(const ByteSource&) = delete;
  virtual ~ByteSource() = default;

  /// Fills the front of `buffer` and returns how many bytes were put there; 0 at the end.
  /// A read that fails throws std::system_error.
  virtual std::size_t read(std::span<char> buffer) = 0;
};

/// Bytes of a standard stream, which must outlive the source.
class StreamSource final : public ByteSource {
 public:
  explicit StreamSource(std::istream& stream) : stream_{stream} {}
  std::size_t read(std::span<char> buffer) override;

 private:
  std::istream& stream_;
};

/// Bytes of an open file descriptor, which stays the caller's.
class DescriptorSource final : public ByteSource {
 public:
  explicit DescriptorSource(int descriptor) : descriptor_{descriptor} {}
  std::size_t read(std::span<char> buffer) override;

 private:
  int descriptor_;
};

/// Bytes already in memory, which must outlive the source.
class MemorySource final : public ByteSource {
 public:
  explicit MemorySource(std::string_view bytes) : rest_{bytes} {}
  std::size_t read(std::span<char> buffer) override;

 private:
  std::string_view rest_;
};

}  // namespace budclock::weather

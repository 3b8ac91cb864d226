#include <budclock/files/file_set.hpp>

#include <array>

namespace budclock::files {
namespace {

constexpr std::uint32_t k_polynomial = 0x04C11DB7;

/// The sums of a byte that `zeros` zero bytes follow, by `zeros` and byte: eight bytes are added at a time by eight
/// entries, as Kounavis and Berry, "Novel table lookup-based algorithms for high-performance CRC generation" (IEEE
/// Transactions on Computers 57, 2008), describe it.
constexpr std::size_t k_slices = 8;
using Tables = std::array<std::array<std::uint32_t, 256>, k_slices>;

constexpr Tables make_tables() {
  Tables tables{};
  for (std::uint32_t byte = 0; byte < 256; ++byte) {
    std::uint32_t value = byte << 24;
    for (int bit = 0; bit < 8; ++bit) value = (value & 0x80000000U) != 0 ? (value << 1) ^ k_polynomial : value << 1;
    tables[0][byte] = value;
  }
  for (std::size_t zeros = 1; zeros < k_slices; ++zeros) {
    for (std::size_t byte = 0; byte < 256; ++byte) {
      const std::uint32_t before = tables[zeros - 1][byte];
      tables[zeros][byte] = (before << 8) ^ tables[0][before >> 24];
    }
  }
  return tables;
}

constexpr Tables k_tables = make_tables();

constexpr std::uint32_t with(std::uint32_t sum, std::size_t byte) {
  return (sum << 8) ^ k_tables[0][((sum >> 24) ^ static_cast<std::uint32_t>(byte)) & 0xFF];
}

std::uint32_t with_eight(std::uint32_t sum, std::string_view bytes) {
  std::uint32_t with_all = 0;
  for (std::size_t i = 0; i < k_slices; ++i) {
    const std::uint32_t of_sum = i < 4 ? sum >> (24 - 8 * i) : 0;
    with_all ^= k_tables[k_slices - 1 - i][(of_sum ^ static_cast<unsigned char>(bytes[i])) & 0xFF];
  }
  return with_all;
}

}  // namespace

void Checksum::add(std::string_view bytes) {
  size_ += bytes.size();
  for (; bytes.size() >= k_slices; bytes.remove_prefix(k_slices)) sum_ = with_eight(sum_, bytes);
  for (const char byte : bytes) sum_ = with(sum_, static_cast<unsigned char>(byte));
}

std::uint32_t Checksum::value() const {
  std::uint32_t sum = sum_;
  for (std::size_t left = size_; left != 0; left >>= 8) sum = with(sum, left & 0xFF);
  return ~sum;
}

std::uint32_t cksum(std::string_view bytes) {
  Checksum sum;
  sum.add(bytes);
  return sum.value();
}

}  // namespace budclock::files

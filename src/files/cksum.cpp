#include <budclock/files/file_set.hpp>

#include <array>

namespace budclock::files {
namespace {

constexpr std::uint32_t k_polynomial = 0x04C11DB7;

constexpr std::array<std::uint32_t, 256> make_table() {
  std::array<std::uint32_t, 256> table{};
  for (std::uint32_t byte = 0; byte < 256; ++byte) {
    std::uint32_t value = byte << 24;
    for (int bit = 0; bit < 8; ++bit) value = (value & 0x80000000U) != 0 ? (value << 1) ^ k_polynomial : value << 1;
    table[byte] = value;
  }
  return table;
}

constexpr std::array<std::uint32_t, 256> k_table = make_table();

constexpr std::uint32_t with(std::uint32_t sum, std::size_t byte) {
  return (sum << 8) ^ k_table[((sum >> 24) ^ static_cast<std::uint32_t>(byte)) & 0xFF];
}

}  // namespace

std::uint32_t cksum(std::string_view bytes) {
  std::uint32_t sum = 0;
  for (const char byte : bytes) sum = with(sum, static_cast<unsigned char>(byte));
  for (std::size_t length = bytes.size(); length != 0; length >>= 8) sum = with(sum, length & 0xFF);
  return ~sum;
}

}  // namespace budclock::files

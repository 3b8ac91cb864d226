// A step of the build: loads rule files and writes the C++ source that holds their table, packed. Fails, naming every
// fault, where a file has one.
// usage: pack_rules OUTPUT FILE...
#include <budclock/rules/load.hpp>

#include "packed_table.hpp"

#include <fmt/format.h>
#include <fstream>
#include <iterator>
#include <string>
#include <vector>

using namespace budclock;

namespace {

std::string as_source(const std::string& bytes) {
  constexpr std::size_t k_bytes_a_line = 32;
  std::string source = fmt::format(
      "// Generated from data/ by src/rules/pack_rules.cpp.\n#include \"packed_table.hpp\"\n\n"
      "std::string_view budclock::rules::packed_shipped_table() {{\n  static constexpr char k_bytes[] =");
  for (std::size_t at = 0; at < bytes.size(); ++at) {
    if (at % k_bytes_a_line == 0) source += at == 0 ? "\n      \"" : "\"\n      \"";
    source += fmt::format("\\x{:02x}", static_cast<unsigned char>(bytes[at]));
  }
  return source + fmt::format("\";\n  return {{k_bytes, {}}};\n}}\n", bytes.size());
}

}  // namespace

int main(int argc, char** argv) {
  if (argc < 3) return 2;
  const std::vector<std::string> names(argv + 2, argv + argc);
  std::vector<std::string> texts;
  for (const std::string& name : names) {
    std::ifstream in{name, std::ios::binary};
    texts.emplace_back(std::istreambuf_iterator<char>{in}, std::istreambuf_iterator<char>{});
  }
  std::vector<rules::RuleFile> files;
  for (std::size_t i = 0; i < names.size(); ++i) files.push_back({names[i], texts[i]});
  Diagnostics faults;
  const rules::PestTable table = rules::load(files, faults);
  for (const Diagnostic& fault : faults) fmt::print(stderr, "{}\n", to_text(fault));
  if (!faults.empty()) return 1;
  std::ofstream out{argv[1], std::ios::binary};
  out << as_source(rules::pack(table));
  out.close();
  return out ? 0 : 1;
}

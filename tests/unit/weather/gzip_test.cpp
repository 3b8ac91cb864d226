// Packed files: read as what is in them, and never silently as a whole when they are not.
#include <budclock/weather/gzip_source.hpp>

#include "packing.hpp"
#include "reading.hpp"

#include <array>
#include <catch2/catch.hpp>
#include <fmt/format.h>

using namespace budclock;
using namespace budclock::weather;
using namespace budclock::weather::test;

namespace {

const std::string k_table = "date,tmax_f,tmin_f\n2014-04-16,61.5,40\n2014-04-17,63,41.25\n";

/// A table of so many days from 1990 on, each value another.
std::string long_table(int days) {
  std::string text = "date,tmax_f,tmin_f\n";
  const Day first = date::sys_days{date::year{1990} / 1 / 1};
  for (int i = 0; i < days; ++i) {
    text += fmt::format("{},{}.{},{}\n", iso(first + date::days{i}), 50 + i * 7919 % 40, i % 10, 10 + i * 104729 % 37);
  }
  return text;
}

std::string unpacked(GzipSource& source, std::size_t piece) {
  std::string text;
  std::string buffer(piece, '\0');
  for (std::size_t count = source.read(buffer); count > 0; count = source.read(buffer)) text.append(buffer, 0, count);
  return text;
}

/// The fault that reading `bytes` ends with.
GzipFault fault_of(std::string_view bytes) {
  MemorySource memory{bytes};
  GzipSource source{memory};
  unpacked(source, 1000);
  return source.fault();
}

}  // namespace

TEST_CASE("a packed table reads as the table in it, and its layout says that it is packed") {
  const Reading reading = read_text(packed(k_table));
  CHECK(reading.said == Lines{});
  REQUIRE(reading.stations.size() == 1);
  CHECK(days_text(reading.stations[0].days) == Lines{"2014-04-16 61.5/40", "2014-04-17 63/41.25"});
  CHECK(reading.summary.layout == "table, comma-separated, gzip");
}

TEST_CASE("packed bytes come out the same however they go in and are taken out") {
  const std::string text = long_table(9'000);
  const std::string bytes = packed(text);
  for (const std::size_t in : {std::size_t{1}, std::size_t{777}, bytes.size()}) {
    for (const std::size_t out : {std::size_t{1}, std::size_t{1000}, text.size() + 1}) {
      PieceSource pieces{bytes, in};
      GzipSource source{pieces};
      CHECK(unpacked(source, out) == text);
      CHECK(source.fault() == GzipFault::none);
      CHECK(source.unpacked() == text.size());
    }
  }
}

TEST_CASE("packed members after one another are one file, and zero bytes after them are padding") {
  const std::string head = "date,tmax_f,tmin_f\n2014-04-16,61";
  const std::string tail = ".5,40\n2014-04-17,63,41.25\n";
  const Reading reading = read_text(packed(head) + packed("") + packed(tail) + std::string(1000, '\0'));
  CHECK(reading.said == Lines{});
  CHECK(days_text(reading.stations.at(0).days) == Lines{"2014-04-16 61.5/40", "2014-04-17 63/41.25"});
}

TEST_CASE("packed data cut off anywhere are an error") {
  const std::string bytes = packed(k_table);
  for (std::size_t size = 2; size < bytes.size(); ++size) {
    CAPTURE(size);
    CHECK(fault_of(std::string_view{bytes}.substr(0, size)) == GzipFault::cut_off);
  }
  const std::string two = bytes + bytes;
  for (std::size_t size = bytes.size() + 1; size < two.size(); ++size) {
    CAPTURE(size);
    CHECK(fault_of(std::string_view{two}.substr(0, size)) == GzipFault::cut_off);
  }
}

TEST_CASE("a changed bit in packed data or their checksum is an error") {
  const std::string bytes = packed(long_table(400));
  constexpr std::size_t k_header = 10;  // its time and system may be anything
  for (std::size_t at = k_header; at < bytes.size(); ++at) {
    std::string spoiled = bytes;
    spoiled[at] = static_cast<char>(spoiled[at] ^ (1 << at % 8));
    CAPTURE(at);
    CHECK(fault_of(spoiled) != GzipFault::none);
  }
}

TEST_CASE("what is wrong with packed data is said, with what to do") {
  const std::string text = long_table(9'000);
  const std::string bytes = packed(text);
  const Reading cut = read_text(std::string_view{bytes}.substr(0, bytes.size() - 4));
  REQUIRE(cut.said.size() == 1);
  CHECK(cut.said[0] == fmt::format("w.csv: the gzip data are cut off after {} unpacked bytes, so the record is not "
                                   "whole: get the file again",
                                   text.size()));
  CHECK(cut.summary.diagnostics[0].severity == Severity::error);

  std::string spoiled = bytes;
  spoiled[bytes.size() - 6] ^= 1;  // of the checksum
  CHECK(read_text(spoiled).said ==
        Lines{fmt::format("w.csv: the gzip data are damaged after {} unpacked bytes, so the record is not whole: get "
                          "the file again",
                          text.size())});
  CHECK(read_text(bytes + "date,tmax_f,tmin_f\n").said ==
        Lines{fmt::format("w.csv: the gzip data are followed by something else after {} unpacked bytes, so the record "
                          "is not whole: get the file again, or unpack it and look",
                          text.size())});
  CHECK(read_text("\x1F\x8B\x08").said ==
        Lines{"w.csv: the gzip data are cut off after 0 unpacked bytes, so the record is not whole: get the file "
              "again"});
}

TEST_CASE("an empty file, a workbook and a packed file stay what they are when they are packed") {
  CHECK(read_text(packed("")).said == Lines{"w.csv: the file is empty: give a file with a header line such as "
                                            "date,tmax_f,tmin_f and one row a day"});
  CHECK(read_text(packed("%PDF-1.7")).said == Lines{"w.csv: this is a PDF document, not text: get the data as CSV"});
  CHECK(read_text(packed(packed(k_table))).said ==
        Lines{"w.csv: this file is compressed twice with gzip: unpack it once"});
}

TEST_CASE("a small packed file may hold very much, and is read piece by piece") {
  // 64 members of 4 MiB of blanks: 256 MiB from a few hundred KiB. With the whole in memory this would be seen.
  std::string bytes = packed("date,tmax_f,tmin_f\n2014-04-16,61.5,40\n");
  const std::string member = packed(std::string(std::size_t{4} << 20, ' '));
  for (int i = 0; i < 64; ++i) bytes += member;
  const Reading reading = read_text(bytes);
  CHECK(reading.said == Lines{"w.csv:3:1: the line is longer than 65536 bytes; it is set aside: split it into one row "
                              "a day"});
  CHECK(days_text(reading.stations.at(0).days) == Lines{"2014-04-16 61.5/40"});
}

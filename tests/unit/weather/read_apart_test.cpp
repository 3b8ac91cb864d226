// Files whose parts other threads read say the same as when one thread reads them.
#include <budclock/core/thread_pool.hpp>
#include <budclock/weather/reader.hpp>
#include <budclock/weather/row_splitter.hpp>

#include "reading.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <fmt/format.h>
#include <random>

using namespace budclock;
using namespace budclock::weather;
using namespace budclock::weather::test;

namespace {

/// Invented rows of six stations, some blocks of memory long.
Lines rows() {
  Lines rows;
  std::minstd_rand random{1};
  for (int station = 1; station <= 6; ++station) {
    for (int i = 0; i < 3'000; ++i) {
      const auto low = static_cast<double>(random() % 900) / 10 - 20;
      rows.push_back(fmt::format("S{},{},{:.1f},{:.1f}", station, iso(*make_day(1990, 1, 1) + date::days{i}),
                                 low + static_cast<double>(random() % 300) / 10, low));
    }
  }
  return rows;
}

std::string file_of(const Lines& rows, std::string_view line_end = "\n") {
  return fmt::format("station,date,tmax_f,tmin_f{}{}", line_end, fmt::join(rows, line_end));
}

/// All that is told of a file and its stations.
Lines told(std::string_view text, ThreadPool* pool) {
  MemorySource source{text};
  Lines lines;
  const FileSummary summary = read_weather(
      source, "w.csv", {},
      [&](StationRecord&& record) {
        lines.push_back(fmt::format("{}: {} rows, {} twice", record.id, record.rows, record.duplicates));
        for (std::string& line : days_text(record.days)) lines.push_back(std::move(line));
      },
      pool);
  lines.push_back(fmt::format("{} stations, {} rows, {} flagged", summary.stations, summary.rows, summary.flagged));
  for (const Diagnostic& entry : summary.diagnostics) lines.push_back(to_text(entry));
  return lines;
}

bool same_apart(const std::string& text) {
  ThreadPool pool{3};
  return told(text, &pool) == told(text, nullptr);
}

}  // namespace

TEST_CASE("parts read apart make the whole") {
  CHECK(same_apart(file_of(rows())));
  CHECK(same_apart(file_of(rows()) + "\n"));
  CHECK(same_apart(file_of(rows(), "\r\n")));
  CHECK(same_apart(file_of(rows(), "\r")));
}

TEST_CASE("faults keep their places when parts are read apart") {
  Lines all = rows();
  all[100] = "S1,1990-04-11,hot,40.0";
  all[5'000].resize(12);
  all[5'001] += ",7";
  all[7'000] = "S3,1990-02-30,50.0,40.0";
  all[9'000] = ",1990-01-01,50.0,40.0";
  all[9'001] = "S4,1990-01-02,999.9,-9999";
  all[11'000] = "# a note\rS4,1995-01-01,300,40.0\r\n\n" + all[11'000];
  all[14'000] = all[14'001];
  all[16'000].insert(5, 1, '\0');
  CHECK(same_apart(file_of(all)));
  all.insert(all.end(), all.begin(), all.begin() + 100);  // a station comes back
  CHECK(same_apart(file_of(all)));
}

TEST_CASE("quotes that concern the lines after them are read in their turn") {
  for (const std::string quoted : {"\"S2\",1991-01-01,50.0,40.0", "\"S2\",\"1991-01-01\n\",50.0,\"40.0\n\n\"",
                                   "S2,1991-01-01,50.0,\"40.0", "S2,1991-01-01,50.0,40.0\""}) {
    CAPTURE(quoted);
    for (const std::size_t at : {3'200U, 4'400U, 9'999U}) {  // anywhere in a block of memory
      Lines all = rows();
      all[at] = quoted;
      all[at + 3'000] = quoted;
      CHECK(same_apart(file_of(all)));
    }
  }
}

TEST_CASE("a file that is not grouped by station is read apart too") {
  Lines all = rows();
  std::minstd_rand random{2};
  std::shuffle(all.begin(), all.end(), random);
  CHECK(same_apart(file_of(all)));
}

TEST_CASE("whole lines are split off with their numbers, those with quotes are not") {
  std::string text;
  for (int i = 0; i < 3'000; ++i) text += fmt::format("a{},b\r\n", i);
  text += "c,\"d\n\"\ne,f\n";
  MemorySource source{text};
  RowSplitter rows{source};
  REQUIRE(rows.next());
  auto part = rows.split_off();
  REQUIRE(part);
  std::size_t count = 1;
  for (; part->next(); ++count) {
    REQUIRE(part->line() == count + 1);
    REQUIRE(part->fields()[0].text == fmt::format("a{}", count));
  }
  CHECK(count == 3'000);
  CHECK_FALSE(rows.split_off());
  REQUIRE(rows.next());
  CHECK(rows.line() == 3'001);
  CHECK(rows.fields()[1].text == "d\n");
  REQUIRE(rows.next());
  CHECK(rows.line() == 3'003);
}

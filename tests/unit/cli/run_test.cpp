#include "../../../src/cli/run.hpp"

#include <catch2/catch.hpp>
#include <sstream>
#include <streambuf>

using namespace budclock;
using cli::ExitStatus;

namespace {

struct Outcome {
  ExitStatus status;
  std::string out;
  std::string err;
};

Outcome run(const std::vector<std::string>& arguments, const std::string& input = "") {
  std::istringstream in{input};
  std::ostringstream out;
  std::ostringstream err;
  cli::Environment environment{
      .in = in, .out = out, .err = err, .today = make_day(2015, 1, 5).value(), .width = 80, .colour = false};
  const ExitStatus status = cli::run(arguments, environment);
  return {status, out.str(), err.str()};
}

/// A device that takes nothing, like a full disk.
class FullDevice : public std::streambuf {
 protected:
  int_type overflow(int_type) override { return traits_type::eof(); }
};

const std::string k_weather = BUDCLOCK_SOURCE_DIR "/examples/weather/wooster_oh_1985-2014.csv";

}  // namespace

TEST_CASE("no arguments show the help") {
  const Outcome outcome = run({});
  CHECK(outcome.status == ExitStatus::answered);
  CHECK(outcome.out.find("budclock when boxwood --weather home.csv") != std::string::npos);
  CHECK(outcome.err.empty());
}

TEST_CASE("output that cannot be written is an error with its own exit code") {
  FullDevice device;
  std::ostream out{&device};
  std::istringstream in;
  std::ostringstream err;
  cli::Environment environment{
      .in = in, .out = out, .err = err, .today = make_day(2015, 1, 5).value(), .width = 80, .colour = false};
  CHECK(cli::run({"pests"}, environment) == ExitStatus::not_written);
  CHECK(err.str().starts_with("budclock: the output could not be written: "));
}

TEST_CASE("without --today the local date counts") {
  const Outcome outcome = run({"when", "boxwood", "--weather", k_weather});
  CHECK(outcome.out.find(", 2015-01-05\n") != std::string::npos);
}

TEST_CASE("colour is used only where the terminal takes it") {
  std::istringstream in;
  std::ostringstream out;
  std::ostringstream err;
  cli::Environment environment{
      .in = in, .out = out, .err = err, .today = make_day(2015, 1, 5).value(), .width = 80, .colour = true};
  cli::run({"pests", "boxwood"}, environment);
  CHECK(out.str().find("\x1b[1m") != std::string::npos);
  CHECK(run({"pests", "boxwood"}).out.find('\x1b') == std::string::npos);
}

TEST_CASE("a second file fills what the first lacks, value by value") {
  const std::string lacking = "date,tmax_f,tmin_f\n2014-05-01,70,50\n2014-05-02,,52\n";
  const Outcome alone = run({"tally", "--weather", "-", "--lower", "50F"}, lacking);
  CHECK(alone.out.find("2014-05-02,52.00,,,10.000\n") != std::string::npos);
  const Outcome both = run({"tally", "--weather", "-", k_weather, "--lower", "50F"}, lacking);
  // Wooster's maximum on 2 May 2014 was 14.4 C = 57.92 F; the minimum stays the first file's.
  CHECK(both.out.find("2014-05-02,52.00,57.92,4.960,") != std::string::npos);
}

TEST_CASE("pests are chosen by id, common name, scientific name or the words they begin with") {
  for (const char* name : {"hemlock-woolly-adelgid", "Hemlock Woolly Adelgid", "ADELGES TSUGAE"}) {
    INFO(name);
    CHECK(run({"pests", name}).status == ExitStatus::answered);
  }
}

TEST_CASE("one unreadable file does not stop the other") {
  const Outcome outcome = run({"when", "boxwood", "--weather", k_weather, "nowhere.csv"});
  CHECK(outcome.status == ExitStatus::set_aside);
  CHECK(outcome.err == "nowhere.csv: is not there: check the path\n");
  CHECK(outcome.out.find("boxwood psyllid") != std::string::npos);
}

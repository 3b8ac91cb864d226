#include <budclock/journal/append.hpp>

#include "logs.hpp"

#include <csignal>
#include <cstdlib>
#include <filesystem>
#include <fmt/format.h>
#include <fstream>
#include <iterator>
#include <set>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

using namespace budclock;
using namespace budclock::journal;
using logs::k_header;

namespace {

/// A folder of its own, gone at the end.
class Folder {
 public:
  Folder() {
    std::string name = (std::filesystem::temp_directory_path() / "budclock-XXXXXX").string();
    REQUIRE(::mkdtemp(name.data()) != nullptr);
    path_ = name;
  }
  ~Folder() { std::filesystem::remove_all(path_); }
  Folder(const Folder&) = delete;
  Folder& operator=(const Folder&) = delete;
  std::string file(const std::string& name) const { return (path_ / name).string(); }

 private:
  std::filesystem::path path_;
};

std::string content(const std::string& path) {
  std::ifstream file{path, std::ios::binary};
  return {std::istreambuf_iterator<char>{file}, std::istreambuf_iterator<char>{}};
}

void write(const std::string& path, const std::string& text) { std::ofstream{path, std::ios::binary} << text; }

LogRow row(const std::string& note) {
  return {"2014-04-20", "Mill Lane", "test-psyllid", "hatch", "open-buds;nymphs", "", "", "7 of 20", "", "", note};
}

std::string text(const AppendResult& result) {
  std::string all;
  for (const auto& diagnostic : result.diagnostics) all += to_text(diagnostic) + "\n";
  return all;
}

/// What the file holds after a row was added to `old`.
std::string after(const std::string& old, const LogRow& added) {
  const Folder folder;
  const std::string path = folder.file("log.csv");
  write(path, old);
  const AppendResult result = append_to_log(path, added);
  INFO(text(result));
  CHECK(result.outcome == Appended::added);
  return content(path);
}

/// Runs `work` in a process of its own and returns how that ended.
template <class Work>
pid_t in_child(const Work& work) {
  const pid_t child = ::fork();
  if (child == 0) {
    work();
    ::_exit(0);
  }
  return child;
}

int status_of(pid_t child) {
  int status = 0;
  REQUIRE(::waitpid(child, &status, 0) == child);
  return status;
}

constexpr const char* k_plain = "2014-04-20,Mill Lane,test-psyllid,hatch,open-buds;nymphs,,,7 of 20,,,";

}  // namespace

TEST_CASE("a new log gets its header") {
  const Folder folder;
  const std::string path = folder.file("log.csv");
  CHECK(append_to_log(path, row("so")).outcome == Appended::added);
  CHECK(content(path) == k_header + k_plain + "so\n");
  CHECK(after("", row("so")) == k_header + k_plain + "so\n");
  CHECK(after("# ours\n", row("so")) == "# ours\n" + k_header + k_plain + "so\n");
}

TEST_CASE("the dialect of a log is kept") {
  const std::string bare = k_header.substr(0, k_header.size() - 1);
  CHECK(after(bare + "\r\n", row("a,b \"c\"")) == bare + "\r\n" + k_plain + "\"a,b \"\"c\"\"\"\r\n");
  CHECK(after(bare + "\r", row("")) == bare + "\r" + k_plain + "\r");
  CHECK(after("note;date;site;pest;stage;saw;not_saw;not_found;count;plant;by;mine\n", row("so, so")) ==
        "note;date;site;pest;stage;saw;not_saw;not_found;count;plant;by;mine\n"
        "so, so;2014-04-20;Mill Lane;test-psyllid;hatch;\"open-buds;nymphs\";;;7 of 20;;;\n");
  CHECK(after("\xEF\xBB\xBF\"date\",\"site\",\"pest\",\"stage\",\"saw\",\"count\"\n", row("")) ==
        "\xEF\xBB\xBF\"date\",\"site\",\"pest\",\"stage\",\"saw\",\"count\"\n"
        "\"2014-04-20\",\"Mill Lane\",\"test-psyllid\",\"hatch\",\"open-buds;nymphs\",\"7 of 20\"\n");
  CHECK(after("note,date,site,pest,stage,saw,count\n", row("#1")) ==
        "note,date,site,pest,stage,saw,count\n"
        "\"#1\",2014-04-20,Mill Lane,test-psyllid,hatch,open-buds;nymphs,7 of 20\n");
}

TEST_CASE("an unfinished last line is ended first") {
  CHECK(after(k_header + "2014-04-01,half a row", row("")) == k_header + "2014-04-01,half a row\n" + k_plain + "\n");
}

TEST_CASE("free text cannot run as a formula") {
  for (const std::string start : {"=", "+", "-", "@"}) {
    CHECK(after(k_header, row(start + "1")) == k_header + k_plain + "'" + start + "1\n");
  }
}

TEST_CASE("what was appended is read back as it was given") {
  for (const std::string note : {"=1+1", "a,b;c\t\"d\"", "two\nlines", "#", "M\xC3\xBCller", "'quoted'"}) {
    const auto read = logs::read(after(k_header, row(note)));
    CHECK(read.texts() == std::vector<std::string>{});
    REQUIRE(read.log.size() == 1);
    CHECK(read.log[0].note == note);
  }
}

TEST_CASE("a row that is there already is not added again") {
  const Folder folder;
  const std::string path = folder.file("log.csv");
  const std::string old =
      "date,site,pest,stage,saw,count,mine\r\n4/20/2014,Mill Lane,test-psyllid,hatch,"
      "open-buds;nymphs,7 of 20,x\r\n";
  write(path, old);
  const AppendResult result = append_to_log(path, row(""));
  CHECK(result.outcome == Appended::duplicate);
  CHECK(text(result) == path + ":2: this row is there already; it is not added again\n");
  CHECK(content(path) == old);
}

TEST_CASE("what the file has no column for is refused") {
  const Folder folder;
  const std::string path = folder.file("log.csv");
  write(path, "date,site,pest,stage,saw,count\n");
  const AppendResult result = append_to_log(path, row("so"));
  CHECK(result.outcome == Appended::failed);
  CHECK(text(result) == path + ": the file has no column \"note\"; nothing was added: add it to the header line\n");
  CHECK(content(path) == "date,site,pest,stage,saw,count\n");
}

TEST_CASE("a folder that is not there is an error") {
  const Folder folder;
  const std::string path = folder.file("none/log.csv");
  CHECK(text(append_to_log(path, row(""))) ==
        path + ": " + path +
            ".lock cannot be locked: No such file or directory; nothing was added: check the folder "
            "and its rights\n");
}

TEST_CASE("a file open in a spreadsheet draws a note") {
  const Folder folder;
  const std::string path = folder.file("log.csv");
  write(folder.file(".~lock.log.csv#"), "");
  const AppendResult result = append_to_log(path, row(""));
  CHECK(result.outcome == Appended::added);
  CHECK(text(result) == path +
                            ": a spreadsheet seems to have the file open: reload it there before saving, or saving "
                            "takes the new row away\n");
}

TEST_CASE("four processes that append at once lose nothing") {
  constexpr int k_rows = 1000;
  const Folder folder;
  const std::string path = folder.file("log.csv");
  std::vector<pid_t> children;
  for (int process = 0; process < 4; ++process) {
    children.push_back(in_child([&] {
      for (int i = 0; i < k_rows; ++i) {
        if (append_to_log(path, row(fmt::format("{}-{}", process, i))).outcome != Appended::added) ::_exit(1);
      }
    }));
  }
  for (const pid_t child : children) CHECK(status_of(child) == 0);
  const auto read = logs::read(content(path));
  CHECK(read.texts() == std::vector<std::string>{});
  std::set<std::string> notes;
  for (const Sighting& sighting : read.log) notes.insert(sighting.note);
  CHECK(read.log.size() == 4 * k_rows);
  CHECK(notes.size() == 4 * k_rows);
}

TEST_CASE("a process killed while appending loses no row that was reported as added, and harms none") {
  constexpr int k_kills = 100;
  const Folder folder;
  const std::string path = folder.file("log.csv");
  std::set<std::string> reported;
  int pipe_ends[2];
  for (int kill = 0; kill < k_kills; ++kill) {
    REQUIRE(::pipe(pipe_ends) == 0);
    const pid_t child = in_child([&] {
      for (char i = 0;; ++i) {
        append_to_log(path, row(fmt::format("{}-{}", kill, static_cast<int>(i))));
        if (::write(pipe_ends[1], &i, 1) != 1) ::_exit(1);
      }
    });
    ::close(pipe_ends[1]);
    char first = 0;
    REQUIRE(::read(pipe_ends[0], &first, 1) == 1);
    ::usleep(static_cast<useconds_t>(kill * 37 % 1000));
    ::kill(child, SIGKILL);
    status_of(child);
    reported.insert(fmt::format("{}-{}", kill, static_cast<int>(first)));
    for (char i = 0; ::read(pipe_ends[0], &i, 1) == 1;)
      reported.insert(fmt::format("{}-{}", kill, static_cast<int>(i)));
    ::close(pipe_ends[0]);
  }
  CHECK(append_to_log(path, row("last")).outcome == Appended::added);
  const auto read = logs::read(content(path));
  CHECK(read.diagnostics.size() <= k_kills);  // at most one unfinished row a kill
  std::set<std::string> found;
  for (const Sighting& sighting : read.log) found.insert(sighting.note);
  CHECK(found.contains("last"));
  for (const std::string& note : reported) CHECK(found.contains(note));
  CHECK(reported.size() >= k_kills);
}

TEST_CASE("where there is no room for the whole row the old bytes stand") {
  const Folder folder;
  const std::string path = folder.file("log.csv");
  const std::string old = k_header + k_plain + "first\n";
  // A limit on the size of files stops a write in the middle, as a full disk does.
  for (std::size_t room = 0; room < 70; room += 7) {
    write(path, old);
    const pid_t child = in_child([&] {
      std::signal(SIGXFSZ, SIG_IGN);
      const rlimit limit{old.size() + room, old.size() + room};
      ::setrlimit(RLIMIT_FSIZE, &limit);
      const AppendResult result = append_to_log(path, row("second"));
      const bool said = text(result).find("cannot be written") != std::string::npos;
      ::_exit(result.outcome == Appended::failed && said ? 0 : 1);
    });
    INFO(room);
    CHECK(status_of(child) == 0);
    CHECK(content(path) == old);
  }
}

TEST_CASE("a new file that cannot be written does not stay behind") {
  const Folder folder;
  const std::string path = folder.file("log.csv");
  const pid_t child = in_child([&] {
    std::signal(SIGXFSZ, SIG_IGN);
    const rlimit limit{10, 10};
    ::setrlimit(RLIMIT_FSIZE, &limit);
    ::_exit(append_to_log(path, row("")).outcome == Appended::failed ? 0 : 1);
  });
  CHECK(status_of(child) == 0);
  CHECK(!std::filesystem::exists(path));
}

#include <budclock/files/file_set.hpp>

#include <catch2/catch.hpp>
#include <csignal>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <map>
#include <optional>
#include <stdexcept>
#include <sys/file.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

using namespace budclock;
using namespace budclock::files;

namespace {

constexpr const char* k_manifest = "manifest.txt";

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

  /// All files but the lock, by their names below the folder.
  std::map<std::string, std::string> content() const {
    std::map<std::string, std::string> all;
    for (const auto& entry : std::filesystem::recursive_directory_iterator{path_}) {
      if (!entry.is_regular_file() || entry.path().filename() == ".budclock-lock") continue;
      std::ifstream file{entry.path(), std::ios::binary};
      all[std::filesystem::relative(entry.path(), path_).string()] = {std::istreambuf_iterator<char>{file},
                                                                      std::istreambuf_iterator<char>{}};
    }
    return all;
  }

 private:
  std::filesystem::path path_;
};

using Files = std::map<std::string, std::string>;

/// Writes a set of files as a program does; the messages of what failed.
std::string write_set(const Folder& folder, const Files& files) {
  Diagnostics failures;
  FileSet set{folder.file(""), {"sub"}};
  if (set.open(LockMode::try_once, failures) == FileSet::Opened::ready) {
    std::vector<Staged> staged;
    for (auto file = files.rbegin(); file != files.rend(); ++file) {  // in another order than that of the manifest
      staged.push_back(set.stage(file->first, file->second));
    }
    failures = set.commit(staged, k_manifest);
  }
  std::string text;
  for (const Diagnostic& failure : failures) text += to_text(failure) + "\n";
  return text;
}

ino_t inode(const std::string& path) {
  struct stat status {};
  REQUIRE(::stat(path.c_str(), &status) == 0);
  return status.st_ino;
}

/// Runs `work` in a process of its own; its exit status, or 256 and the signal that ended it.
template <class Work>
int in_child(const Work& work) {
  const pid_t child = ::fork();
  if (child == 0) {
    work();
    ::_exit(0);
  }
  int status = 0;
  REQUIRE(::waitpid(child, &status, 0) == child);
  return WIFEXITED(status) ? WEXITSTATUS(status) : 256 + WTERMSIG(status);
}

}  // namespace

TEST_CASE("a checksum is that of cksum") {
  // As `printf TEXT | cksum` prints them.
  CHECK(cksum("") == 4294967295U);
  CHECK(cksum("a") == 1220704766U);
  CHECK(cksum("123456789") == 930766865U);
  // As `seq 1 1000 | head -c LENGTH | cksum` prints them: around a step of eight bytes, and of many steps.
  std::string numbers;
  for (int number = 1; number <= 1000; ++number) numbers += std::to_string(number) + "\n";
  const std::map<std::size_t, std::uint32_t> sums{{7, 2611926154U},
                                                  {8, 705197099U},
                                                  {9, 23393632U},
                                                  {15, 1952418059U},
                                                  {16, 3336706933U},
                                                  {17, 616733199U},
                                                  {numbers.size(), 1830648734U}};
  for (const auto& [length, sum] : sums) CHECK(cksum(numbers.substr(0, length)) == sum);
}

TEST_CASE("a set of files is written, and its manifest lists them by name") {
  const Folder folder;
  CHECK(write_set(folder, {{"sub/b", "123456789"}, {"a", "a"}}) == "");
  CHECK(folder.content() ==
        Files{{"a", "a"}, {"sub/b", "123456789"}, {k_manifest, "1220704766 1 a\n930766865 9 sub/b\n"}});
}

TEST_CASE("a file whose bytes are unchanged is not rewritten, another is a new file with the old rights") {
  const Folder folder;
  CHECK(write_set(folder, {{"same", "1"}, {"other", "1"}}) == "");
  REQUIRE(::chmod(folder.file("other").c_str(), 0600) == 0);
  const ino_t same = inode(folder.file("same"));
  const ino_t other = inode(folder.file("other"));
  const ino_t manifest = inode(folder.file(k_manifest));
  CHECK(write_set(folder, {{"same", "1"}, {"other", "1"}}) == "");
  CHECK(inode(folder.file(k_manifest)) == manifest);
  CHECK(write_set(folder, {{"same", "1"}, {"other", "2"}}) == "");
  CHECK(inode(folder.file("same")) == same);
  CHECK(inode(folder.file("other")) != other);
  struct stat status {};
  REQUIRE(::stat(folder.file("other").c_str(), &status) == 0);
  CHECK((status.st_mode & 0777) == 0600);
}

TEST_CASE("a file that is no longer in the set is removed, and one that never was stays") {
  const Folder folder;
  std::ofstream{folder.file("mine")} << "mine";
  CHECK(write_set(folder, {{"sub/old", "1"}, {"a", "1"}}) == "");
  CHECK(write_set(folder, {{"a", "1"}}) == "");
  CHECK(folder.content() == Files{{"a", "1"}, {"mine", "mine"}, {k_manifest, "433426081 1 a\n"}});
}

TEST_CASE("a manifest that was tampered with removes nothing outside the folder") {
  const Folder outer;
  REQUIRE(::mkdir(outer.file("set").c_str(), 0777) == 0);
  std::ofstream{outer.file("mine")} << "mine";
  std::ofstream{outer.file("set/manifest.txt")} << "1 1 ../mine\n1 1 " << outer.file("mine") << "\n";
  Diagnostics failures;
  FileSet set{outer.file("set"), {}};
  REQUIRE(set.open(LockMode::try_once, failures) == FileSet::Opened::ready);
  CHECK(set.commit({}, k_manifest).empty());
  CHECK(outer.content().at("mine") == "mine");
}

TEST_CASE("what is staged and not committed is removed") {
  const Folder folder;
  CHECK(write_set(folder, {{"a", "old"}}) == "");
  const Files before = folder.content();
  {
    Diagnostics failures;
    FileSet set{folder.file(""), {}};
    REQUIRE(set.open(LockMode::try_once, failures) == FileSet::Opened::ready);
    CHECK(set.stage("a", "new").changed);
    CHECK(folder.content().contains(".a.budclock-new"));
  }
  CHECK(folder.content() == before);
}

TEST_CASE("what a killed run left is removed by the next") {
  const Folder folder;
  CHECK(write_set(folder, {{"sub/a", "old"}}) == "");
  const Files before = folder.content();
  const int ended = in_child([&] {
    Diagnostics failures;
    FileSet set{folder.file(""), {"sub"}};
    set.open(LockMode::try_once, failures);
    set.stage("sub/a", "new");
    ::raise(SIGKILL);
  });
  CHECK(ended == 256 + SIGKILL);
  CHECK(folder.content().size() == before.size() + 1);
  Diagnostics failures;
  FileSet next{folder.file(""), {"sub"}};
  REQUIRE(next.open(LockMode::try_once, failures) == FileSet::Opened::ready);
  CHECK(folder.content() == before);
}

TEST_CASE("a second writer is told that another run holds the folder, and a killed one holds it no longer") {
  const Folder folder;
  {
    Diagnostics failures;
    FileSet set{folder.file(""), {"sub"}};
    REQUIRE(set.open(LockMode::try_once, failures) == FileSet::Opened::ready);
    const int second = in_child([&] {
      Diagnostics told;
      FileSet other{folder.file(""), {"sub"}};
      ::_exit(other.open(LockMode::try_once, told) == FileSet::Opened::held && told.size() == 1 ? 0 : 1);
    });
    CHECK(second == 0);
  }
  CHECK(write_set(folder, {{"a", "1"}}) == "");
}

TEST_CASE("where the disk is full all old files stand, no other is left, and the reason is told") {
  const Folder folder;
  const Files old{{"a", std::string(3000, 'a')}, {"sub/b", std::string(3000, 'b')}};
  CHECK(write_set(folder, old) == "");
  const Files before = folder.content();
  for (const std::size_t room : {0U, 1U, 2999U, 4000U}) {
    INFO(room);
    // A limit on the size of files stops a write in the middle, as a full disk does.
    const int ended = in_child([&] {
      std::signal(SIGXFSZ, SIG_IGN);
      const rlimit limit{room, room};
      ::setrlimit(RLIMIT_FSIZE, &limit);
      const std::string said = write_set(folder, {{"a", "small"}, {"sub/b", std::string(5000, 'c')}});
      const std::string wanted = folder.file("sub/b") + ": cannot be written: File too large: make room";
      ::_exit(said.find(wanted) != std::string::npos ? 0 : 1);
    });
    CHECK(ended == 0);
    CHECK(folder.content() == before);
  }
}

TEST_CASE("a file that finds no room is not left half under its temporary name") {
  const Folder folder;
  const int ended = in_child([&] {
    std::signal(SIGXFSZ, SIG_IGN);
    const rlimit limit{8, 8};
    ::setrlimit(RLIMIT_FSIZE, &limit);
    Diagnostics failures;
    FileSet set{folder.file(""), {}};
    set.open(LockMode::try_once, failures);
    ::_exit(set.stage("a", "more than there is room for").failure && folder.content().empty() ? 0 : 1);
  });
  CHECK(ended == 0);
}

TEST_CASE("a manifest that finds no room leaves all old files") {
  const Folder folder;
  CHECK(write_set(folder, {{"a", "old"}}) == "");
  const Files before = folder.content();
  const int ended = in_child([&] {
    std::signal(SIGXFSZ, SIG_IGN);
    const rlimit limit{8, 8};
    ::setrlimit(RLIMIT_FSIZE, &limit);
    ::_exit(write_set(folder, {{"a", "new"}}).find(k_manifest) != std::string::npos ? 0 : 1);
  });
  CHECK(ended == 0);
  CHECK(folder.content() == before);
}

TEST_CASE("a file that cannot get its name is told, and no manifest is written") {
  const Folder folder;
  std::filesystem::create_directories(folder.file("a/in the way"));
  CHECK(write_set(folder, {{"a", "1"}}) ==
        folder.file("a") + ": cannot be replaced: Is a directory: check the folder and its rights\n");
  CHECK(folder.content().empty());
}

TEST_CASE("a folder that cannot be made is an error") {
  const Folder folder;
  std::ofstream{folder.file("file")} << "1";
  Diagnostics failures;
  FileSet set{folder.file("file/set"), {}};
  CHECK(set.open(LockMode::try_once, failures) == FileSet::Opened::failed);
  REQUIRE(failures.size() == 1);
  CHECK(to_text(failures[0]) ==
        folder.file("file/set/") + ": the folder cannot be made: Not a directory: check the folder and its rights");
}

TEST_CASE("a file that comes in pieces is the same as one that comes whole, also where the old one begins alike") {
  const std::string block(70'000, 'a');  // more than is held back
  const std::vector<std::string> pieces{"head\n", block, "", block, "tail\n"};
  std::string whole;
  for (const std::string& piece : pieces) whole += piece;
  const auto write = [&](const Sink& out) {
    for (const std::string& piece : pieces) out(piece);
  };
  std::string other_end = whole;
  other_end.back() = 'x';
  for (const std::string& old :
       {std::string{}, whole.substr(0, 100'000), other_end, whole + "more", "x" + whole, whole}) {
    const Folder folder;
    CHECK(write_set(folder, {{"a", old}}) == "");
    FileSet set{folder.file(""), {}};
    Diagnostics none;
    REQUIRE(set.open(LockMode::try_once, none) == FileSet::Opened::ready);
    const Staged staged = set.stage("a", write);
    CHECK(staged.changed == (old != whole));
    CHECK(staged.checksum == cksum(whole));
    CHECK(staged.size == whole.size());
    CHECK(set.commit({&staged, 1}, k_manifest).empty());
    CHECK(folder.content().at("a") == whole);
  }
}

TEST_CASE("a file whose making fails on the way leaves the old one, and nothing else") {
  const Folder folder;
  CHECK(write_set(folder, {{"a", "old"}}) == "");
  FileSet set{folder.file(""), {}};
  Diagnostics none;
  REQUIRE(set.open(LockMode::try_once, none) == FileSet::Opened::ready);
  const auto write = [](const Sink& out) {
    out(std::string(200'000, 'n'));
    throw std::runtime_error{"no more"};
  };
  CHECK_THROWS(set.stage("a", write));
  CHECK(folder.content().at("a") == "old");
  CHECK_FALSE(std::filesystem::exists(folder.file(".a.budclock-new")));
}

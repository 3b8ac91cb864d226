#include <budclock/files/open_file.hpp>

#include <catch2/catch.hpp>
#include <cerrno>
#include <fcntl.h>
#include <utility>

using namespace budclock::files;

TEST_CASE("a file that is not there says why") {
  std::string text;
  CHECK(read_file("/no/such/file", text) == ENOENT);
  CHECK(reason(ENOENT) == "No such file or directory");
  CHECK(read_file("/", text) == EISDIR);
  CHECK(lock(OpenFile{"/no/such/file", O_RDONLY}, LockMode::wait) == ENOENT);
}

TEST_CASE("a descriptor is closed once, and not handed on") {
  OpenFile first{"/dev/null", O_RDONLY};
  const int descriptor = first.get();
  CHECK((::fcntl(descriptor, F_GETFD) & FD_CLOEXEC) != 0);
  {
    const OpenFile second = std::move(first);
    CHECK(second.get() == descriptor);
    CHECK(!first.is_open());
  }
  CHECK(::fcntl(descriptor, F_GETFD) == -1);
}

TEST_CASE("the folder of a path ends with a slash") {
  CHECK(folder_of("a/b") == "a/");
  CHECK(folder_of("/b") == "/");
  CHECK(folder_of("b") == "./");
}

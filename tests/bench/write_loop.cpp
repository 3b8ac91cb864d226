// Yardstick: writes the files of a folder anew, the way `nightly` writes its own, and does nothing else: each under a
// name to wait under, forced to the disk; when all are, each gets its name, and the folders are forced to the disk.
// usage: write_loop FROM TO     prints the seconds, without those in which FROM is read; TO must not be there yet
#include <chrono>
#include <cstdio>
#include <fcntl.h>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <set>
#include <string>
#include <unistd.h>
#include <vector>

namespace fs = std::filesystem;

namespace {

struct File {
  fs::path path;
  std::string bytes;
};

std::vector<File> read_all(const fs::path& from, const fs::path& to) {
  std::vector<File> files;
  for (const auto& entry : fs::recursive_directory_iterator{from}) {
    if (!entry.is_regular_file()) continue;
    std::ifstream in{entry.path(), std::ios::binary};
    files.push_back({to / fs::relative(entry.path(), from), std::string{std::istreambuf_iterator<char>{in}, {}}});
  }
  return files;
}

std::string waiting(const fs::path& path) { return path.string() + ".new"; }

bool write_new(const File& file) {
  const int descriptor = open(waiting(file.path).c_str(), O_WRONLY | O_CREAT | O_EXCL, 0666);
  const auto size = static_cast<ssize_t>(file.bytes.size());
  const bool done =
      descriptor >= 0 && write(descriptor, file.bytes.data(), file.bytes.size()) == size && fsync(descriptor) == 0;
  close(descriptor);
  return done;
}

bool force(const fs::path& folder) {
  const int descriptor = open(folder.c_str(), O_RDONLY | O_DIRECTORY);
  const bool done = descriptor >= 0 && fsync(descriptor) == 0;
  close(descriptor);
  return done;
}

bool write_all(const std::vector<File>& files) {
  std::set<fs::path> folders;
  for (const File& file : files) {
    if (folders.insert(file.path.parent_path()).second) fs::create_directories(file.path.parent_path());
    if (!write_new(file)) return false;
  }
  for (const File& file : files) {
    if (std::rename(waiting(file.path).c_str(), file.path.c_str()) != 0) return false;
  }
  for (const fs::path& folder : folders) {
    if (!force(folder)) return false;
  }
  return true;
}

}  // namespace

int main(int argc, char** argv) {
  if (argc != 3) return 2;
  const std::vector<File> files = read_all(argv[1], argv[2]);
  const auto begin = std::chrono::steady_clock::now();
  if (!write_all(files)) return 1;
  std::printf("%.6f\n", std::chrono::duration<double>(std::chrono::steady_clock::now() - begin).count());
}

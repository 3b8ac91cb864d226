// Runs of the program in which the k-th allocation fails: once, or from then on.
//   usage: allocation_failures EXAMPLES-FOLDER [RUNS]
// Of each command about RUNS allocations are tried, evenly spread (all of them with 0), each in both ways. The program
// must end with a documented status, say that memory ran out or which site it ran out for, and leave each file as it
// was or as it is to be: none half-written, and none under a temporary name where memory came back.
#include <budclock/files/file_set.hpp>

#include "../../src/cli/messages.hpp"
#include "../../src/cli/run.hpp"

#include <array>
#include <atomic>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <iterator>
#include <map>
#include <new>
#include <sstream>
#include <streambuf>
#include <string>
#include <sys/mman.h>
#include <sys/wait.h>
#include <unistd.h>
#include <vector>

namespace {

constexpr long k_never = -1;
std::atomic<long> g_left{k_never};    // allocations until one fails
std::atomic<bool> g_for_good{false};  // all after it fail, too
std::atomic<long> g_counted{0};

bool fails_now() {
  ++g_counted;
  if (g_left.load() == k_never) return false;
  const long left = g_left.fetch_sub(1);
  if (left > 1) return false;
  if (left == 1) return true;
  if (g_for_good) return true;
  g_left = k_never;
  return false;
}

}  // namespace

void* operator new(std::size_t size) {
  if (fails_now()) throw std::bad_alloc{};
  if (void* memory = std::malloc(size == 0 ? 1 : size)) return memory;
  throw std::bad_alloc{};
}
void operator delete(void* memory) noexcept { std::free(memory); }
void operator delete(void* memory, std::size_t) noexcept { std::free(memory); }

namespace {

namespace fs = std::filesystem;
using budclock::cli::Environment;

/// Takes text without allocating; what does not fit is lost.
class FixedBuffer : public std::streambuf {
 public:
  FixedBuffer() { clear(); }
  void clear() { setp(bytes_.data(), bytes_.data() + bytes_.size()); }
  std::string text() const { return {pbase(), pptr()}; }

 protected:
  int_type overflow(int_type) override { return 0; }

 private:
  std::array<char, 1 << 18> bytes_{};
};

using Files = std::map<std::string, std::string>;

std::string content(const fs::path& path) {
  std::ifstream file{path, std::ios::binary};
  return {std::istreambuf_iterator<char>{file}, std::istreambuf_iterator<char>{}};
}

Files files_of(const fs::path& folder) {
  Files files;
  for (const auto& entry : fs::recursive_directory_iterator{folder}) {
    const std::string name = fs::relative(entry.path(), folder).string();
    if (entry.is_regular_file() && !name.ends_with("lock")) files[name] = content(entry.path());
  }
  return files;
}

struct Run {
  int status = 0;
  std::string out, err;
  long allocations = 0;
};

struct Scenario {
  std::string name;
  fs::path before;
  std::vector<std::string> arguments;
};

/// What a run in a process of its own hands back.
struct Shared {
  FixedBuffer out, err;
  long allocations = 0;
};

/// As main does it.
int run_here(const std::vector<std::string>& arguments, long failing, bool for_good, Shared& shared) {
  std::set_terminate(budclock::cli::end_without_memory);
  std::ostream out{&shared.out}, err{&shared.err};
  Environment environment{std::cin, out, err, *budclock::make_day(2014, 12, 31), 80};
  budclock::cli::ExitStatus status = budclock::cli::ExitStatus::no_answer;
  g_for_good = for_good;
  g_counted = 0;
  g_left = failing;
  try {
    status = budclock::cli::run(arguments, environment);
  } catch (const std::bad_alloc&) {
    err << budclock::cli::k_no_memory;
  }
  g_left = k_never;
  shared.allocations = g_counted;
  return static_cast<int>(status);
}

/// In a process of its own, which may end anywhere.
Run run(const std::vector<std::string>& arguments, long failing, bool for_good) {
  static void* const memory =
      ::mmap(nullptr, sizeof(Shared), PROT_READ | PROT_WRITE, MAP_SHARED | MAP_ANONYMOUS, -1, 0);
  auto* const shared = new (memory) Shared;
  const fs::path messages = fs::temp_directory_path() / ("budclock-messages-" + std::to_string(::getpid()));
  const pid_t child = ::fork();
  if (child == 0) {
    if (std::freopen(messages.c_str(), "w", stderr) == nullptr) ::_exit(99);
    ::_exit(run_here(arguments, failing, for_good, *shared));
  }
  int ended = 0;
  ::waitpid(child, &ended, 0);
  Run result{WIFEXITED(ended) ? WEXITSTATUS(ended) : -WTERMSIG(ended), shared->out.text(),
             shared->err.text() + content(messages), shared->allocations};
  fs::remove(messages);
  return result;
}

/// The files are those of the manifest, byte for byte.
bool fits_manifest(const Files& files) {
  std::istringstream manifest{files.at("out/manifest.txt")};
  std::uint32_t sum = 0;
  std::size_t size = 0;
  for (std::string name; manifest >> sum >> size >> name;) {
    const auto file = files.find("out/" + name);
    if (file == files.end() || file->second.size() != size || budclock::files::cksum(file->second) != sum) return false;
  }
  return manifest.eof();
}

/// What is wrong with how a run ended; empty: nothing.
std::string complaint(const Run& met, const Run& good, const Files& now, const Files& old, const Files& after) {
  if (met.status < 0 || met.status > 5) return "ended by a signal, or a status that is not documented: " + met.err;
  const bool healthy = met.status == good.status && met.out == good.out && now == after;
  if (healthy) return {};
  if (met.err.find("not enough memory") == std::string::npos) return "no message says that memory ran out: " + met.err;
  if (now == old || now == after) return {};
  // Sites may have failed for want of memory: their reports say so, and the set is whole.
  if (now.contains("out/manifest.txt") && fits_manifest(now)) return {};
  std::string different;
  for (const auto& [name, bytes] : now) {
    const bool is_old = old.contains(name) && old.at(name) == bytes;
    const bool is_new = after.contains(name) && after.at(name) == bytes;
    if (!is_old && !is_new && !name.ends_with(".budclock-new")) different += " " + name;
    if (name.ends_with(".budclock-new") && met.status != 3) different += " " + name;
  }
  return different.empty() ? std::string{} : "neither of before nor of after:" + different;
}

void write(const fs::path& path, const std::string& text) { std::ofstream{path, std::ios::binary} << text; }

std::vector<Scenario> make_scenarios(const fs::path& folder, const fs::path& examples) {
  const fs::path practice = folder / "practice";
  fs::create_directories(practice);
  std::ifstream record{examples / "weather" / "wooster_oh_1985-2014.csv"};
  std::string text;
  for (std::string line; std::getline(record, line);) {
    if (line.starts_with("date") || line.starts_with("2011") || line.starts_with("2012")) text += line + "\n";
  }
  write(practice / "record.csv", text);
  write(practice / "sites.csv",
        "name,latitude,longitude,weather,plants\nMill Lane,40.78,-81.92,record.csv,boxwood\n"
        "Elm Court,40.78,-81.92,record.csv,hackberry\n");
  const std::vector<std::string> common{"--sites", "sites.csv", "--today", "2012-04-10"};
  const auto with_common = [&](std::vector<std::string> arguments) {
    arguments.insert(arguments.end(), common.begin(), common.end());
    return arguments;
  };
  const auto nightly = with_common({"nightly", "boxwood", "hackberry bud", "--out", "out", "--jobs", "1", "--due",
                                    "--format", "text,html,csv,json"});
  const fs::path second = folder / "second";
  fs::copy(practice, second, fs::copy_options::recursive);
  fs::current_path(second);
  run(nightly, k_never, false);
  auto next_day = nightly;
  next_day.back() = "2012-04-11";
  auto threads = next_day;
  *std::find(threads.begin(), threads.end(), "1") = "2";
  return {{"nightly, the first day", practice, nightly},
          {"nightly, the second day", second, next_day},
          {"nightly, two threads", second, threads},
          {"when", practice, with_common({"when", "boxwood", "--site", "Mill Lane", "--why"})},
          {"seen", practice, with_common({"seen", "--site", "Mill Lane", "--pest", "boxwood", "--saw", "nymphs"})},
          {"did", practice, with_common({"did", "--site", "Mill Lane", "--pest", "boxwood", "--action", "prune"})}};
}

/// Tries one command; how many runs there were, and how many of them were not clean.
std::pair<long, long> try_all(const Scenario& scenario, const fs::path& work, long runs) {
  const auto renew = [&] {
    fs::current_path(work.parent_path());
    fs::remove_all(work);
    fs::copy(scenario.before, work, fs::copy_options::recursive);
    fs::current_path(work);
  };
  renew();
  const Files old = files_of(work);
  const Run good = run(scenario.arguments, k_never, false);
  const long allocations = good.allocations;
  const Files after = files_of(work);
  const long step = runs == 0 ? 1 : std::max(1L, allocations / runs);
  long tried = 0, unclean = 0;
  for (long failing = 1; failing <= allocations; failing += step) {
    for (const bool for_good : {false, true}) {
      renew();
      std::fprintf(stderr, "%s: allocation %ld%s\r", scenario.name.c_str(), failing, for_good ? " and on" : "       ");
      const Run met = run(scenario.arguments, failing, for_good);
      std::string wrong = complaint(met, good, files_of(work), old, after);
      const Run again = run(scenario.arguments, k_never, false);
      if (wrong.empty() && again.status > 1) wrong = "the run after it: " + again.err;
      if (wrong.empty() && files_of(work) != after) wrong = "after a good run the files are others";
      ++tried;
      if (wrong.empty()) continue;
      ++unclean;
      std::printf("FAILED: %s, allocation %ld%s, status %d: %s\n", scenario.name.c_str(), failing,
                  for_good ? " and on" : "", met.status, wrong.c_str());
    }
  }
  std::fprintf(stderr, "%60s\r", "");
  std::printf("%s: %ld allocations, %ld runs\n", scenario.name.c_str(), allocations, tried);
  std::fflush(stdout);
  return {tried, unclean};
}

}  // namespace

int main(int argc, char** argv) {
  const long runs = argc > 2 ? std::atol(argv[2]) : 0;
  const fs::path examples = fs::absolute(argv[1]);
  std::string name = (fs::temp_directory_path() / "budclock-XXXXXX").string();
  if (::mkdtemp(name.data()) == nullptr) return 1;
  const fs::path folder{name};
  long tried = 0, unclean = 0;
  for (const Scenario& scenario : make_scenarios(folder, examples)) {
    const auto [runs_of_it, unclean_of_it] = try_all(scenario, folder / "work", runs);
    tried += runs_of_it;
    unclean += unclean_of_it;
  }
  fs::current_path(folder.parent_path());
  fs::remove_all(folder);
  std::printf("%ld failed allocations, %ld clean exits\n", tried, tried - unclean);
  return unclean == 0 && tried > 0 ? 0 : 1;
}

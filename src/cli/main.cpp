#include <budclock/core/date.hpp>

#include "messages.hpp"
#include "run.hpp"

#include <algorithm>
#include <cstdlib>
#include <ctime>
#include <exception>
#include <iostream>
#include <new>
#include <string>
#include <sys/ioctl.h>
#include <unistd.h>
#ifdef __GLIBC__
#include <malloc.h>
#endif

namespace {

budclock::Day local_today() {
  const std::time_t now = std::time(nullptr);
  std::tm local{};
  localtime_r(&now, &local);
  return budclock::make_day(local.tm_year + 1900, static_cast<unsigned>(local.tm_mon) + 1,
                            static_cast<unsigned>(local.tm_mday))
      .value_or(budclock::Day{});
}

bool is_set(const char* variable) {
  const char* value = std::getenv(variable);
  return value != nullptr && *value != '\0';
}

std::string value_of(const char* variable) { return is_set(variable) ? std::getenv(variable) : ""; }

std::size_t terminal_width() {
  winsize size{};
  const bool known = ioctl(STDOUT_FILENO, TIOCGWINSZ, &size) == 0 && size.ws_col > 0;
  return known ? std::clamp<std::size_t>(size.ws_col, 40, 110) : 80;
}

/// Keeps freed memory for the next station or site, which needs as much again: given back, it would come as new pages
/// each time, and those cost an eighth of a long run. Blocks of 4 MB and more are given back.
void keep_freed_memory() {
#ifdef __GLIBC__
  mallopt(M_MMAP_THRESHOLD, 4 << 20);
  mallopt(M_TRIM_THRESHOLD, 16 << 20);
#endif
}

}  // namespace

int main(int argc, char** argv) try {
  std::set_terminate(budclock::cli::end_without_memory);
  keep_freed_memory();
  std::ios::sync_with_stdio(false);
  const bool terminal = isatty(STDOUT_FILENO) == 1;
  const char* type = std::getenv("TERM");
  const bool dumb = type != nullptr && std::string{type} == "dumb";
  budclock::cli::Environment environment{.in = std::cin,
                                         .out = std::cout,
                                         .err = std::cerr,
                                         .today = local_today(),
                                         .width = terminal ? terminal_width() : 80,
                                         .progress = isatty(STDERR_FILENO) == 1 && !dumb,
                                         .colour = terminal && !dumb && !is_set("NO_COLOR"),
                                         .sites_file = value_of("BUDCLOCK_SITES"),
                                         .log_file = value_of("BUDCLOCK_LOG"),
                                         .actions_file = value_of("BUDCLOCK_ACTIONS")};
  return static_cast<int>(budclock::cli::run({argv + 1, argv + argc}, environment));
} catch (const std::bad_alloc&) {
  std::cerr << budclock::cli::k_no_memory;
  return static_cast<int>(budclock::cli::ExitStatus::no_answer);
}

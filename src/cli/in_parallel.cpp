#include "in_parallel.hpp"

#include <algorithm>
#include <atomic>
#include <exception>
#include <mutex>
#include <system_error>
#include <thread>
#include <vector>

namespace budclock::cli {

void in_parallel(int jobs, std::size_t count, const std::function<void(std::size_t)>& work) {
  std::atomic<std::size_t> next{0};
  std::mutex mutex;
  std::exception_ptr broken;  // it must not leave its thread
  const auto take_turns = [&] {
    try {
      for (std::size_t number = next++; number < count; number = next++) work(number);
    } catch (...) {
      next = count;
      const std::lock_guard guard{mutex};
      if (!broken) broken = std::current_exception();
    }
  };
  std::vector<std::jthread> threads;
  for (std::size_t job = 1; job < std::min(static_cast<std::size_t>(jobs), count); ++job) {
    try {
      threads.emplace_back(take_turns);
    } catch (const std::system_error&) {
      break;  // the machine has no more threads to give: go on with those there are
    }
  }
  take_turns();
  threads.clear();  // waits for them
  if (broken) std::rethrow_exception(broken);
}

}  // namespace budclock::cli

// Work that other threads do.
#pragma once

#include <condition_variable>
#include <deque>
#include <future>
#include <mutex>
#include <thread>
#include <type_traits>
#include <utility>
#include <vector>

namespace budclock {

/// Some threads that take up work in the order in which it is put. Whoever waits for the results in that order too, and
/// not for more at a time than `most_under_way`, gets bounded memory and results in order.
class ThreadPool {
 public:
  explicit ThreadPool(int threads) : most_under_way_{2 * static_cast<std::size_t>(threads)} {
    for (int i = 0; i < threads; ++i) threads_.emplace_back([this] { run(); });
  }
  /// Waits for what is being worked on; what nobody has begun is dropped.
  ~ThreadPool() {
    const std::lock_guard lock{mutex_};
    closed_ = true;
    changed_.notify_all();
  }
  ThreadPool(const ThreadPool&) = delete;
  ThreadPool& operator=(const ThreadPool&) = delete;

  /// Enough to keep all threads at work.
  std::size_t most_under_way() const { return most_under_way_; }

  /// The result of `work` to come, or what it throws.
  template <class Work>
  std::future<std::invoke_result_t<Work&>> put(Work&& work) {
    std::packaged_task<std::invoke_result_t<Work&>()> task{std::forward<Work>(work)};
    auto result = task.get_future();
    const std::lock_guard lock{mutex_};
    tasks_.emplace_back(std::move(task));
    changed_.notify_one();
    return result;
  }

 private:
  void run() {
    std::unique_lock lock{mutex_};
    for (;;) {
      changed_.wait(lock, [&] { return closed_ || !tasks_.empty(); });
      if (closed_) return;
      std::packaged_task<void()> task = std::move(tasks_.front());
      tasks_.pop_front();
      lock.unlock();
      task();
      lock.lock();
    }
  }

  const std::size_t most_under_way_;
  std::mutex mutex_;
  std::condition_variable changed_;
  std::deque<std::packaged_task<void()>> tasks_;
  bool closed_ = false;
  std::vector<std::jthread> threads_;  // the last member: they use the others
};

}  // namespace budclock

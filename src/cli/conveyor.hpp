// Work that is handed over to other threads, its results in the order in which it was handed over.
#pragma once

#include <condition_variable>
#include <cstddef>
#include <deque>
#include <exception>
#include <functional>
#include <map>
#include <mutex>
#include <thread>
#include <utility>
#include <vector>

namespace budclock::cli {

/// `work` turns items into results in several threads at once; `deliver` gets the results one at a time, in the order
/// of the items.
template <class Item, class Result>
class Conveyor {
 public:
  Conveyor(int threads, std::function<Result(Item&&)> work, std::function<void(Result&&)> deliver)
      : work_{std::move(work)}, deliver_{std::move(deliver)}, most_{2 * static_cast<std::size_t>(threads)} {
    for (int i = 0; i < threads; ++i) threads_.emplace_back([this] { run(); });
  }
  ~Conveyor() { close(); }
  Conveyor(const Conveyor&) = delete;
  Conveyor& operator=(const Conveyor&) = delete;

  /// Waits while many items are not delivered yet, so that memory stays bounded.
  void put(Item&& item) {
    std::unique_lock lock{mutex_};
    changed_.wait(lock, [&] { return put_ - delivered_ < most_; });
    items_.push_back(std::move(item));
    ++put_;
    changed_.notify_all();
  }

  /// Waits for the last result. Throws what was thrown at work; nothing is delivered after that.
  void finish() {
    close();
    threads_.clear();
    if (failure_) std::rethrow_exception(failure_);
  }

 private:
  void close() {
    const std::lock_guard lock{mutex_};
    closed_ = true;
    changed_.notify_all();
  }

  void run() {
    std::unique_lock lock{mutex_};
    for (;;) {
      changed_.wait(lock, [&] { return closed_ || !items_.empty(); });
      if (items_.empty()) return;
      Item item = std::move(items_.front());
      items_.pop_front();
      const std::size_t place = taken_++;
      lock.unlock();
      std::function<void()> hand_on = result_of(std::move(item));
      lock.lock();
      done_.emplace(place, std::move(hand_on));
      deliver_in_order();
      changed_.notify_all();
    }
  }

  std::function<void()> result_of(Item&& item) {
    try {
      return [this, result = work_(std::move(item))]() mutable { deliver_(std::move(result)); };
    } catch (...) {
      return [thrown = std::current_exception()] { std::rethrow_exception(thrown); };
    }
  }

  void deliver_in_order() {
    for (auto next = done_.begin(); next != done_.end() && next->first == delivered_; next = done_.begin()) {
      try {
        if (!failure_) next->second();
      } catch (...) {
        failure_ = std::current_exception();
      }
      done_.erase(next);
      ++delivered_;
    }
  }

  const std::function<Result(Item&&)> work_;
  const std::function<void(Result&&)> deliver_;
  const std::size_t most_;
  std::mutex mutex_;
  std::condition_variable changed_;
  std::deque<Item> items_;
  std::map<std::size_t, std::function<void()>> done_;  ///< by place; before their turn
  std::size_t put_ = 0;
  std::size_t taken_ = 0;
  std::size_t delivered_ = 0;
  bool closed_ = false;
  std::exception_ptr failure_;
  std::vector<std::jthread> threads_;  // the last member: they use the others
};

}  // namespace budclock::cli

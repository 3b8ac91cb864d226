#include <budclock/core/thread_pool.hpp>

#include <catch2/catch.hpp>
#include <chrono>
#include <deque>
#include <stdexcept>
#include <vector>

using budclock::ThreadPool;

TEST_CASE("results are waited for in the order of the work, however long each takes") {
  ThreadPool pool{3};
  std::deque<std::future<int>> under_way;
  std::vector<int> wanted;
  std::vector<int> results;
  for (int i = 0; i < 50; ++i) {
    under_way.push_back(pool.put([i] {
      std::this_thread::sleep_for(std::chrono::microseconds{i % 3 == 0 ? 2000 : 0});
      return 10 * i;
    }));
    wanted.push_back(10 * i);
  }
  for (auto& result : under_way) results.push_back(result.get());
  CHECK(results == wanted);
}

TEST_CASE("what work throws is thrown where its result is waited for, and the rest goes on") {
  ThreadPool pool{2};
  auto broken = pool.put([]() -> int { throw std::runtime_error{"broken"}; });
  auto whole = pool.put([] { return 1; });
  CHECK_THROWS_WITH(broken.get(), "broken");
  CHECK(whole.get() == 1);
}

TEST_CASE("several threads work at the same time") {
  ThreadPool pool{2};
  std::promise<void> first, second;
  auto one = pool.put([&] {
    first.set_value();
    return second.get_future().wait_for(std::chrono::seconds{20});
  });
  auto two = pool.put([&] {
    second.set_value();
    return first.get_future().wait_for(std::chrono::seconds{20});
  });
  CHECK(one.get() == std::future_status::ready);
  CHECK(two.get() == std::future_status::ready);
}

TEST_CASE("a pool that ends drops what nobody has begun") {
  std::promise<void> go;
  std::future<void> dropped;
  std::jthread later{[&] {
    std::this_thread::sleep_for(std::chrono::milliseconds{20});
    go.set_value();
  }};
  {
    ThreadPool pool{1};
    std::promise<void> begun;
    pool.put([&] {
      begun.set_value();
      go.get_future().wait();
    });
    dropped = pool.put([] {});
    begun.get_future().wait();
  }
  CHECK_THROWS_AS(dropped.get(), std::future_error);
}

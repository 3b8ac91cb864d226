#include "../../../src/cli/conveyor.hpp"

#include <catch2/catch.hpp>
#include <chrono>
#include <stdexcept>
#include <vector>

using budclock::cli::Conveyor;

TEST_CASE("results come in the order of the items, however long each takes") {
  std::vector<int> results;
  Conveyor<int, int> conveyor{3,
                              [](int&& item) {
                                std::this_thread::sleep_for(std::chrono::microseconds{item % 3 == 0 ? 2000 : 0});
                                return 10 * item;
                              },
                              [&](int&& result) { results.push_back(result); }};
  std::vector<int> wanted;
  for (int item = 0; item < 50; ++item) {
    conveyor.put(int{item});
    wanted.push_back(10 * item);
  }
  conveyor.finish();
  CHECK(results == wanted);
}

TEST_CASE("a failure at work is thrown at the end, and nothing after it is delivered") {
  std::vector<int> results;
  Conveyor<int, int> conveyor{2,
                              [](int&& item) {
                                if (item == 3) throw std::runtime_error{"broken"};
                                return item;
                              },
                              [&](int&& result) { results.push_back(result); }};
  for (int item = 0; item < 20; ++item) conveyor.put(int{item});
  CHECK_THROWS_WITH(conveyor.finish(), "broken");
  CHECK(results == std::vector<int>{0, 1, 2});
}

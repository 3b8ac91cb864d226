#include <budclock/core/nearest.hpp>

#include <catch2/catch.hpp>

using namespace budclock;

TEST_CASE("the nearest name is the one with the fewest letters changed, added, left out or swapped") {
  const std::vector<std::string_view> names{"average", "average-clipped", "single-sine", "double-sine"};
  CHECK(nearest_name("averge", names) == "average");
  CHECK(nearest_name("avreage", names) == "average");
  CHECK(nearest_name("Single-Sin", names) == "single-sine");
  CHECK(nearest_name("dubble-sine", names) == "double-sine");
  CHECK(nearest_name("average-cliped", names) == "average-clipped");
}

TEST_CASE("a name like none has no nearest") {
  CHECK_FALSE(nearest_name("hemlock", {"average", "single-sine"}));
  CHECK_FALSE(nearest_name("", {"a"}));
  CHECK_FALSE(nearest_name("average", {}));
  CHECK_FALSE(nearest_name(std::string(1000, 'a'), {std::string_view{"a"}}));
}

TEST_CASE("short names are offered for one wrong letter only") {
  CHECK(nearest_name("C", {"F"}) == "F");
  CHECK(nearest_name("dat", {"date"}) == "date");
  CHECK_FALSE(nearest_name("xy", {"ab"}));
}

TEST_CASE("of two equally near names the first is offered") {
  CHECK(nearest_name("bat", {"cat", "hat"}) == "cat");
  CHECK(nearest_name("bat", {"hat", "cat"}) == "hat");
}

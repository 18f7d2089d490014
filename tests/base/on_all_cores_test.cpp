// The outcome of work shared among threads is that of one thread.
#include "base/on_all_cores.hpp"
#include "support/catch.hpp"

#include <chrono>
#include <stdexcept>
#include <string>
#include <thread>
#include <vector>

using namespace underprop;

TEST_CASE("Every piece of work is done once, whatever the number of threads", "[law]") {
  for (const std::size_t threads : {1U, 2U, 3U, 9U}) {
    std::vector<int> done(100, 0);
    on_all_cores(
        done.size(), [&](std::size_t k) { ++done[k]; }, threads);
    CHECK(done == std::vector<int>(100, 1));
  }
  CHECK_NOTHROW(on_all_cores(0, [](std::size_t) { throw std::logic_error("none"); }));
}

TEST_CASE("The fault of the lowest number is told, not the one that came first", "[law]") {
  for (const std::size_t threads : {1U, 2U, 4U}) {
    std::string told;
    try {
      on_all_cores(
          8,
          [](std::size_t k) {
            // The lower of the two is the slower.
            if (k == 0) std::this_thread::sleep_for(std::chrono::milliseconds(30));
            if (k <= 1) throw std::runtime_error(std::to_string(k));
          },
          threads);
    } catch (const std::runtime_error& fault) {
      told = fault.what();
    }
    CHECK(told == "0");
  }
}

TEST_CASE("The lowest number that is sought is found, and a fault above it does not matter",
          "[law]") {
  for (const std::size_t threads : {1U, 2U, 4U}) {
    const auto found = first_on_all_cores(
        50,
        [](std::size_t k) {
          if (k == 3) std::this_thread::sleep_for(std::chrono::milliseconds(30));
          if (k == 4) throw std::runtime_error("above");
          return k == 3 || k > 10;
        },
        threads);
    CHECK(found == 3);
  }
  CHECK(first_on_all_cores(5, [](std::size_t) { return false; }) == 5);
}

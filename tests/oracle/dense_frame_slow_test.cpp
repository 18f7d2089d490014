// The same comparison in thousands: hidden from ordinary runs, see tests/CMakeLists.txt.
#include "oracle/dense_agreement.hpp"

#include <cstdio>

namespace dense_frame_slow_test_file {

using namespace oracle;

namespace {

void compare(const char* what, std::uint64_t first, int count, int contacts, bool rigid_contacts) {
  Agreement seen;
  for (std::uint64_t k = first; k < first + static_cast<std::uint64_t>(count); ++k) {
    agree(k, random_grillage(k, contacts, rigid_contacts), seen);
  }
  std::printf("%s: %d frames, %d compared (%d with lift-off), %d mechanisms, worst %.1e\n", what,
              count, seen.compared, seen.lifting, seen.mechanisms, seen.worst);
  CHECK(seen.compared > count / 4);
}

}  // namespace

TEST_CASE("Thousands of random frames agree with the dense twin", "[oracle][.slow]") {
  compare("elastic contacts", 100000, 3000, 6, false);
  compare("rigid contacts", 200000, 2000, 6, true);
  compare("many contacts", 300000, 300, 10, false);
  compare("no contacts", 400000, 2000, 0, false);
}

}  // namespace dense_frame_slow_test_file

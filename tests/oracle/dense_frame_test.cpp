#include "oracle/dense_agreement.hpp"

namespace dense_frame_test_file {

using namespace oracle;

TEST_CASE("The solver agrees with a dense twin that tries every contact state", "[oracle]") {
  Agreement seen;
  for (std::uint64_t k = 0; k < 300; ++k) agree(k, random_grillage(k, 6, false), seen);
  CHECK(seen.compared > 150);  // the sequence must exercise what it is for
  CHECK(seen.lifting > 100);
}

TEST_CASE("The solver agrees with the dense twin where contacts are rigid", "[oracle]") {
  Agreement seen;
  for (std::uint64_t k = 1000; k < 1200; ++k) agree(k, random_grillage(k, 6, true), seen);
  CHECK(seen.compared > 70);
  CHECK(seen.lifting > 30);
}

TEST_CASE("The solver agrees with the dense twin without contacts", "[oracle]") {
  Agreement seen;
  for (std::uint64_t k = 2000; k < 2150; ++k) agree(k, random_grillage(k, 0, false), seen);
  CHECK(seen.mechanisms > 0);  // a board that can roll is one
  CHECK(seen.compared > 50);
  CHECK(seen.lifting == 0);
}

}  // namespace dense_frame_test_file

// Sizes as people say them, in both regions.
// Sources: NDS Supplement Table 1A (dressed sizes); BS EN 336 customary target sizes as restated in a
// building construction handbook (sawn 50, 200, 225; machined 47, 195, 220).
#include "record/spoken_size.hpp"

#include "support/catch.hpp"

#include <string>

namespace underprop::record {
namespace spoken_sizes_test_file {
namespace {

void check(const char* said, StandardId standard, double breadth, double depth) {
  const SpokenSize size = spoken_size(said, standard);
  INFO(said << ": " << size.problem << " " << size.remedy);
  REQUIRE(size.understood);
  CHECK(size.breadth.low().value() == Approx(breadth));
  CHECK(size.depth.low().value() == Approx(depth));
  CHECK_FALSE(size.how.empty());
}

void check_asked_back(const char* said, StandardId standard) {
  const SpokenSize size = spoken_size(said, standard);
  INFO(said);
  CHECK_FALSE(size.understood);
  CHECK_FALSE(size.problem.empty());
  CHECK_FALSE(size.remedy.empty());
}

constexpr StandardId uk = StandardId::eurocode_uk, us = StandardId::north_america_us;

}  // namespace

TEST_CASE("American names give dressed sizes, whichever way round", "[sizes][published]") {
  check("2x8", us, 38.1, 184.15);
  check("8x2", us, 38.1, 184.15);
  check("2x8 PT", us, 38.1, 184.15);
  check("2 by 10", us, 38.1, 234.95);
  check("6x6", us, 139.7, 139.7);
  check("2x8 rough", us, 50.8, 203.2);
  check("1 1/2 x 7 1/4 in", us, 38.1, 184.15);
  check("1½ × 7¼ in", us, 38.1, 184.15);
  check("38 x 184 mm", us, 38.0, 184.0);
}

TEST_CASE("British names depend on the finish", "[sizes][published]") {
  check("9 by 2 sawn", uk, 50.0, 225.0);
  check("8x2 sawn", uk, 50.0, 200.0);
  check("8x2 regularised", uk, 47.0, 195.0);
  check("8x2", uk, 47.0, 195.0);  // not said: the smaller
  check("225x50 sawn", uk, 50.0, 225.0);
  check("ex 225x50", uk, 47.0, 220.0);
  check("225x50 measured", uk, 50.0, 225.0);
  check("47x195", uk, 47.0, 195.0);
  check("44 x 145 mm", uk, 44.0, 145.0);
  check("45-47 x 145 mm", uk, 45.0, 145.0);
}

TEST_CASE("What may mean two sizes is asked back", "[sizes]") {
  check_asked_back("225x50", uk);    // as measured, or as sold
  check_asked_back("2x8 S4S", uk);   // a name of the other region
  check_asked_back("225x50", us);    // millimetres in the land of inches
  check_asked_back("2 x 8 in", us);  // as measured, or as sold
  check_asked_back("2x200", uk);     // inches and millimetres
  check_asked_back("47", uk);
  check_asked_back("47 x", uk);
  check_asked_back("2x9", us);  // no such size
  check_asked_back("thin x thick", uk);
  check_asked_back("1x2x3", us);
  check_asked_back("", us);
}

TEST_CASE("A breadth off the tape with a depth out of the shop is asked back", "[sizes]") {
  for (const char* said : {"47x150", "150x47", "47 x 150 mm", "44x200"}) {
    check_asked_back(said, StandardId::eurocode_uk);
  }
  check("47x150 measured", StandardId::eurocode_uk, 47.0, 150.0);
  check("47x195", StandardId::eurocode_uk, 47.0, 195.0);
}

}  // namespace spoken_sizes_test_file
}  // namespace underprop::record

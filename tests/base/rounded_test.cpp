// Rounding to what people measure never leaves the safe side.
#include "base/rounded.hpp"

#include "support/catch.hpp"
#include "underprop/base/units.hpp"

namespace underprop {
namespace rounded_test_file {

TEST_CASE("Figures are rounded to what people measure, to the safe side", "[base]") {
  const auto us = UnitSystem::us_customary;
  CHECK(format_measured(mm(40), us, Rounded::up) == "2 in");
  CHECK(format_measured(mm(40), us, Rounded::down) == "1 1/2 in");
  CHECK(format_measured(mm(600), us, Rounded::up) == "2 ft");
  CHECK(format_measured(mm(600), us, Rounded::down) == "1 ft 11 in");
  CHECK(format_measured(inches(4), us, Rounded::up) == "4 in");
  CHECK(format_measured(inches(4), us, Rounded::down) == "4 in");
  CHECK(format_measured(psf(147.2), us, Rounded::up) == "148 psf");
  CHECK(format_measured(psf(147.8), us, Rounded::down) == "147 psf");
  CHECK(format_measured(psf(500), us, Rounded::down) == "500 psf");
  const auto metric = UnitSystem::metric;
  CHECK(format_measured(mm(398), metric, Rounded::up) == "400 mm");
  CHECK(format_measured(mm(398), metric, Rounded::down) == "395 mm");
  CHECK(format_measured(kilopascals(7.04), metric, Rounded::up) == "7.1 kN/m2");
  CHECK(format_measured(kilopascals(7.04), metric, Rounded::nearest) == "7 kN/m2");
}

TEST_CASE("What is shown is never on the unsafe side of what is meant", "[base][law]") {
  for (double length = 0.0; length < 3000.0; length += 7.3) {
    const std::string up = format_measured(mm(length), UnitSystem::us_customary, Rounded::up);
    const std::string down = format_measured(mm(length), UnitSystem::us_customary, Rounded::down);
    INFO(length << ": " << down << ", " << up);
    const auto high = parse_length(up), low = parse_length(down);
    REQUIRE(high);
    REQUIRE(low);
    CHECK(in_mm(*high.value) >= length - 1e-6);
    CHECK(in_mm(*low.value) <= length + 1e-6);
    CHECK(in_mm(*high.value) - in_mm(*low.value) <= 25.4 + 1e-6);
  }
}

}  // namespace rounded_test_file
}  // namespace underprop

// How numbers and quantities are shown.
#include "underprop/base/format.hpp"

#include "support/catch.hpp"

#include <clocale>
#include <limits>
#include <stdexcept>

namespace format_test_file {

using namespace underprop;

namespace {
constexpr auto metric = UnitSystem::metric;
constexpr auto us = UnitSystem::us_customary;
}  // namespace

TEST_CASE("significant digits are shown without exponents", "[base][closed-form]") {
  CHECK(format_significant(1234.5, 3) == "1230");
  CHECK(format_significant(0.04560, 3) == "0.0456");
  CHECK(format_significant(12.0, 3) == "12");
  CHECK(format_significant(999.6, 3) == "1000");
  CHECK(format_significant(9.996, 3) == "10");
  CHECK(format_significant(-0.0, 3) == "0");
  CHECK(format_significant(1.5e12, 3) == "1500000000000");
  CHECK(format_significant(1e-7, 2) == "0.0000001");
  CHECK(format_decimals(47.0, 1) == "47");
  CHECK(format_decimals(-0.04, 1) == "0");
  CHECK(format_decimals(2.25, 2) == "2.25");
}

TEST_CASE("lengths are shown in both systems", "[base][closed-form]") {
  CHECK(format_length(mm(2400), metric) == "2400 mm");
  CHECK(format_length(mm(2400.4), metric) == "2400 mm");
  CHECK(format_length(mm(38.5), metric) == "38.5 mm");
  CHECK(format_length(mm(0.352), metric) == "0.35 mm");
  CHECK(format_length(mm(-12), metric) == "-12 mm");
  CHECK(format_length(mm(2400.3), us) == "7 ft 10 1/2 in");
  CHECK(format_length(inches(5.5), us) == "5 1/2 in");
  CHECK(format_length(inches(0.5), us) == "1/2 in");
  CHECK(format_length(inches(11.99), us) == "1 ft");
  CHECK(format_length(feet(12), us) == "12 ft");
  CHECK(format_length(mm(0), us) == "0 in");
  CHECK(format_length(inches(-13.25), us) == "-1 ft 1 1/4 in");
  CHECK(format_length(inches(3.0 / 16), us) == "3/16 in");
}

TEST_CASE("forces, pressures, masses and volumes are shown in both systems",
          "[base][closed-form]") {
  CHECK(format_force(kilonewtons(12.345), metric) == "12.3 kN");
  CHECK(format_force(newtons(456), metric) == "0.456 kN");
  CHECK(format_force(kilonewtons(12.3), us) == "2765 lb");
  CHECK(format_pressure(psf(100), metric) == "4.79 kPa");
  CHECK(format_pressure(psf(100), us) == "100 psf");
  CHECK(format_pressure(psf(2.5), us) == "2.5 psf");
  CHECK(format_stress(megapascals(12.41), metric) == "12.4 MPa");
  CHECK(format_stress(megapascals(12.41), us) == "1800 psi");
  CHECK(format_moment(Moment(2.5e6), metric) == "2.5 kNm");
  CHECK(format_moment(Moment(2.5e6), us) == "1844 lb ft");
  CHECK(format_mass(kilograms(350), metric) == "350 kg");
  CHECK(format_mass(kilograms(350), us) == "772 lb");
  CHECK(format_volume(litres(1500), metric) == "1500 l");
  CHECK(format_volume(litres(1500), us) == "396 US gal");
}

TEST_CASE("a utilisation is never shown better than it is", "[base][closed-form]") {
  CHECK(format_utilisation(0.87) == "0.87");
  CHECK(format_utilisation(0.8701) == "0.88");
  CHECK(format_utilisation(1.0) == "1.00");
  CHECK(format_utilisation(1.0 + 1e-13) == "1.00");  // the same number: sums of lengths round so
  CHECK(format_utilisation(1.0 + 1e-8) == "1.01");
  CHECK(format_utilisation(1.0000001) == "1.01");
  CHECK(format_utilisation(0.9999999) == "1.00");
  CHECK(format_utilisation(0.0) == "0.00");
  CHECK(format_utilisation(12.3) == "12.30");
  CHECK(format_utilisation(std::numeric_limits<double>::infinity()) == "infinite");
  CHECK_THROWS_AS(format_utilisation(std::numeric_limits<double>::quiet_NaN()), std::domain_error);
}

TEST_CASE("the locale of the process takes no part", "[law][base]") {
  const char* const before = std::setlocale(LC_ALL, nullptr);
  const std::string saved = before == nullptr ? "C" : before;
  // Where no such locale is installed the call changes nothing, and the checks hold all the same.
  if (std::setlocale(LC_ALL, "de_DE.UTF-8") == nullptr) std::setlocale(LC_ALL, "");
  CHECK(format_significant(1234.56, 6) == "1234.56");
  CHECK(format_utilisation(0.875) == "0.88");
  std::setlocale(LC_ALL, saved.c_str());
}

}  // namespace format_test_file

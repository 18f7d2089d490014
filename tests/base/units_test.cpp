// Units: factors against their defining documents, spellings, and what is refused (with the words of units.expected).
//
// Factors: NIST SP 811 (2008), Appendix B.8 ("Factors for units listed alphabetically"), which
// prints the exact ones in bold; NIST Handbook 44, Appendix C for the gallons and the stone.
#include "underprop/base/units.hpp"
#include "underprop/base/input_error.hpp"

#include "support/catch.hpp"
#include "support/recorded.hpp"

#include <string>
#include <string_view>
#include <vector>

namespace units_test_file {

using namespace underprop;

namespace {

struct Row {
  std::string_view text;
  double value;
};

template <class Q>
void require_read(std::string_view text, double expected) {
  INFO(text);
  const Parsed<Q> parsed = parse_quantity<Q>(text);
  INFO(parsed.problem);
  REQUIRE(parsed.value.has_value());
  CHECK(parsed.value->value() == Approx(expected).epsilon(1e-12));
}

/// Each text, with the problem and the remedy that it is refused with below it.
template <class Result>
std::string refusals(const std::vector<std::string>& texts, Result (*parse)(std::string_view)) {
  std::string told;
  for (const std::string& text : texts) {
    INFO(text);
    const Result parsed = parse(text);
    REQUIRE_FALSE(parsed.value.has_value());
    told += quote(text) + "\n    " + parsed.problem + "\n    " + parsed.remedy + "\n";
  }
  return told;
}

template <class Q>
std::string refused(const std::vector<std::string>& texts) {
  return refusals(texts, parse_quantity<Q>);
}

const char* const words = "tests/base/units.expected";

}  // namespace

TEST_CASE("lengths are read in every unit", "[published][base]") {
  // SP 811 B.8: inch 2.54 E-02 m, foot 3.048 E-01 m, both exact.
  for (const auto& [text, value] :
       {Row{"2400 mm", 2400.0},    Row{"38mm", 38.0},         Row{"12.5 cm", 125.0},
        Row{"2.4 m", 2400.0},      Row{"2.4 metres", 2400.0}, Row{"1 in", 25.4},
        Row{"1/2 in", 12.7},       Row{"5 1/2 in", 139.7},    Row{"5½ in", 139.7},
        Row{"10 inches", 254.0},   Row{"1 ft", 304.8},        Row{"7 ft 10 1/2 in", 2400.3},
        Row{"7'10 1/2\"", 2400.3}, Row{"7' 10\"", 2387.6},    Row{"7′ 10″", 2387.6},
        Row{"7ft10in", 2387.6},    Row{"7.5 ft", 2286.0},     Row{"-10 mm", -10.0},
        Row{"−10 mm", -10.0},      Row{"-1 ft 6 in", -457.2}, Row{"+10 mm", 10.0},
        Row{"  10 mm  ", 10.0},    Row{".5 m", 500.0},        Row{"1e3 mm", 1000.0},
        Row{"0 mm", 0.0}}) {
    require_read<Length>(text, value);
  }
}

TEST_CASE("masses are read in every unit", "[published][base]") {
  // SP 811 B.8: pound (avoirdupois) 4.535 923 7 E-01 kg exact; Handbook 44 C: stone = 14 lb.
  for (const auto& [text, value] :
       {Row{"350 kg", 350.0}, Row{"500 g", 0.5}, Row{"1.2 t", 1200.0}, Row{"2 tonnes", 2000.0},
        Row{"1 lb", 0.45359237}, Row{"770 lbs", 349.2661249}, Row{"1 st", 6.35029318},
        Row{"11 st 4 lb", 71.66759446}}) {
    require_read<Mass>(text, value);
  }
}

TEST_CASE("forces are read in every unit", "[published][base]") {
  // SP 811 B.8: pound-force 4.448 222 E+00 N (4.448 221 615 260 5 exact), kip 4.448 222 E+03 N.
  for (const auto& [text, value] :
       {Row{"250 N", 250.0}, Row{"4.5 kN", 4500.0}, Row{"1 lbf", 4.4482216152605},
        Row{"1200 lb", 5337.8659383126}, Row{"2 kip", 8896.443230521}}) {
    require_read<Force>(text, value);
  }
}

TEST_CASE("pressures are read in every unit", "[published][base]") {
  // SP 811 B.8: psi 6.894 757 E+03 Pa, pound-force per square foot 4.788 026 E+01 Pa.
  for (const auto& [text, value] :
       {Row{"1.5 kN/m2", 0.0015}, Row{"1.5 kN/m²", 0.0015}, Row{"1.5 kPa", 0.0015},
        Row{"1500 Pa", 0.0015}, Row{"1500 N/m2", 0.0015}, Row{"24 N/mm2", 24.0},
        Row{"24 MPa", 24.0}}) {
    require_read<Pressure>(text, value);
  }
  CHECK(parse_pressure("1 psi").value->value() == Approx(6.894757e-3).epsilon(5e-7 / 6.8));
  CHECK(parse_pressure("1 psf").value->value() == Approx(4.788026e-5).epsilon(5e-7 / 4.7));
  CHECK(parse_pressure("144 psf").value->value() ==
        Approx(parse_pressure("1 psi").value->value()).epsilon(1e-15));
}

TEST_CASE("volumes are read in every unit", "[published][base]") {
  // SP 811 B.8: gallon (U.S.) 3.785 412 E-03 m3, gallon (imperial) 4.546 09 E-03 m3 exact,
  // cubic foot 2.831 685 E-02 m3.
  for (const auto& [text, value] :
       {Row{"1500 l", 1.5e9}, Row{"1500 L", 1.5e9}, Row{"1500 litres", 1.5e9},
        Row{"1500 liters", 1.5e9}, Row{"1.5 m3", 1.5e9}, Row{"1.5 m³", 1.5e9},
        Row{"1 us gal", 3785411.784}, Row{"400 US gallons", 1514164713.6},
        Row{"1 imp gal", 4546090.0}, Row{"1 ft3", 28316846.592}}) {
    require_read<Volume>(text, value);
  }
}

TEST_CASE("angles and densities are read in every unit", "[published][base]") {
  CHECK(parse_angle("30 deg").value->rad == Approx(0.5235987755982988).epsilon(1e-15));
  CHECK(parse_angle("-90°").value->rad == Approx(-1.5707963267948966).epsilon(1e-15));
  CHECK(parse_angle("0.5 rad").value->rad == 0.5);
  require_read<Density>("420 kg/m3", 420e-9);
  // SP 811 B.8: pound per cubic foot 1.601 846 E+01 kg/m3.
  CHECK(parse_density("1 pcf").value->value() == Approx(16.01846e-9).epsilon(5e-6 / 16.0));
}

TEST_CASE("metric spellings of one quantity are the same to the last bit", "[law][base]") {
  for (const auto& [metres, mm] : {std::pair{"2.4 m", "2400 mm"}, std::pair{"1.001 m", "1001 mm"},
                                   std::pair{"0.3 m", "30 cm"}, std::pair{"4.35 m", "4350 mm"}}) {
    INFO(metres);
    CHECK(*parse_length(metres).value == *parse_length(mm).value);
  }
  CHECK(*parse_length("12 in").value == *parse_length("1 ft").value);
  CHECK(*parse_length("94 1/2 in").value == *parse_length("7 ft 10 1/2 in").value);
  CHECK(*parse_length("10 in").value == *parse_length("254 mm").value);
  CHECK(*parse_pressure("1.1 kPa").value == *parse_pressure("0.0011 MPa").value);
  CHECK(*parse_volume("1.3 m3").value == *parse_volume("1300 l").value);
}

TEST_CASE("a number without a unit is refused", "[base][words][recorded]") {
  test::check_passage(
      words, "no unit",
      refused<Length>({"2400", "7 ft 10"}) + refused<Mass>({"350"}) + refused<Force>({"4.5"}));
}

TEST_CASE("ambiguous units are refused and say why", "[base][words][recorded]") {
  test::check_passage(words, "ambiguous units",
                      refused<Volume>({"400 gal", "400 gallons"}) + refused<Mass>({"2 tons"}));
}

TEST_CASE("a unit of another kind is refused and named", "[base][words][recorded]") {
  test::check_passage(words, "units of another kind",
                      refused<Mass>({"4 kN", "420 kg/m3"}) +
                          refused<Force>({"1.5 kN/m2", "300 kg"}) + refused<Length>({"10 m3"}));
}

TEST_CASE("an unknown unit is refused with the nearest one", "[base][words][recorded]") {
  test::check_passage(words, "unknown units", refused<Length>({"2400 MM", "24 furlong", "10 m²"}));
}

TEST_CASE("text that is no quantity is refused", "[base][words][recorded]") {
  test::check_passage(words, "no quantity",
                      refused<Length>({"",
                                       "   ",
                                       "mm",
                                       "wide",
                                       "nan mm",
                                       "inf mm",
                                       "-inf mm",
                                       "NaN",
                                       "infinity m",
                                       "- mm",
                                       "(5) mm",
                                       "\"",
                                       "e5 mm",
                                       "0x10 mm",
                                       "--5 mm",
                                       "2400 mm wide",
                                       "2 m 400 mm",
                                       "2,4 m",
                                       std::string(65, '1'),
                                       std::string("5\0 mm", 5)}));
}

TEST_CASE("numbers out of range are refused", "[base][words][recorded]") {
  test::check_passage(
      words, "numbers out of range",
      refused<Length>({"1e999 mm", "1e-999 mm", "1e308 ft"}) + refused<Volume>({"1e305 m3"}));
}

TEST_CASE("faulty fractions and compounds are refused", "[base][words][recorded]") {
  test::check_passage(words, "fractions and compounds",
                      refused<Length>({"1/0 in", "7 1/0 in", "7 3/2 in", "7 ft 12 in",
                                       "7 ft 100 mm", "7.5 ft 3 in"}));
}

TEST_CASE("where one value is wanted a range is refused", "[base][words][recorded]") {
  test::check_passage(words, "a range where one value is wanted",
                      refused<Length>({"600-650 mm", "about 600 mm"}));
}

TEST_CASE("ranges are read", "[base][closed-form]") {
  struct RangeRow {
    const char* text;
    double low, high;
  };
  for (const auto& [text, low, high] :
       {RangeRow{"600 mm", 600, 600}, RangeRow{"600-650 mm", 600, 650},
        RangeRow{"600 - 650 mm", 600, 650}, RangeRow{"600–650 mm", 600, 650},
        RangeRow{"600 mm to 650 mm", 600, 650}, RangeRow{"600 to 650 mm", 600, 650},
        RangeRow{"0.6 m to 650 mm", 600, 650}, RangeRow{"-5 to -2 mm", -5, -2},
        RangeRow{"-5--2 mm", -5, -2}, RangeRow{"2 ft to 2 ft 6 in", 609.6, 762},
        RangeRow{"1/2-3/4 in", 12.7, 19.05}, RangeRow{"7 1/4 - 7 1/2 in", 184.15, 190.5},
        RangeRow{"6 ft to 80 in", 1828.8, 2032}, RangeRow{"1e-3 m", 1, 1},
        RangeRow{"about 600 mm", 570, 630}, RangeRow{"about 600-650 mm", 570, 682.5}}) {
    INFO(text);
    const auto parsed = parse_range<Length>(text);
    INFO(parsed.problem);
    REQUIRE(parsed.value.has_value());
    CHECK(parsed.value->low.value() == Approx(low).epsilon(1e-12));
    CHECK(parsed.value->high.value() == Approx(high).epsilon(1e-12));
  }
}

TEST_CASE("faulty ranges are refused", "[base][words][recorded]") {
  // Read as a range, 0 to 6 in, 0'-6" would make half a foot out of nothing.
  test::check_passage(
      words, "ranges",
      refusals({"650-600 mm", "7-1/2 in", "0'-6\"", "7-8 ft 6 in", "600-650", "600 mm to"},
               parse_range<Length>));
}

TEST_CASE("a written quantity is read back to the same bits", "[law][base]") {
  CHECK(write_quantity(mm(2400)) == "2400 mm");
  CHECK(write_quantity(kilonewtons(4.5)) == "4.5 kN");
  CHECK(write_quantity(kilopascals(1.5)) == "1.5 kN/m2");
  CHECK(write_quantity(litres(1500)) == "1500 l");
  CHECK(write_quantity(kg_per_m3(420)) == "420 kg/m3");
  CHECK(write_quantity(degrees(30)) == "30 deg");
  CHECK(write_fact(Fact<Length>{}) == "unknown");
  CHECK(write_fact(Fact<Length>(mm(38))) == "38 mm");
  CHECK(write_fact(Fact<Length>::range(mm(600), mm(650))) == "600 mm to 650 mm");

  // A fixed multiplicative walk through many magnitudes.
  double x = 1.2345678901234567e-7;
  for (int i = 0; i < 300; ++i) {
    x *= 1.1376543;
    INFO(x);
    CHECK(*parse_length(write_quantity(Length(x))).value == Length(x));
    CHECK(*parse_force(write_quantity(Force(-x))).value == Force(-x));
    CHECK(*parse_pressure(write_quantity(Pressure(x))).value == Pressure(x));
    CHECK(*parse_volume(write_quantity(Volume(x))).value == Volume(x));
    CHECK(*parse_density(write_quantity(Density(x))).value == Density(x));
    CHECK(*parse_angle(write_quantity(Angle{x})).value == Angle{x});
    const auto range = Fact<Pressure>::range(Pressure(x), Pressure(x * 1.3));
    const auto back = parse_range<Pressure>(write_fact(range));
    REQUIRE(back.value.has_value());
    CHECK(back.value->low == range.low());
    CHECK(back.value->high == range.high());
  }
}

}  // namespace units_test_file

// Quantities as people write them: "2400 mm", "7 ft 10 1/2 in", "1.5 kN/m2", "about 600 mm".
//
// Reading. A number needs a unit. The number is a decimal with a point ("2.4"), a fraction ("1/2")
// or a whole number and a fraction ("10 1/2"); the unit stands behind it, with or without a space.
// Compound: feet and inches ("7 ft 10 1/2 in", 7'10 1/2"), stones and pounds ("11 st 4 lb").
// Nothing may follow. No locale takes part. At most max_quantity_text bytes.
//
// Units accepted, and what they are in the base units of quantity.hpp:
//   length    mm, cm, m, in (25.4 mm exactly), ft (304.8 mm)
//   mass      g, kg, t (1000 kg), lb (0.45359237 kg exactly), st (14 lb)
//   force     N, kN, lbf, lb (read as lbf where a force is wanted), kip (1000 lbf)
//   pressure  Pa, kPa, MPa, N/m2, kN/m2, N/mm2, psf, psi
//   volume    l, L, m3, us gal (231 in3), imp gal (4.54609 l), ft3, mm3; "gal" alone is refused
//   angle     deg, rad
//   density   kg/m3, pcf (lb/ft3)
// Definitions: international yard and pound agreement, 1959; gallons: NIST Handbook 44, Appendix C.
// The words in full ("metres", "feet", "litres", "pounds" ...) and m², m³, ′ and ″ are read as well.
#pragma once

#include "underprop/base/fact.hpp"
#include "underprop/base/quantity.hpp"

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>

namespace underprop {

inline constexpr std::size_t max_quantity_text = 64;

/// A plane angle in radians.
struct Angle {
  double rad = 0.0;
  constexpr auto operator<=>(const Angle&) const = default;
};
[[nodiscard]] constexpr Angle degrees(double n) {
  return Angle{n * 3.14159265358979323846 / 180.0};
}
[[nodiscard]] constexpr double in_degrees(Angle a) {
  return a.rad * 180.0 / 3.14159265358979323846;
}

/// What a text was read as, or why not.
template <class T>
struct Parsed {
  std::optional<T> value;
  std::string problem;  ///< what is wrong, e.g. `"2400" has no unit`; empty if value is there
  std::string remedy;   ///< what to do, e.g. `write "2400 mm" or "2400 in"`

  explicit operator bool() const { return value.has_value(); }
};

/// Low and high end of what was written; both the same where it is one value.
template <class Q>
struct Range {
  Q low;
  Q high;
  bool operator==(const Range&) const = default;
};

/// One value. Q is Length, Mass, Force, Pressure, Volume, Density or Angle.
template <class Q>
[[nodiscard]] Parsed<Q> parse_quantity(std::string_view text);

/// One value or a range: "600-650 mm", "600 mm to 650 mm", "about 600 mm" (5 % to either side).
template <class Q>
[[nodiscard]] Parsed<Range<Q>> parse_range(std::string_view text);

/// How much lower and higher "about" may be.
inline constexpr double about_fraction = 0.05;

/// "a length such as ..." for messages.
template <class Q>
[[nodiscard]] std::string_view quantity_examples();

[[nodiscard]] inline Parsed<Length> parse_length(std::string_view text) {
  return parse_quantity<Length>(text);
}
[[nodiscard]] inline Parsed<Mass> parse_mass(std::string_view text) {
  return parse_quantity<Mass>(text);
}
[[nodiscard]] inline Parsed<Force> parse_force(std::string_view text) {
  return parse_quantity<Force>(text);
}
[[nodiscard]] inline Parsed<Pressure> parse_pressure(std::string_view text) {
  return parse_quantity<Pressure>(text);
}
[[nodiscard]] inline Parsed<Volume> parse_volume(std::string_view text) {
  return parse_quantity<Volume>(text);
}
[[nodiscard]] inline Parsed<Density> parse_density(std::string_view text) {
  return parse_quantity<Density>(text);
}
[[nodiscard]] inline Parsed<Angle> parse_angle(std::string_view text) {
  return parse_quantity<Angle>(text);
}

/// The quantity as text that parse_quantity reads back to exactly the same value, in a familiar unit
/// where that is possible: "2400 mm", "0.0015 N/mm2", "1500 l". Throws std::domain_error if not finite.
template <class Q>
[[nodiscard]] std::string write_quantity(Q quantity);
/// Likewise a known fact: "2400 mm", "600 mm to 650 mm"; "unknown" if it is not known.
template <class Q>
[[nodiscard]] std::string write_fact(const Fact<Q>& fact) {
  if (fact.is_unknown()) return "unknown";
  if (fact.is_value()) return write_quantity(fact.value());
  return write_quantity(fact.low()) + " to " + write_quantity(fact.high());
}

}  // namespace underprop

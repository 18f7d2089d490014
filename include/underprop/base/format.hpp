// Quantities and numbers as shown to people, the same on every machine: no locale, no exponents.
//
// All throw std::domain_error for NaN; infinity is shown as "infinite".
#pragma once

#include "underprop/base/quantity.hpp"

#include <string>

namespace underprop {

enum class UnitSystem { metric, us_customary };

/// `digits` significant digits in plain decimal notation, no trailing zeros after the point, never
/// "-0": (1234.5, 3) is "1230", (0.04560, 3) is "0.0456". digits is 1 to 17.
[[nodiscard]] std::string format_significant(double number, int digits);
/// `decimals` places after the point, at most; trailing zeros are dropped: (47.0, 1) is "47".
[[nodiscard]] std::string format_decimals(double number, int decimals);

/// "2400 mm", "38.5 mm", "0.35 mm" (whole mm from 100 mm, one place from 10 mm, else two), or feet
/// and inches to the nearest 1/16 in: "7 ft 10 1/2 in", "1 1/2 in".
[[nodiscard]] std::string format_length(Length length, UnitSystem system);
/// "12.3 kN" (three significant digits) or "2765 lb" (whole pounds-force).
[[nodiscard]] std::string format_force(Force force, UnitSystem system);
/// "4.79 kPa" (three significant digits) or "100 psf" (whole; one place below 10 psf).
[[nodiscard]] std::string format_pressure(Pressure pressure, UnitSystem system);
/// "12.4 MPa" (three significant digits) or "1800 psi" (whole).
[[nodiscard]] std::string format_stress(Stress stress, UnitSystem system);
/// "2.5 kNm" (three significant digits) or "1844 lb ft" (whole).
[[nodiscard]] std::string format_moment(Moment moment, UnitSystem system);
/// "350 kg" or "772 lb" (whole; one place below 10).
[[nodiscard]] std::string format_mass(Mass mass, UnitSystem system);
/// "1500 l" or "396 US gal" (whole; one place below 10).
[[nodiscard]] std::string format_volume(Volume volume, UnitSystem system);

/// A utilisation (demand / resistance; 1 is the limit), rounded up to two places so that what is
/// shown is never better than what was found: 0.87 is "0.87", 0.8701 is "0.88", and anything above 1
/// is at least "1.01". Rounding noise below 1e-9 does not count.
[[nodiscard]] std::string format_utilisation(double utilisation);

}  // namespace underprop

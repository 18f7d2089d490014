// Quantities rounded to what people measure, towards the side that is safe. In metric as format_length and
// format_pressure show them, but rounded to that side as well.
#pragma once

#include "underprop/base/format.hpp"

namespace underprop {

/// Which way a figure may be rounded: what is demanded or must be kept clear upwards, what is there or
/// allowed downwards. `nearest` only where neither side is the safe one.
enum class Rounded { up, down, nearest };

/// Metric: 5 mm steps, "600 mm". American: whole inches, half inches below 1 ft: "2 ft", "1 1/2 in".
[[nodiscard]] std::string format_measured(Length length, UnitSystem system, Rounded way);
/// Metric: "7.0 kN/m2" with one decimal. American: whole "147 psf".
[[nodiscard]] std::string format_measured(Pressure pressure, UnitSystem system, Rounded way);

}  // namespace underprop

#include "base/rounded.hpp"

#include "underprop/base/units.hpp"

#include <cmath>
#include <stdexcept>

namespace underprop {
namespace {

/// The multiple of `step` on that side; rounding noise does not make a step.
double to_step(double number, double step, Rounded way) {
  if (std::isnan(number)) throw std::domain_error("a quantity that is no number");
  constexpr double noise = 1e-6;
  const double steps = number / step;
  switch (way) {
    case Rounded::up:
      return step * std::ceil(steps - noise);
    case Rounded::down:
      return step * std::floor(steps + noise);
    case Rounded::nearest:
      break;
  }
  return step * std::round(steps);
}

}  // namespace

std::string format_measured(Length length, UnitSystem system, Rounded way) {
  if (system == UnitSystem::metric) {
    constexpr double step_mm = 5.0;
    return format_length(mm(to_step(in_mm(length), step_mm, way)), system);
  }
  const double number = in_inches(length);
  constexpr double inches_in_foot = 12.0;
  const double step = std::abs(number) < inches_in_foot ? 0.5 : 1.0;
  return format_length(inches(to_step(number, step, way)), system);
}

std::string format_measured(Pressure pressure, UnitSystem system, Rounded way) {
  if (system == UnitSystem::metric) {
    return format_decimals(to_step(in_kilopascals(pressure), 0.1, way), 1) + " kN/m2";
  }
  return format_decimals(to_step(in_psf(pressure), 1.0, way), 0) + " psf";
}

}  // namespace underprop

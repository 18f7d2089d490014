#include "standards/half_space.hpp"

#include <cmath>
#include <numbers>
#include <stdexcept>
#include <utility>

namespace underprop::standards {

namespace {

void need(bool condition, const char* message) {
  if (!condition) throw std::domain_error(message);
}

void check_half_space(Stress E, double nu) {
  need(E.value() > 0 && nu >= 0 && nu <= 0.5, "half-space: E > 0 and 0 <= nu <= 0.5");
}

}  // namespace

Stiffness rigid_rectangle_stiffness(Length B, Length L, Stress E, double nu) {
  check_half_space(E, nu);
  need(B.value() > 0 && L.value() > 0, "rigid_rectangle_stiffness: sides must be positive");
  if (L < B) std::swap(B, L);
  const Stress G = E / (2.0 * (1.0 + nu));
  return (0.73 + 1.54 * std::pow(B / L, 0.75)) / (1.0 - nu) * (G * L);
}

Stiffness rigid_circle_stiffness(Length D, Stress E, double nu) {
  check_half_space(E, nu);
  need(D.value() > 0, "rigid_circle_stiffness: diameter must be positive");
  return E * D / (1.0 - nu * nu);
}

Quantity<1, -1> neighbour_flexibility(Length r, Stress E, double nu) {
  check_half_space(E, nu);
  need(r.value() > 0, "neighbour_flexibility: distance must be positive");
  return (1.0 - nu * nu) / (std::numbers::pi * (E * r));
}

}  // namespace underprop::standards

#include "standards/north_america/bearing.hpp"

#include "standards/north_america/require.hpp"

#include <cmath>
#include <numbers>

namespace underprop::standards::north_america {

double bearing_area_factor(Length l_b, Length end_distance) {
  require(l_b.value() > 0 && end_distance.value() >= 0, "bearing_area_factor: lengths");
  if (!(l_b < inches(6.0)) || end_distance < inches(3.0)) return 1.0;
  return (in_inches(l_b) + 0.375) / in_inches(l_b);
}

Stress bearing_stress(Force R, Length width, Length l_b) {
  require(width.value() > 0 && l_b.value() > 0, "bearing_stress: lengths must be positive");
  return abs(R) / (width * l_b);
}

Stress at_angle_to_grain(Stress parallel, Stress perpendicular, double theta_deg) {
  require(parallel.value() > 0 && perpendicular.value() > 0, "at_angle_to_grain: stresses");
  require(theta_deg >= 0 && theta_deg <= 90, "at_angle_to_grain: angle must lie in 0 to 90");
  const double s = std::sin(theta_deg * std::numbers::pi / 180.0);
  const double c = std::cos(theta_deg * std::numbers::pi / 180.0);
  return parallel * (perpendicular / (parallel * (s * s) + perpendicular * (c * c)));
}

}  // namespace underprop::standards::north_america

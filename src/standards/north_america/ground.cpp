#include "standards/north_america/ground.hpp"

#include "standards/north_america/require.hpp"

#include <algorithm>
#include <cmath>

namespace underprop::standards::north_america {

Pressure allowable_bearing(Pressure presumed, Length width, Length reference_width, bool bedded,
                           Pressure surface_limit) {
  require(presumed.value() >= 0 && surface_limit.value() >= 0, "allowable_bearing: pressures");
  require(width.value() > 0 && reference_width.value() > 0, "allowable_bearing: widths");
  const Pressure narrow = std::min(1.0, width / reference_width) * presumed;
  return bedded ? narrow : min(narrow, surface_limit);
}

Length working_side(Length side, Length contact, Length thickness) {
  require(side.value() > 0 && contact.value() > 0 && thickness.value() >= 0,
          "working_side: lengths");
  return min(side, contact + 2.0 * thickness);
}

bool projection_allowed(Length side, Length contact, Length thickness) {
  // A hair, so that equal lengths stay equal after conversion from inches.
  const Length t = thickness + mm(1e-6);
  return t >= inches(6.0) && footing_thickness(side, contact) <= t;
}

Length plain_concrete_projection(Length thickness, Length cast_on_soil, Stress f_c_prime,
                                 double phi, Pressure w_u) {
  require(thickness.value() >= 0 && cast_on_soil.value() >= 0,
          "plain_concrete_projection: lengths");
  require(f_c_prime.value() > 0 && phi > 0 && phi <= 1 && w_u.value() > 0,
          "plain_concrete_projection: strength and pressure");
  const Stress rupture = psi(5.0 * std::sqrt(in_psi(f_c_prime)));
  return std::sqrt(phi * rupture / (3.0 * w_u)) * max(mm(0.0), thickness - cast_on_soil);
}

Pressure footing_pressure(Force load, Area working, Length thickness, Quantity<-3, 1> unit_weight) {
  require(working.value() > 0 && thickness.value() >= 0 && unit_weight.value() >= 0,
          "footing_pressure: meaningless argument");
  return load / working + unit_weight * thickness;
}

Area footing_area(Force P, Pressure q, Quantity<-3, 1> unit_weight, Length thickness) {
  require(P.value() >= 0 && thickness.value() >= 0, "footing_area: meaningless argument");
  const Pressure net = q - unit_weight * thickness;
  require(net.value() > 0, "footing_area: the footing's own weight uses up the bearing value");
  return P / net;
}

Length footing_thickness(Length side, Length contact) {
  require(side.value() > 0 && contact.value() > 0, "footing_thickness: lengths must be positive");
  return max(mm(0.0), 0.5 * (side - contact));
}

}  // namespace underprop::standards::north_america

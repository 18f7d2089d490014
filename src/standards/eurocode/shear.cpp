#include "standards/eurocode/shear.hpp"

#include "standards/eurocode/require.hpp"

#include <algorithm>
#include <cmath>

namespace underprop::standards::eurocode {

Length b_ef(Length b, double k_cr) {
  require(b.value() > 0 && k_cr > 0, "b_ef: width and k_cr must be positive");
  return k_cr * b;
}

Stress shear_stress(Force V, Length b_ef, Length h) {
  require(b_ef.value() > 0 && h.value() > 0, "shear_stress: section must be positive");
  return 1.5 * abs(V) / (b_ef * h);
}

bool may_be_left_out_of_shear(Length from_support_edge, Length h) {
  return from_support_edge.value() <= h.value();
}

double shear_share_of_spread_load(Length from, Length to, Length h) {
  require(to > from, "shear_share_of_spread_load: from < to");
  if (may_be_left_out_of_shear(max(to, mm(0.0)), h)) return 0.0;
  if (!may_be_left_out_of_shear(max(from, mm(0.0)), h)) return 1.0;
  return (to - h) / (to - from);
}

Force reduced_shear_uniform(Force V, Length l, Length h, Length l_support) {
  require(l.value() > 0 && h.value() > 0 && l_support.value() >= 0, "reduced_shear_uniform: sizes");
  return V * std::max(0.0, 1.0 - (2.0 * h + l_support) / l);
}

double k_v(const EndNotch& notch, double k_n) {
  const double h = in_mm(notch.h);
  require(h > 0 && in_mm(notch.h_ef) > 0 && notch.h_ef <= notch.h, "k_v: 0 < h_ef <= h");
  require(in_mm(notch.x) >= 0 && notch.inclination >= 0 && k_n > 0, "k_v: x, i and k_n");
  if (notch.side == NotchSide::opposite || notch.h_ef == notch.h) return 1.0;
  const double alpha = notch.h_ef / notch.h;
  const double taper = 1.0 + 1.1 * std::pow(notch.inclination, 1.5) / std::sqrt(h);
  const double crack = std::sqrt(alpha * (1.0 - alpha)) +
                       0.8 * (notch.x / notch.h) * std::sqrt(1.0 / alpha - alpha * alpha);
  return std::min(1.0, k_n * taper / (std::sqrt(h) * crack));
}

Stress notched_shear_stress(Force V, Length b_ef, Length h_ef) {
  return shear_stress(V, b_ef, h_ef);
}

}  // namespace underprop::standards::eurocode

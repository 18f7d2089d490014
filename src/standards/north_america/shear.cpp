#include "standards/north_america/shear.hpp"

#include "standards/north_america/require.hpp"

#include <algorithm>

namespace underprop::standards::north_america {

Stress shear_stress(Force V, Length b, Length d) {
  require(b.value() > 0 && d.value() > 0, "shear_stress: b and d must be positive");
  return 3.0 * abs(V) / (2.0 * b * d);
}

double shear_share_of_point_load(Length x, Length d) {
  require(x.value() >= 0 && d.value() > 0, "shear_share_of_point_load: meaningless argument");
  return std::min(1.0, x / d);
}

double shear_share_of_spread_load(Length from, Length to, Length d) {
  require(to > from, "shear_share_of_spread_load: from < to");
  // The integral of shear_share_of_point_load from the face, over d.
  const auto sum = [&](Length x) {
    const double r = std::max(x / d, 0.0);
    return r < 1.0 ? r * shear_share_of_point_load(r * d, d) / 2.0 : r - 0.5;
  };
  return (sum(to) - sum(from)) * (d / (to - from));
}

Force shear_of_uniform_load(LineLoad w, Length clear_span, Length d) {
  require(clear_span.value() > 0 && d.value() > 0, "shear_of_uniform_load: lengths");
  return abs(w) * max(mm(0.0), 0.5 * clear_span - d);
}

namespace {

void require_remaining(Length b, Length d, Length remaining) {
  require(b.value() > 0 && d.value() > 0, "shear: b and d must be positive");
  require(remaining.value() > 0 && remaining <= d, "shear: the depth left must lie in 0 to d");
}

}  // namespace

Force notched_shear_tension_side(Stress F_v_prime, Length b, Length d, Length d_n) {
  require_remaining(b, d, d_n);
  return 2.0 / 3.0 * F_v_prime * b * d_n * ((d_n / d) * (d_n / d));
}

Force notched_shear_compression_side(Stress F_v_prime, Length b, Length d, Length d_n, Length e) {
  require_remaining(b, d, d_n);
  require(e.value() >= 0, "notched_shear_compression_side: e must not be negative");
  if (e > d_n) return 2.0 / 3.0 * F_v_prime * b * d_n;
  return 2.0 / 3.0 * F_v_prime * b * (d - ((d - d_n) / d_n) * e);
}

Force shear_at_connection(Stress F_v_prime, Length b, Length d, Length d_e,
                          Length fastener_to_end) {
  require_remaining(b, d, d_e);
  require(fastener_to_end.value() >= 0, "shear_at_connection: distance must not be negative");
  const Force whole = 2.0 / 3.0 * F_v_prime * b * d_e;
  if (fastener_to_end < 5.0 * d) return whole * ((d_e / d) * (d_e / d));
  return whole;
}

bool notch_allowed(NotchPlace place, bool tension_side, Length depth, Length b, Length d) {
  require(depth.value() >= 0 && b.value() > 0 && d.value() > 0, "notch_allowed: lengths");
  if (depth.value() == 0) return true;
  // A hair, so that exactly a quarter of the depth stays a quarter after conversion from inches.
  const Length cut = depth - mm(1e-6);
  switch (place) {
    case NotchPlace::end:
      return cut <= d / 4.0;
    case NotchPlace::outer_third:
      return cut <= d / 6.0 && !(tension_side && b >= inches(3.5));
    case NotchPlace::middle_third:
      return false;
  }
  throw std::domain_error("notch_allowed: unknown place");
}

}  // namespace underprop::standards::north_america

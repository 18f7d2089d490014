#include "standards/north_america/bending.hpp"

#include "standards/north_america/require.hpp"

#include <cmath>
#include <limits>

namespace underprop::standards::north_america {

Length effective_length(BeamLoad load, Length l_u, Length d) {
  require(l_u.value() > 0 && d.value() > 0, "effective_length: l_u and d must be positive");
  const double ratio = l_u / d;
  const bool stocky = ratio < 7.0;
  switch (load) {
    case BeamLoad::uniform:
      return stocky ? 2.06 * l_u : 1.63 * l_u + 3.0 * d;
    case BeamLoad::centre_point_not_held:
      return stocky ? 1.80 * l_u : 1.37 * l_u + 3.0 * d;
    case BeamLoad::centre_point_held:
      return 1.11 * l_u;
    case BeamLoad::two_third_points_held:
      return 1.68 * l_u;
    case BeamLoad::three_quarter_points_held:
      return 1.54 * l_u;
    case BeamLoad::four_fifth_points_held:
      return 1.68 * l_u;
    case BeamLoad::equal_end_moments:
      return 1.84 * l_u;
    case BeamLoad::cantilever_uniform:
      return stocky ? 1.33 * l_u : 0.90 * l_u + 3.0 * d;
    case BeamLoad::cantilever_point_at_end:
      return stocky ? 1.87 * l_u : 1.44 * l_u + 3.0 * d;
    case BeamLoad::any_other:
      if (stocky) return 2.06 * l_u;
      return ratio <= 14.3 ? 1.63 * l_u + 3.0 * d : 1.84 * l_u;
  }
  throw std::domain_error("effective_length: unknown case");
}

double slenderness_ratio_bending(Length l_e, Length b, Length d) {
  require(l_e.value() > 0 && b.value() > 0 && d.value() > 0,
          "slenderness_ratio_bending: lengths must be positive");
  return std::sqrt(l_e * d / (b * b));
}

BeamStability beam_stability(Length l_e, Length b, Length d, Stress F_b_star, Stress E_min_prime) {
  require(F_b_star.value() > 0 && E_min_prime.value() > 0,
          "beam_stability: stresses must be positive");
  BeamStability s;
  s.l_e = l_e;
  s.R_B = slenderness_ratio_bending(l_e, b, d);
  s.F_bE = 1.20 * E_min_prime / (s.R_B * s.R_B);
  s.ratio = s.F_bE / F_b_star;
  if (d <= b) {
    s.C_L = 1.0;
  } else if (s.R_B <= greatest_slenderness_bending) {
    const double a = (1.0 + s.ratio) / 1.9;
    s.C_L = a - std::sqrt(a * a - s.ratio / 0.95);
  }
  return s;
}

LateralSupport lateral_support_needed(double nominal_d_over_b) {
  require(nominal_d_over_b > 0, "lateral_support_needed: the ratio must be positive");
  for (const LateralSupport support :
       {LateralSupport::none, LateralSupport::ends, LateralSupport::ends_and_edge,
        LateralSupport::ends_edge_and_blocking, LateralSupport::ends_and_both_edges}) {
    if (nominal_d_over_b <= greatest_depth_to_breadth(support)) return support;
  }
  return LateralSupport::beyond;
}

double greatest_depth_to_breadth(LateralSupport support) {
  switch (support) {
    case LateralSupport::none:
      return 2.0;
    case LateralSupport::ends:
      return 4.0;
    case LateralSupport::ends_and_edge:
      return 5.0;
    case LateralSupport::ends_edge_and_blocking:
      return 6.0;
    case LateralSupport::ends_and_both_edges:
      return 7.0;
    case LateralSupport::beyond:
      return std::numeric_limits<double>::infinity();
  }
  throw std::domain_error("greatest_depth_to_breadth: unknown case");
}

}  // namespace underprop::standards::north_america

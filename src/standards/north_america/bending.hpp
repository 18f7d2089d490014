// Beam stability and lateral support of bending members: NDS 3.3.3 and 4.4.1.
#pragma once

#include "underprop/base/quantity.hpp"

namespace underprop::standards::north_america {

/// The rows of NDS Table 3.3.3. "Held" = laterally supported at the points of loading.
enum class BeamLoad {
  uniform,                    ///< 1.63 l_u + 3d
  centre_point_not_held,      ///< 1.37 l_u + 3d
  centre_point_held,          ///< 1.11 l_u
  two_third_points_held,      ///< 1.68 l_u
  three_quarter_points_held,  ///< 1.54 l_u
  four_fifth_points_held,     ///< 1.68 l_u
  equal_end_moments,          ///< 1.84 l_u
  cantilever_uniform,         ///< 0.90 l_u + 3d
  cantilever_point_at_end,    ///< 1.44 l_u + 3d
  any_other                   ///< footnote 1: the longest, for all spans and cantilevers
};

/// Effective unbraced length l_e of a bending member of unsupported length l_u. NDS Table 3.3.3
/// with its footnote 1. Valid where the ends are held against rotation.
Length effective_length(BeamLoad load, Length l_u, Length d);

/// Slenderness ratio R_B = sqrt(l_e d/b^2). NDS 3.3.3.6 (3.3-5).
double slenderness_ratio_bending(Length l_e, Length b, Length d);

/// R_B shall not exceed this. NDS 3.3.3.7.
inline constexpr double greatest_slenderness_bending = 50.0;

/// The lines of the beam stability factor, for printing.
struct BeamStability {
  Length l_e;
  double R_B = 0.0;    ///< (3.3-5)
  Stress F_bE;         ///< 1.20 E_min'/R_B^2
  double ratio = 0.0;  ///< F_bE/F_b*
  double C_L = 0.0;    ///< (3.3-6); 0 where R_B > 50: the member may not be used so
};
/// C_L = (1 + F_bE/F_b*)/1.9 - sqrt(((1 + F_bE/F_b*)/1.9)^2 - (F_bE/F_b*)/0.95), with
/// F_bE = 1.20 E_min'/R_B^2. NDS 3.3.3.8 (3.3-6). C_L = 1 where d <= b (3.3.3.1).
BeamStability beam_stability(Length l_e, Length b, Length d, Stress F_b_star, Stress E_min_prime);

/// What holds a sawn bending member upright, from nothing to everything. NDS 4.4.1.2 (a) to (e).
enum class LateralSupport {
  none,                    ///< (a) d/b <= 2
  ends,                    ///< (b) d/b <= 4
  ends_and_edge,           ///< (c) d/b <= 5: compression edge held in line for its entire length
  ends_edge_and_blocking,  ///< (d) d/b <= 6: also blocking or bridging at no more than 8 ft
  ends_and_both_edges,     ///< (e) d/b <= 7
  beyond                   ///< d/b > 7: the rules give nothing; use 3.3.3
};
/// The lateral support that lets C_L be taken as 1, by nominal depth to nominal breadth. NDS
/// 4.4.1.2.
LateralSupport lateral_support_needed(double nominal_d_over_b);

/// The largest nominal d/b that the given support allows. NDS 4.4.1.2.
double greatest_depth_to_breadth(LateralSupport support);

}  // namespace underprop::standards::north_america

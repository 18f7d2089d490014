// Solid columns, and bending together with axial force: NDS 3.7, 3.9 and 15.3.
#pragma once

#include "underprop/base/quantity.hpp"

namespace underprop::standards::north_america {

/// Effective length l_e = K_e l. NDS 3.7.1.2; K_e of Appendix G is data. K_e > 1 is for a post
/// whose top can sway, and needs a base that is proved fixed: a swaying post on a pinned base
/// carries nothing.
Length column_effective_length(double K_e, Length l);

/// l_e/d shall not exceed this. NDS 3.7.1.4.
inline constexpr double greatest_slenderness_column = 50.0;

/// The lines of the column stability factor in one plane, for printing.
struct ColumnStability {
  double slenderness = 0.0;  ///< l_e/d
  Stress F_cE;               ///< 0.822 E_min'/(l_e/d)^2
  double ratio = 0.0;        ///< F_cE/F_c*
  double C_P = 0.0;          ///< (3.7-1); 0 where l_e/d > 50: the post may not be used so
};
/// C_P = (1 + F_cE/F_c*)/(2c) - sqrt(((1 + F_cE/F_c*)/(2c))^2 - (F_cE/F_c*)/c). NDS 3.7.1.5
/// (3.7-1). `c` is 0.8 for sawn lumber, 0.85 for round poles (data). d is the dimension in the
/// plane of buckling. The smaller C_P of the two planes counts.
ColumnStability column_stability(Length l_e, Length d, Stress F_c_star, Stress E_min_prime,
                                 double c = 0.8);

/// The same factor for given F_cE and F_c*, e.g. for an Euler stress by an older coefficient.
double column_stability_factor(Stress F_cE, Stress F_c_star, double c);

/// C_P of a built-up post about the weak axis of its plies: K_f times that of the solid section;
/// K_f 0.6 nailed, 0.75 bolted to 15.3.3 and 15.3.4 (data). NDS 15.3.2 (15.3-1).
double built_up_stability_factor(double C_P_solid, double K_f);

/// f_t/F_t' + f_b/F_b* <= 1. NDS 3.9.1 (3.9-1).
double bending_and_tension(Stress f_t, Stress F_t_prime, Stress f_b, Stress F_b_star);
/// (f_b - f_t)/F_b** <= 1, not below 0. NDS 3.9.1 (3.9-2).
double bending_less_tension(Stress f_b, Stress f_t, Stress F_b_double_star);

/// Axial compression with bending about both axes.
struct CompressionAndBending {
  Stress f_c, F_c_prime;
  Stress F_cE1;  ///< Euler stress for buckling in the plane of bending about the strong axis
  Stress F_cE2;  ///< ... about the weak axis
  Stress f_b1, F_b1_prime;  ///< bending about the strong axis (load on the narrow face)
  Stress f_b2, F_b2_prime;  ///< bending about the weak axis (load on the wide face)
  Stress F_bE;              ///< of C_L, strong axis; only needed if f_b1 and f_b2 are both present
};
/// (f_c/F_c')^2 + f_b1/(F_b1'(1 - f_c/F_cE1)) + f_b2/(F_b2'(1 - f_c/F_cE2 - (f_b1/F_bE)^2)).
/// NDS 3.9.2 (3.9-3). Infinite where a bracket is not positive (3.9-4 and f_c < F_cE). A bending
/// term without bending is left out, and its Euler stress is then not asked for.
double compression_and_bending(const CompressionAndBending& x);

}  // namespace underprop::standards::north_america

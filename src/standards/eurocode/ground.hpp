// Pads on the ground: EN 1997-1 Annex D, effective area, spread through a pad.
//
// Units: mm, N, MPa (1 kPa = 0.001 MPa), unit weight in N/mm3 (1 kN/m3 = 1e-6 N/mm3), angles in
// rad. Arguments without meaning throw std::domain_error.
#pragma once

#include "underprop/base/quantity.hpp"

namespace underprop::standards::eurocode {

/// Weight per volume, N/mm3.
using UnitWeight = Quantity<-3, 1>;
constexpr UnitWeight kilonewtons_per_m3(double n) { return UnitWeight(n * 1e-6); }

/// B' = B - 2 |e|, not below 0. EN 1997-1 Annex D.2 (symbols) and 6.5.4 for e > B/3, where the
/// clause asks for special precautions: see is_eccentricity_excessive.
Length effective_width(Length B, Length e);

/// True for |e| > B/3: the load leaves the range in which the pad may be judged simply.
/// EN 1997-1 6.5.4(1).
bool is_eccentricity_excessive(Length B, Length e);

/// Width of a plain pad that works under a contact of width c: c plus, on each side, the pad's
/// thickness or what there is of the pad, whichever is less (a spread at 45 degrees). Common rule
/// for unreinforced pads.
Length working_width(Length c, Length pad_left, Length pad_right, Length thickness);

/// Design tensile strength of plain concrete, alpha_ct,pl f_ctk,0.05/gamma_C. EN 1992-1-1 12.3.1(2),
/// (12.1). The factors are data of the national annex.
Stress f_ctd_plain(double alpha_ct_pl, Stress f_ctk_0_05, double gamma_C);

/// Least ratio h_F/a of a plain footing's thickness to its projection beyond what stands on it, under
/// the design pressure sigma_gd: sqrt(3 sigma_gd/f_ctd)/0.85. EN 1992-1-1 12.9.3(1), (12.13). It is
/// the cantilever a under sigma_gd bending h_F^2/6 to f_ctd, on 0.85 of the thickness. A ratio of 1,
/// the spread at 45 degrees of working_width, is enough while sigma_gd <= 0.24 f_ctd.
double plain_footing_slope(Pressure sigma_gd, Stress f_ctd);

/// Design value of the angle of shearing resistance, atan(tan phi'/gamma_phi).
/// EN 1997-1 2.4.6.2, Annex A. rad.
double design_friction_angle(double phi, double gamma_phi);

/// Undrained bearing resistance per area, (pi + 2) c_u s_c + q, s_c = 1 + 0.2 B'/L', level base and
/// ground, vertical load. EN 1997-1 Annex D.3, (D.1). `q` total pressure beside the base.
struct UndrainedBearing {
  double s_c = 1.0;
  Pressure resistance;
};
UndrainedBearing undrained_bearing(Stress c_u, Pressure q, Length B, Length L);

/// Drained bearing resistance per area for level base and ground and vertical load,
/// c' N_c s_c + q' N_q s_q + 0.5 gamma' B' N_gamma s_gamma. EN 1997-1 Annex D.4, (D.2):
/// N_q = e^(pi tan phi') tan^2(45 + phi'/2), N_c = (N_q - 1) cot phi',
/// N_gamma = 2 (N_q - 1) tan phi' (rough base), s_q = 1 + (B'/L') sin phi',
/// s_gamma = 1 - 0.3 B'/L', s_c = (s_q N_q - 1)/(N_q - 1).
/// Range: 0 < phi' < 50 degrees; B' and L' effective sides, B' <= L' (given the other way round they
/// change places). gamma' is the submerged unit weight where water stands up to the base.
struct DrainedBearing {
  double N_c = 0.0, N_q = 0.0, N_gamma = 0.0;
  double s_c = 1.0, s_q = 1.0, s_gamma = 1.0;
  Pressure resistance;
};
DrainedBearing drained_bearing(double phi, Stress c, Pressure q, UnitWeight gamma, Length B,
                               Length L);

}  // namespace underprop::standards::eurocode

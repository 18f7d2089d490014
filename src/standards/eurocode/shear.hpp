// Shear and notched ends: EN 1995-1-1 6.1.7 and 6.5.2.
//
// Units: N, mm, MPa. Arguments without meaning throw std::domain_error.
#pragma once

#include "underprop/base/quantity.hpp"

namespace underprop::standards::eurocode {

/// Width that counts in shear of a member under bending, b_ef = k_cr b.
/// EN 1995-1-1 6.1.7(2), (6.13a). `k_cr` is data (national choice).
Length b_ef(Length b, double k_cr);

/// tau = 1.5 V/(b_ef h) of a rectangle; utilisation is tau/f_v,d. EN 1995-1-1 6.1.7(1), (6.13).
Stress shear_stress(Force V, Length b_ef, Length h);

/// May a load on top of the beam be left out of the shear force at this support? True within the
/// depth h (h_ef over a notch on the opposite side) of the support's edge. EN 1995-1-1 6.1.7(3):
/// only where the load acts on the top edge and the support pushes on the bottom edge: never at a
/// hanger, a ledger or a notched support.
bool may_be_left_out_of_shear(Length from_support_edge, Length h);

/// Share that counts of a load spread evenly from `from` to `to` beyond the support's edge (negative: over
/// the support): what of it lies beyond h. EN 1995-1-1 6.1.7(3), each part of the load by itself. Throws
/// unless from < to.
double shear_share_of_spread_load(Length from, Length to, Length h);

/// Shear force of a span l under uniform load on its top edge, without the load within h of the
/// support's edge: V (1 - (2h + l_support)/l), l between support centres, l_support the bearing
/// length. EN 1995-1-1 6.1.7(3). Same restrictions as may_be_left_out_of_shear. Not below 0.
Force reduced_shear_uniform(Force V, Length l, Length h, Length l_support);

/// Side on which a beam is notched at its end.
enum class NotchSide {
  support,  ///< on the side of the reaction: splits, (6.62) applies
  opposite  ///< on the other side: k_v = 1, (6.61)
};

/// A notch at a beam's end.
struct EndNotch {
  NotchSide side = NotchSide::support;
  Length h;                  ///< full depth, mm
  Length h_ef;               ///< depth left, mm, 0 < h_ef <= h
  Length x;                  ///< from the line of the reaction to the corner of the notch, mm
  double inclination = 0.0;  ///< i: run of the taper per unit rise; 0 for a square notch
};

/// Strength factor of a notched end, never above 1. EN 1995-1-1 6.5.2(2), (6.61), (6.62), with
/// alpha = h_ef/h: min{1; k_n (1 + 1.1 i^1.5/sqrt h)
///                        / [sqrt h (sqrt(alpha (1 - alpha)) + 0.8 (x/h) sqrt(1/alpha - alpha^2))]}
/// h in mm. `k_n` is data: 4.5 LVL, 5 solid timber, 6.5 glued laminated timber, (6.63).
double k_v(const EndNotch& notch, double k_n);

/// 1.5 V/(b_ef h_ef), to be compared with k_v f_v,d. EN 1995-1-1 6.5.2(2), (6.60).
Stress notched_shear_stress(Force V, Length b_ef, Length h_ef);

}  // namespace underprop::standards::eurocode

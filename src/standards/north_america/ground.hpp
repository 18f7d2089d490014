// Footings on presumed bearing values: IRC R401.4 and R403.1.
//
// Presumed values are for service loads (all factors 1.0) and nothing else.
#pragma once

#include "underprop/base/quantity.hpp"

namespace underprop::standards::north_america {

/// Allowable pressure under a footing narrower or shallower than the table supposes. Bedded: the
/// presumed value, times width/reference width if narrower. On the surface: that, but no more than
/// `surface_limit`. IRC R401.4.1 with R403.1 (footings of at least `reference_width`, 12 in. into
/// undisturbed ground); the reduction and the limit are judgement (data).
Pressure allowable_bearing(Pressure presumed, Length width, Length reference_width, bool bedded,
                           Pressure surface_limit);

/// The part of a plain footing's side that works: contact + 2 thickness, no more than the side,
/// since the projection shall not exceed the thickness. IRC R403.1.1.
Length working_side(Length side, Length contact, Length thickness);

/// Whether a plain footing keeps to IRC R403.1.1: at least 6 in. thick, projection no more than its
/// thickness. (The least projection of 2 in. is a rule for walls.)
bool projection_allowed(Length side, Length contact, Length thickness);

/// Longest projection of a plain footing of that thickness that bends under the factored pressure w_u:
/// w_u a^2/2 <= phi 5 sqrt(f_c') (t - t_0)^2/6, so a = (t - t_0) sqrt(phi 5 sqrt(f_c')/(3 w_u)); f_c' in
/// psi under the root. ACI 318 14.5.2.1 and 14.5.1.7 (t_0, 2 in. where it is cast on soil). 0 for
/// t <= t_0.
Length plain_concrete_projection(Length thickness, Length cast_on_soil, Stress f_c_prime,
                                 double phi, Pressure w_u);

/// Pressure of load and footing weight on the working area. `unit_weight` of concrete in N/mm3.
Pressure footing_pressure(Force load, Area working, Length thickness, Quantity<-3, 1> unit_weight);

/// Area that a load needs: P/(q - unit weight t), the footing's own weight taken from the allowable
/// pressure. Throws std::domain_error if nothing is left. DCA 6 Table 4 (its basis).
Area footing_area(Force P, Pressure q, Quantity<-3, 1> unit_weight, Length thickness);

/// Thickness at which the projection of a footing around a contact does not exceed it:
/// (side - contact)/2. IRC R403.1.1, DCA 6 Table 4.
Length footing_thickness(Length side, Length contact);

/// 1 lb/ft3 in N/mm3.
constexpr Quantity<-3, 1> pounds_per_cubic_foot(double n) { return psf(n) / feet(1.0); }

}  // namespace underprop::standards::north_america

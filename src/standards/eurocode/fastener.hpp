// Strength of a single fastener's wood and steel: EN 1995-1-1 8.3.1.1, 8.5.1.1, 8.7.1.
//
// Lengths in mm, densities in kg/m3 inside the clauses, f_h in MPa, M_y in N mm, angles in rad.
// std::nullopt = outside the clause's range: such a fastener has no capacity by this clause.
// Arguments without meaning throw std::domain_error.
#pragma once

#include "underprop/base/quantity.hpp"

#include <optional>

namespace underprop::standards::eurocode {

/// Embedment strength for nails (and screws of d_ef <= 6 mm): 0.082 rho_k d^-0.3 without,
/// 0.082 (1 - 0.01 d) rho_k with predrilled holes. EN 1995-1-1 8.3.1.1(5), (8.15), (8.16).
/// Range: d <= 8 mm; timber heavier than 500 kg/m3 only predrilled (8.3.1.1(2)).
std::optional<Stress> f_h_nail(Length d, Density rho_k, bool predrilled);

/// Embedment strength for bolts (and screws of d_ef > 6 mm) along the grain,
/// 0.082 (1 - 0.01 d) rho_k. EN 1995-1-1 8.5.1.1(2), (8.32). Range: d <= 30 mm.
std::optional<Stress> f_h_0_bolt(Length d, Density rho_k);

/// k_90 = 1.35 + 0.015 d (softwood), 0.90 + 0.015 d (hardwood). EN 1995-1-1 8.5.1.1(2), (8.33).
double k_90(Length d, bool hardwood);

/// Embedment strength at the angle alpha between force and grain,
/// f_h,0/(k_90 sin^2 alpha + cos^2 alpha). EN 1995-1-1 8.5.1.1(2), (8.31). Range: d <= 30 mm.
std::optional<Stress> f_h_bolt(Length d, Density rho_k, double alpha, bool hardwood);

/// Yield moment of round nails, bolts and screws, 0.3 f_u d^2.6.
/// EN 1995-1-1 8.3.1.1(4), (8.14); 8.5.1.1(1), (8.30). Nails: f_u at least 600 MPa.
Moment M_y_Rk_round(Stress f_u, Length d);

/// Yield moment of square and grooved nails, 0.45 f_u d^2.6. EN 1995-1-1 8.3.1.1(4), (8.14).
Moment M_y_Rk_square(Stress f_u, Length d);

/// Effective diameter of a screw: the shank's where the smooth shank reaches at least 4d into the
/// piece with the point, otherwise 1.1 times the root diameter. EN 1995-1-1 8.7.1(1), (3).
Length screw_d_ef(Length d_shank, Length d_root, Length smooth_shank_in_point_piece);

/// True where a screw follows the rules for nails (d_ef <= 6 mm); beyond, those for bolts.
/// EN 1995-1-1 8.7.1(4), (5).
bool screw_follows_nail_rules(Length d_ef);

/// Least penetration of the point for a nail to count sideways: 8d smooth, 6d other than smooth.
/// EN 1995-1-1 8.3.1.2(1), (2).
Length minimum_point_penetration(Length d, bool smooth);

/// Least thickness of a timber piece nailed without predrilling, max(7d; (13d - 30) rho_k/400).
/// EN 1995-1-1 8.3.1.2(6), (8.18).
Length minimum_thickness_not_predrilled(Length d, Density rho_k);

}  // namespace underprop::standards::eurocode

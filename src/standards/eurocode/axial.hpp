// Fasteners loaded along their axis: EN 1995-1-1 8.3.2 (nails), 8.5.2 (bolts), 8.7.2 (screws).
//
// Lengths in mm, densities in kg/m3 inside the clauses, f_ax in MPa, angles in rad.
// std::nullopt = outside the clause's range: such a fastener has no capacity by this clause.
// Arguments without meaning throw std::domain_error.
#pragma once

#include "underprop/base/quantity.hpp"

#include <optional>

namespace underprop::standards::eurocode {

/// Withdrawal strength of a smooth nail, 20e-6 rho_k^2. EN 1995-1-1 8.3.2(6), (8.25).
/// Range: penetration >= 12d (shorter ones are reduced by nail_withdrawal).
Stress f_ax_k_smooth_nail(Density rho_k);

/// Pull-through strength of a nail's head, 70e-6 rho_k^2. EN 1995-1-1 8.3.2(6), (8.26).
Stress f_head_k_nail(Density rho_k);

/// A nail pulled along its axis out of side grain.
struct AxialNail {
  Length d;         ///< diameter
  Length d_h;       ///< head diameter
  Length t;         ///< thickness of the piece under the head
  Length t_pen;     ///< penetration of the point (threaded part for threaded nails)
  Stress f_ax_k;    ///< withdrawal strength
  Stress f_head_k;  ///< head pull-through strength
};

/// Smooth nails: min{f_ax d t_pen; f_ax d t + f_head d_h^2}. EN 1995-1-1 8.3.2(4), (8.24), times
/// (t_pen/(4d) - 2) for 8d <= t_pen < 12d, 8.3.2(7). std::nullopt below 8d. Smooth nails hold no
/// permanent or long-term pull (8.3.2(1)), and no nail in end grain does (8.3.2(3)).
std::optional<Force> F_ax_Rk_smooth_nail(const AxialNail& nail);

/// Other nails: min{f_ax d t_pen; f_head d_h^2}. EN 1995-1-1 8.3.2(4), (8.23), times
/// (t_pen/(2d) - 3) for 6d <= t_pen < 8d, 8.3.2(7). std::nullopt below 6d.
std::optional<Force> F_ax_Rk_threaded_nail(const AxialNail& nail);

/// Withdrawal strength of a screw of 6 to 12 mm, 0.52 d^-0.5 l_ef^-0.1 rho_k^0.8.
/// EN 1995-1-1 8.7.2(4), (8.39). Range: 6 <= d <= 12 mm, l_ef >= 6d; the ratio of root to outer
/// diameter 0.6 to 0.75.
std::optional<Stress> f_ax_k_screw(Length d, Length l_ef, Density rho_k);

/// k_d = min(d/8; 1), d in mm. EN 1995-1-1 8.7.2(4), (8.40).
double k_d(Length d);

/// Effective number of screws acting together along their axis, n^0.9. EN 1995-1-1 8.7.2(8),
/// (8.41).
double n_ef_axial_screws(int n);

/// Withdrawal resistance of n screws at the angle alpha to the grain,
/// n_ef f_ax,k d l_ef k_d/(1.2 cos^2 alpha + sin^2 alpha). EN 1995-1-1 8.7.2(4), (8.38), with
/// (8.39) for f_ax,k. Range: of f_ax_k_screw; alpha >= 30 degrees.
std::optional<Force> F_ax_Rk_screws(int n, Length d, Length l_ef, Density rho_k, double alpha);

/// Withdrawal resistance of n screws with a declared strength f_ax,k for timber of density rho_a:
/// n_ef f_ax,k d l_ef/(1.2 cos^2 alpha + sin^2 alpha) (rho_k/rho_a)^0.8.
/// EN 1995-1-1 8.7.2(5), (8.40a). Range: l_ef >= 6d, alpha >= 30 degrees.
std::optional<Force> F_ax_Rk_declared_screws(int n, Stress f_ax_k, Length d, Length l_ef,
                                             Density rho_k, Density rho_a, double alpha);

/// Head pull-through of n screws, n_ef f_head,k d_h^2 (rho_k/rho_a)^0.8.
/// EN 1995-1-1 8.7.2(6), (8.40b).
Force F_head_Rk_screws(int n, Stress f_head_k, Length d_h, Density rho_k, Density rho_a);

/// Axial resistance of a bolt: the smaller of its own tensile resistance and 3 f_c,90,k on the
/// washer's net area. EN 1995-1-1 8.5.2(1), (2).
Force F_ax_Rk_bolt(Force tension_Rk, Stress f_c_90_k, Length washer_diameter, Length hole_diameter);

/// Combined pull and shear: squares for screws, bolts and threaded nails, sum for smooth nails.
/// EN 1995-1-1 8.3.3(1), (8.27), (8.28); 8.7.3.
double combined_axial_and_lateral(double axial_ratio, double lateral_ratio, bool smooth_nail);

}  // namespace underprop::standards::eurocode

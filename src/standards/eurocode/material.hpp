// Strength and stiffness of timber for design: EN 1995-1-1 sections 2.2 to 2.4 and 3.2.
//
// Units: MPa, N, N/mm, mm. Every function throws std::domain_error for arguments without meaning
// (sizes or factors that are not positive).
#pragma once

#include "underprop/base/quantity.hpp"

namespace underprop::standards::eurocode {

/// Depth factor for bending (depth h) and tension (largest cross-sectional side h) of rectangular
/// solid timber. EN 1995-1-1 3.2(3), (3.1): min((150/h)^0.2, 1.3) for h < 150 mm and
/// rho_k <= 700 kg/m3; 1 otherwise.
double k_h(Length h, Density rho_k);

/// X_d = k_mod X_k / gamma_M. EN 1995-1-1 2.4.1(1), (2.14).
Stress design_strength(double k_mod, Stress X_k, double gamma_M);

/// R_d = k_mod R_k / gamma_M. EN 1995-1-1 2.4.3(1), (2.17).
Force design_resistance(double k_mod, Force R_k, double gamma_M);

/// k_mod of a connection of two parts of different time-dependent behaviour: sqrt(k_mod,1 k_mod,2).
/// EN 1995-1-1 2.3.2.1(2), (2.6).
double k_mod_of_connection(double k_mod_1, double k_mod_2);

/// k_def of a connection: 2 sqrt(k_def,1 k_def,2), which is twice k_def where both parts are alike.
/// EN 1995-1-1 2.3.2.2(3) and (4), (2.13).
double k_def_of_connection(double k_def_1, double k_def_2);

/// Final mean modulus E/(1 + psi_2 k_def). psi_2 = 1 for permanent actions and, in serviceability,
/// for every quasi-permanent part. EN 1995-1-1 2.3.2.2(1) and (2), (2.7), (2.10). Holds for
/// E_mean and G_mean ((2.8), (2.11)).
Stress modulus_final(Stress E_mean, double psi_2, double k_def);

/// Final slip modulus K/(1 + psi_2 k_def), k_def of the connection. EN 1995-1-1 (2.9), (2.12).
Stiffness slip_modulus_final(Stiffness K, double psi_2, double k_def);

/// Design value of a member's stiffness, E_mean/gamma_M, for second-order analysis.
/// EN 1995-1-1 2.4.1(2), (2.15).
Stress modulus_design(Stress E_mean, double gamma_M);

/// Strength factor of a system of equal members. EN 1995-1-1 6.6(2): k_sys where a continuous
/// load-distribution system can pass load from one member to its neighbours, four or more similar
/// members take part, and 6.6(3) is met; otherwise 1. `k_sys` is the standard's value (data). A
/// load that covers most of the linked members leaves no neighbour to pass it to: the caller then
/// says `neighbours_can_take_over` = false.
double system_strength_factor(int similar_members, bool neighbours_can_take_over, double k_sys);

}  // namespace underprop::standards::eurocode

// Several fasteners together: effective number and spacing. EN 1995-1-1 8.3.1, 8.5.1, 8.7.2.
//
// Lengths in mm, angles in rad between force and grain. Arguments without meaning throw
// std::domain_error.
#pragma once

#include "underprop/base/quantity.hpp"

#include <optional>

namespace underprop::standards::eurocode {

/// Exponent k_ef for a row of nails (screws d_ef <= 6 mm) along the grain. EN 1995-1-1 8.3.1.1(8),
/// Table 8.1: 1 for a_1 >= 14d, 0.85 at 10d, 0.7 at 7d, 0.5 at 4d (predrilled only), linear
/// between. std::nullopt for a closer spacing: the row does not count.
std::optional<double> k_ef(Length a_1, Length d, bool predrilled);

/// Effective number of nails in a row along the grain, n^k_ef. EN 1995-1-1 8.3.1.1(8), (8.17).
/// Nails staggered across the grain by at least 1d count fully (k_ef = 1).
double n_ef_nails(int n, double k_ef);

/// Effective number of bolts in a row along the grain, force at the angle alpha to the grain:
/// min{n; n^0.9 (a_1/(13d))^0.25} at 0, n at 90 degrees, linear between.
/// EN 1995-1-1 8.5.1.1(4), (5), (8.34), (8.35).
double n_ef_bolts(int n, Length a_1, Length d, double alpha);

/// Least spacings and distances, mm.
struct Spacing {
  Length a_1;    ///< along the grain, between fasteners of a row
  Length a_2;    ///< across the grain, between rows
  Length a_3_t;  ///< loaded end
  Length a_3_c;  ///< unloaded end
  Length a_4_t;  ///< loaded edge
  Length a_4_c;  ///< unloaded edge
};

/// Nails and screws of d_ef <= 6 mm. EN 1995-1-1 8.3.1.2(5), Table 8.2: not predrilled up to
/// 420 kg/m3, not predrilled up to 500 kg/m3, predrilled. std::nullopt for timber above 500 kg/m3
/// that is not predrilled. alpha from 0 to pi/2.
std::optional<Spacing> nail_spacing(Length d, Density rho_k, bool predrilled, double alpha);

/// Bolts and screws of d_ef > 6 mm. EN 1995-1-1 8.5.1.1(3), Table 8.4. alpha from 0 to pi.
/// a_3,c is (1 + 6 |sin alpha|) d, at least 4d, for every alpha.
Spacing bolt_spacing(Length d, double alpha);

/// Screws loaded along their axis: a_1 7d, a_2 5d, a_1,CG 10d, a_2,CG 4d. EN 1995-1-1 8.7.2(2),
/// Table 8.6 (A1:2008). Range: timber thickness >= 12d.
struct AxialSpacing {
  Length a_1, a_2, a_1_CG, a_2_CG;
};
AxialSpacing axial_screw_spacing(Length d);

/// Characteristic splitting resistance of a softwood member pulled across the grain by its
/// connections, 14 b sqrt(h_e/(1 - h_e/h)), N. EN 1995-1-1 8.1.4(3), (8.4), w = 1. `h_e` from the
/// loaded edge to the farthest fastener, h_e < h. To be compared with the larger shear force beside
/// the connection, (8.2), (8.3).
Force F_90_Rk(Length b, Length h, Length h_e);

/// Slip modulus at service loads, per shear plane and fastener, N/mm. EN 1995-1-1 7.1(1),
/// Table 7.1, rho_m in kg/m3, d in mm. Connections of two densities: rho_m = sqrt(rho_1 rho_2);
/// steel to timber: times 2 (7.1(2), (3)).
Stiffness K_ser_nail_not_predrilled(Density rho_m, Length d);  ///< rho_m^1.5 d^0.8/30
/// rho_m^1.5 d/23: bolts (clearance to be added), screws, predrilled nails, dowels. Table 7.1.
Stiffness K_ser_dowel_type(Density rho_m, Length d);
/// Slip modulus at the ultimate limit state, (2/3) K_ser. EN 1995-1-1 2.2.2(2), (2.1).
Stiffness K_u(Stiffness K_ser);

/// Composite factor of one mechanically fixed layer, 1/(1 + pi^2 E A s/(K l^2)).
/// EN 1995-1-1 Annex B, (B.5). `s` spacing of the fasteners, `l` span.
double gamma_composite(Stress E, Area A, Length s, Stiffness K, Length l);

}  // namespace underprop::standards::eurocode

// Members in compression along the grain, alone and with bending: EN 1995-1-1 6.2.4, 6.3.2, 6.3.3.
//
// Units: mm, MPa. Arguments without meaning throw std::domain_error.
#pragma once

#include "underprop/base/quantity.hpp"

namespace underprop::standards::eurocode {

/// The lines of flexural buckling about one axis, for printing.
struct Buckling {
  double lambda = 0.0;      ///< buckling length / radius of gyration
  double lambda_rel = 0.0;  ///< (6.21), (6.22)
  double k = 1.0;           ///< (6.27), (6.28)
  double k_c = 1.0;         ///< (6.25), (6.26); 1 for lambda_rel <= 0.3
};

/// Flexural buckling of a rectangle. `side` is the dimension in the plane of buckling, so
/// lambda = sqrt(12) l_ef/side. lambda_rel = (lambda/pi) sqrt(f_c,0,k/E_0,05);
/// k = 0.5 (1 + beta_c (lambda_rel - 0.3) + lambda_rel^2); k_c = 1/(k + sqrt(k^2 - lambda_rel^2)).
/// EN 1995-1-1 6.3.2(1) to (3). `beta_c` is data: 0.2 solid timber, 0.1 glulam and LVL, (6.29).
Buckling buckling(Length l_ef, Length side, Stress f_c_0_k, Stress E_0_05, double beta_c);

/// Stress ratios sigma/f of a member in compression and bending.
struct StressRatios {
  double compression = 0.0;  ///< sigma_c,0,d/f_c,0,d
  double bending_y = 0.0;    ///< sigma_m,y,d/f_m,y,d
  double bending_z = 0.0;    ///< sigma_m,z,d/f_m,z,d
};

/// Larger of (6.23) and (6.24); where neither lambda_rel exceeds 0.3, larger of (6.19) and (6.20).
/// EN 1995-1-1 6.3.2(2), (3) and 6.2.4(1). `k_m` is data (0.7 rectangular).
double compression_and_bending_utilisation(const StressRatios& ratios, const Buckling& about_y,
                                           const Buckling& about_z, double k_m);

/// (sigma_m,d/(k_crit f_m,d))^2 + sigma_c,0,d/(k_c,z f_c,0,d): bending about the strong axis with
/// compression, lateral torsional buckling. EN 1995-1-1 6.3.3(6), (6.35).
double beam_column_utilisation(const StressRatios& ratios, double k_crit, double k_c_z);

}  // namespace underprop::standards::eurocode

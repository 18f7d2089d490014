// Deflection and vibration in service: EN 1995-1-1 2.2.3, 7.2, 7.3.3, and the closed forms for a
// simple span that hand checks use.
//
// Units: mm, N, N/mm, MPa unless a comment says otherwise. Arguments without meaning throw
// std::domain_error.
#pragma once

#include "underprop/base/quantity.hpp"

namespace underprop::standards::eurocode {

/// Deflection of a simple span, bending and shear parts apart.
struct SpanDeflection {
  Length bending;
  Length shear;
  Length total;
};

/// Rectangular simple span under uniform load: 5 q l^4/(384 E I) + 1.2 q l^2/(8 G A).
/// Statics of a shear-flexible beam, shear coefficient 1.2 of a rectangle.
SpanDeflection deflection_uniform(LineLoad q, Length l, Length b, Length h, Stress E, Stress G);

/// Rectangular simple span with a point load at mid-span: F l^3/(48 E I) + 1.2 F l/(4 G A).
SpanDeflection deflection_midspan_point(Force F, Length l, Length b, Length h, Stress E, Stress G);

/// Final deflection of members of one k_def: w_G (1 + k_def) + w_Q1 (1 + psi_2 k_def).
/// EN 1995-1-1 2.2.3(5), (2.2) to (2.4).
Length final_deflection(Length w_inst_G, Length w_inst_Q, double psi_2, double k_def);

/// Its part that comes with time: k_def (w_G + psi_2 w_Q).
Length creep_deflection(Length w_inst_G, Length w_inst_Q, double psi_2, double k_def);

/// A rectangular floor on two sides. The clause prints these in N, m, kg and s, so they are here.
struct VibratingFloor {
  double EI_l_Nm2_per_m = 0.0;  ///< (EI)_l along the joists
  double EI_b_Nm2_per_m = 0.0;  ///< (EI)_b across them, < (EI)_l
  double mass_kg_per_m2 = 0.0;
  double span_m = 0.0;
  double width_m = 0.0;
};
struct FloorVibration {
  double f_1_Hz = 0.0;       ///< fundamental frequency, (7.5); the clause asks for > 8 Hz
  double n_40 = 0.0;         ///< number of modes below 40 Hz, (7.7)
  double v_m_per_Ns2 = 0.0;  ///< unit impulse velocity response, (7.6)
};
/// EN 1995-1-1 7.3.3(4) to (6), (7.5), (7.6), (7.7). Range: f_1 <= 40 Hz for n_40 and v (0 beyond).
FloorVibration floor_vibration(const VibratingFloor& floor);

}  // namespace underprop::standards::eurocode

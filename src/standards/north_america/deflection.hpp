// Deflection with creep, and the deflection of simple spans: NDS 3.5.
#pragma once

#include "underprop/base/quantity.hpp"

namespace underprop::standards::north_america {

/// Delta_T = K_cr Delta_LT + Delta_ST. NDS 3.5.2 (3.5-1). K_cr 2.0 for wet service, 1.5 for
/// seasoned lumber used dry (data).
Length long_term_deflection(double K_cr, Length Delta_LT, Length Delta_ST);

/// 5 w l^4/(384 E' I), simple span under uniform load, shear not counted. NDS 3.5.1.
Length deflection_uniform(LineLoad w, Length l, Stress E_prime, SecondMoment I);

/// P l^3/(48 E' I), simple span with a load at midspan. NDS 3.5.1.
Length deflection_centre_point(Force P, Length l, Stress E_prime, SecondMoment I);

/// P a^2 (l + a)/(3 E' I) at the end of an overhang a beyond a simple span l.
Length deflection_overhang_tip(Force P, Length a, Length l, Stress E_prime, SecondMoment I);

}  // namespace underprop::standards::north_america

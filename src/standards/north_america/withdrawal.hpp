// Fasteners pulled along their axis: NDS 12.2. Reference values: normal duration, dry.
#pragma once

#include "underprop/base/quantity.hpp"

namespace underprop::standards::north_america {

/// W = 1,800 G^1.5 D^0.75 lb per inch of thread in side grain, the tapered tip left out; D is the
/// shank diameter in inches. NDS 12.2.1 (12.2-1), Table 12.2A.
LineLoad withdrawal_lag_screw(double G, Length D);

/// W = 2,850 G^2 D lb per inch of thread in side grain; not allowed in end grain. NDS 12.2.2
/// (12.2-2).
LineLoad withdrawal_wood_screw(double G, Length D);

/// W = 1,380 G^2.5 D lb per inch of penetration of a smooth nail in side grain; not allowed in end
/// grain. NDS 12.2.3 (12.2-3).
LineLoad withdrawal_nail(double G, Length D);

/// Lag or wood screw pulled and sheared at once: W' Z'/(W' cos^2 + Z' sin^2), alpha the angle of the
/// load to the surface of the wood in degrees, W' the whole withdrawal value. NDS 12.4.1 (12.4-1).
Force pulled_and_sheared(Force W_prime, Force Z_prime, double alpha_deg);

/// Use of such a screw pulled by T and sheared by V: the larger of F over the value of
/// pulled_and_sheared, F^2 = T^2 + V^2 at tan alpha = T/V, and T/W', since that value rises above W'
/// where Z' is far above it. NDS 12.4.1 with 11.3.1 for the pull alone.
double use_pulled_and_sheared(Force W_prime, Force Z_prime, Force T, Force V);

/// Thread that holds in the main member: length - side member - tip, not more than the threaded
/// length less the tip, not below 0. NDS 12.2.1.1 and Appendix L.
Length effective_thread(Length screw_length, Length thread_length, Length side_thickness,
                        Length tip);

}  // namespace underprop::standards::north_america

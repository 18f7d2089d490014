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

/// Thread that holds in the main member: length - side member - tip, not more than the threaded
/// length less the tip, not below 0. NDS 12.2.1.1 and Appendix L.
Length effective_thread(Length screw_length, Length thread_length, Length side_thickness,
                        Length tip);

}  // namespace underprop::standards::north_america

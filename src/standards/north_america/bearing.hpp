// Bearing across, along and at an angle to the grain: NDS 3.10.
#pragma once

#include "underprop/base/quantity.hpp"

namespace underprop::standards::north_america {

/// C_b = (l_b + 0.375 in.)/l_b for a bearing less than 6 in. long, 3 in. or more from the end of
/// the member; otherwise 1. l_b is measured along the grain. NDS 3.10.4 (3.10-2).
double bearing_area_factor(Length l_b, Length end_distance);

/// f_c_perp = R/(width l_b). NDS 3.10.2.
Stress bearing_stress(Force R, Length width, Length l_b);

/// F_theta' = F_c* F_c_perp'/(F_c* sin^2 + F_c_perp' cos^2), angle between load and grain in
/// degrees. NDS 3.10.3 (3.10-1). Serves the dowel bearing strength as well: NDS 12.3.4 (12.3-11).
Stress at_angle_to_grain(Stress parallel, Stress perpendicular, double theta_deg);

}  // namespace underprop::standards::north_america

// Shear in bending members, notches, and connections near an end: NDS 3.4, 3.2.3 and 4.4.3.
#pragma once

#include "underprop/base/quantity.hpp"

namespace underprop::standards::north_america {

/// f_v = 3 V/(2 b d) of a rectangle. NDS 3.4.2 (3.4-2). The sign of V is dropped.
Stress shear_stress(Force V, Length b, Length d);

/// Share of a concentrated load that counts towards shear: x/d within d of the support face, else
/// 1. NDS 3.4.3.1(a)2. Only where the beam bears on its full width on one surface and is loaded on
/// the opposite one: never at hangers and side connections. x is measured from the face of the
/// support.
double shear_share_of_point_load(Length x, Length d);

/// The mean of that over a load spread evenly from `from` to `to` beyond the face (negative: over the
/// support). NDS 3.4.3.1(a)2 for each part of it. Throws unless from < to.
double shear_share_of_spread_load(Length from, Length to, Length d);

/// Shear of a simple span under uniform load with the load within d of both support faces left out,
/// w(l/2 - d), not below 0; l is the clear span. NDS 3.4.3.1(a)1, same condition.
Force shear_of_uniform_load(LineLoad w, Length clear_span, Length d);

/// V_r' = (2/3) F_v' b d_n (d_n/d)^2 with a notch on the tension side at the end; d_n is the depth
/// left. NDS 3.4.3.2(a) (3.4-3). d_n = d gives the beam without a notch.
Force notched_shear_tension_side(Stress F_v_prime, Length b, Length d, Length d_n);

/// V_r' = (2/3) F_v' b (d - ((d - d_n)/d_n) e) with a notch on the compression side at the end; e
/// is how far it reaches beyond the inner face of the support. With e > d_n only d_n counts.
/// NDS 3.4.3.2(e) (3.4-5).
Force notched_shear_compression_side(Stress F_v_prime, Length b, Length d, Length d_n, Length e);

/// V_r' of a beam held by fasteners: (2/3) F_v' b d_e (d_e/d)^2 less than 5d from its end, else
/// (2/3) F_v' b d_e; d_e is d less the distance from the unloaded edge to the centre of the nearest
/// bolt. NDS 3.4.3.3 (3.4-6), (3.4-7).
Force shear_at_connection(Stress F_v_prime, Length b, Length d, Length d_e, Length fastener_to_end);

/// Where a notch lies along the span.
enum class NotchPlace { end, outer_third, middle_third };
/// Whether a notch of `depth` is allowed in a sawn bending member: d/4 at the end over a bearing,
/// d/6 in the outer thirds (not on the tension side of members 3.5 in. thick and more), none in the
/// middle third. NDS 4.4.3.
bool notch_allowed(NotchPlace place, bool tension_side, Length depth, Length b, Length d);

}  // namespace underprop::standards::north_america

// Footings on an elastic half-space. The ground does not know the standard: every one settles alike.
//
// Units: mm, N, MPa. Arguments without meaning throw std::domain_error.
#pragma once

#include "underprop/base/quantity.hpp"

namespace underprop::standards {

/// Vertical stiffness of a rigid rectangular footing B x L on the surface of an elastic half-space,
/// N/mm: G L/(1 - nu) (0.73 + 1.54 (B/L)^0.75), B <= L full sides, G = E/(2 (1 + nu)).
/// Foundation Engineering Handbook, 2nd ed., chapter 15. A square gives 1.135 E B/(1 - nu^2).
/// Range: 0 <= nu <= 0.5.
Stiffness rigid_rectangle_stiffness(Length B, Length L, Stress E, double nu);

/// Vertical stiffness of a rigid circular footing on the half-space, E D/(1 - nu^2) (exact).
/// Statics of the elastic half-space.
Stiffness rigid_circle_stiffness(Length D, Stress E, double nu);

/// Settlement of the half-space's surface per unit of point load at the distance r,
/// (1 - nu^2)/(pi E r), mm/N. Used for a neighbouring pad at r >= its width.
/// Statics of the elastic half-space, Boussinesq.
Quantity<1, -1> neighbour_flexibility(Length r, Stress E, double nu);

}  // namespace underprop::standards

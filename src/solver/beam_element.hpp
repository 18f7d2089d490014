// The shear-flexible beam element: stiffness, loads between the ends, internal forces, deflection.
//
// Units N, mm, rad. Along x' (from i to j): w up, section rotation psi (dw/dx' without shear
// strain), M = EI dpsi/dx' sagging positive, V = dM/dx', shear strain dw/dx' - psi = -V/kGA, and
// dV/dx' = q, up positive. From the rotations of a node psi = n.(tx, ty) with n = (cy, -cx), and
// the twist phi = cx tx + cy ty.
//
// Bending is written in two basic deformations, the end rotations against the chord
//   e_i = psi_i - (w_j - w_i)/L,  e_j = psi_j - (w_j - w_i)/L,
// whose conjugate moments are m_i = -M(0), m_j = +M(L). Flexibilities add: bending L/6EI [2 -1; -1 2],
// shear 1/(kGA L) [1 1; 1 1], end springs diag(1/k_i, 1/k_j). Inverting the sum gives the exact
// stiffness of the element with its springs; a released end is the limit of a spring going to 0.
// Source: J. S. Przemieniecki, Theory of Matrix Structural Analysis (1968), sections 5.6 (shear
// flexible beam) and 6.2 (stiffness from flexibility).
#pragma once

#include "underprop/solver/frame.hpp"

#include <array>
#include <vector>

namespace underprop::solver {

/// Six values at the ends of a member in global directions: w, tx, ty at i, then at j
/// (displacements) or Fz, Mx, My (forces).
using EndVector = std::array<double, 6>;

struct BeamElement {
  double L = 0.0;                             ///< mm
  double cx = 0.0, cy = 0.0;                  ///< direction of x'
  double EI = 0.0, kGA = 0.0;                 ///< N mm2, N
  double k_ii = 0.0, k_ij = 0.0, k_jj = 0.0;  ///< m = k e, N mm/rad, end springs included
  double k_t = 0.0;  ///< torque per difference of twist, N mm/rad, end springs included
};

/// Precondition: a valid member (see validation.hpp).
[[nodiscard]] BeamElement beam_element(const Member& member, const Node& i, const Node& j);

/// 6 x 6 stiffness in global directions, row by row.
[[nodiscard]] std::array<EndVector, 6> stiffness(const BeamElement& element);

/// K u, computed through the basic deformations, so that a rigid motion costs no digits.
[[nodiscard]] EndVector stiffness_times(const BeamElement& element, const EndVector& u);

/// Twice the strain energy of the end displacements, a sum of non-negative terms.
[[nodiscard]] double twice_energy(const BeamElement& element, const EndVector& u);

/// What loads between the ends do to the simply supported member: end rotations against the chord
/// (shear strain does not turn them, because the integral of V over a simple beam is 0), and the
/// statically equivalent vertical forces at the two nodes, up positive.
struct LoadEffect {
  double e_i = 0.0, e_j = 0.0;
  double F_i = 0.0, F_j = 0.0;
  void add(const LoadEffect& other, double factor);
};

[[nodiscard]] LoadEffect point_load_effect(const BeamElement& element, double P, double a);
[[nodiscard]] LoadEffect line_load_effect(const BeamElement& element, double q1, double q2,
                                          double a, double b);

/// Nodal loads that stand for the loads on the member in K u = f: exact fixed-end forces, negated.
[[nodiscard]] EndVector equivalent_nodal_loads(const BeamElement& element,
                                               const LoadEffect& effect);

/// Internal forces at the ends; V at an end includes a point load that stands exactly there.
struct EndForces {
  double Mi = 0.0, Mj = 0.0, Vi = 0.0, Vj = 0.0, T = 0.0;
};
[[nodiscard]] EndForces end_forces(const BeamElement& element, const EndVector& u,
                                   const LoadEffect& effect);

/// The loads on one member, already multiplied by their factors (`member` is not read).
struct SpanLoads {
  std::vector<LineLoad> line;
  std::vector<PointLoad> point;
};

struct SectionForces {
  double M = 0.0, V = 0.0;
};
/// Moment and shear at x' = at, shear just right of it. `ends` as of end_forces.
[[nodiscard]] SectionForces section_forces(const EndForces& ends, const SpanLoads& loads,
                                           double at);

/// Largest |M| and |V| over the member: at ends, at load boundaries, on both sides of point loads,
/// where q = 0 (shear) and where V = 0 (moment).
struct Extremes {
  double M = 0.0, V = 0.0;
};
[[nodiscard]] Extremes extremes(double L, const EndForces& ends, const SpanLoads& loads);

/// Deflection at x' = at, given the deflections of the two nodes; exact, shear strain included.
[[nodiscard]] double deflection_at(const BeamElement& element, double w_i, double w_j,
                                   const EndForces& ends, const SpanLoads& loads, double at);

}  // namespace underprop::solver

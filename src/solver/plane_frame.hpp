// Plane frames in a vertical plane: first order, second order, and the critical load factor.
//
// Units are consistent: N, mm, rad (N/mm and N mm/rad for springs). Axes: x to the right, z up;
// rotations and moments anticlockwise positive (for a member along +x, dw/dx = theta; for one along
// +z, du/dz = -theta). Axial forces are positive in tension. Every node has the freedoms u (along x),
// w (along z) and theta; a rotation that nothing holds and nothing turns is left out.
//
// Members are straight, prismatic and linear elastic. One that bends is divided into `parts` elements:
// Timoshenko's beam with shape functions that are exact without axial force (stiffness: Przemieniecki,
// Theory of Matrix Structural Analysis, 1968, (5.116)), and the consistent geometric stiffness of the
// same shape functions (McGuire, Gallagher and Ziemian, Matrix Structural Analysis, 2nd ed., 2000, 9.3,
// for kGA infinite; with shear the axial force acts on the whole slope of the axis, Engesser's
// assumption). Eight parts are within 0.01 % of the exact beam column up to a member's own Euler load without
// shear deformation, and within 0.3 % if that lowers the load by a fifth.
// A member without EI is a bar: axial force only, and the string's geometric stiffness.
//
// Second order: displacements are small against the members' lengths; equilibrium is that of the moved
// nodes (P-delta of the frame and of each member). Sources are from memory.
#pragma once

#include "underprop/solver/frame.hpp"

#include <optional>
#include <string>
#include <vector>

namespace underprop::solver::plane {

struct Node {
  std::string id;
  double x = 0.0;
  double z = 0.0;
};

struct Member {
  std::string id;
  std::string piece;  ///< the name of the thing it belongs to; used in messages
  int i = -1;
  int j = -1;
  double EA = 0.0;  ///< N, > 0
  double EI = 0.0;  ///< N mm2, >= 0; 0: a bar hinged at both ends
  double kGA = rigid;
  double rotation_i = rigid;  ///< spring between member and node, N mm/rad; 0: a hinge
  double rotation_j = rigid;
  int parts = 8;  ///< elements, 1 to 64; without meaning for a bar
};

/// Springs to the ground at one node, N/mm and N mm/rad; `rigid` holds, 0 lets go. Two-way.
struct Support {
  std::string id;
  int node = -1;
  double k_u = 0.0;
  double k_w = 0.0;
  double k_theta = 0.0;
};

struct Load {
  int node = -1;
  double Fx = 0.0;  ///< N, along +x
  double Fz = 0.0;  ///< N, up
  double M = 0.0;   ///< N mm, anticlockwise
};

struct Frame {
  std::vector<Node> nodes;
  std::vector<Member> members;
  std::vector<Support> supports;
};

struct Displacement {
  double u = 0.0, w = 0.0, theta = 0.0;
};
struct MemberForces {
  double N = 0.0;          ///< tension positive; the least (most compressed) along the member
  double V_i = 0.0;        ///< on end i, across the unmoved axis, to the left of i -> j positive
  double M_i = 0.0;        ///< on end i, anticlockwise
  double M_j = 0.0;        ///< on end j, anticlockwise
  double M_largest = 0.0;  ///< largest absolute value at the ends and between the parts
};
/// Of the ground on the frame.
struct Reaction {
  double Fx = 0.0, Fz = 0.0, M = 0.0;
};

enum class Order { first, second };

struct Answer {
  std::optional<std::string> mechanism;  ///< the piece that is loose; then there are no numbers
  bool unstable = false;  ///< second order: the loads exceed the critical ones; then no numbers
  std::vector<Displacement> displacements;  ///< per node
  std::vector<MemberForces> members;
  std::vector<Reaction> reactions;  ///< per support
};

/// Throws InvalidFrame for a frame without meaning, ProofFailed if the answer is not in balance.
Answer solve(const Frame& frame, const std::vector<Load>& loads, Order order);

struct Critical {
  std::optional<std::string> mechanism;
  /// The least factor on all loads together at which the frame has no stiffness left; infinity if there
  /// is none below 1e9. Axial forces are those of first order.
  double factor = 0.0;
};
/// By counting the negative pivots of K + lambda K_g (Sylvester's law of inertia), bisected to 1e-9.
Critical critical_factor(const Frame& frame, const std::vector<Load>& loads);

}  // namespace underprop::solver::plane

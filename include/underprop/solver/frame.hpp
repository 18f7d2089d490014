// The analysis model of a grillage: plain data, no timber in it.
//
// Units are consistent throughout: N, mm, rad (N/mm for k_w, N mm/rad for rotational stiffness).
// Axes are right-handed with z up. Every node has three freedoms: w (up), tx and ty, the rotations
// about +x and +y by the right-hand rule (without shear strain dw/dx = -ty and dw/dy = tx).
// Forces Fz are up, Mx and My follow the rotations.
#pragma once

#include <limits>
#include <string>
#include <vector>

namespace underprop::solver {

/// Stiffness of a connection that does not give at all.
inline constexpr double rigid = std::numeric_limits<double>::infinity();

struct Node {
  std::string id;
  double x = 0.0;
  double y = 0.0;
};

/// How a member end is joined to its node: `rigid`, 0 = released, otherwise an elastic end spring.
struct EndFixity {
  double bending = rigid;  ///< N mm/rad, about the member's horizontal normal
  double torsion = rigid;  ///< N mm/rad, about the member's axis
};

/// A straight member between two nodes at different places.
struct Member {
  std::string id;
  std::string piece;  ///< the name of the thing it belongs to; used in messages
  int i = -1;
  int j = -1;
  double EI = 0.0;     ///< N mm2, > 0
  double kGA = rigid;  ///< N, > 0; `rigid`: no shear deformation
  double GJ = 0.0;     ///< N mm2, 0: no torsional stiffness
  EndFixity end_i;
  EndFixity end_j;
};

/// A vertical link between two nodes on one vertical. Compression positive: it lifts i, presses j.
/// Two-way N = k (w_j - w_i); one-way N = k max(0, w_j - w_i - gap).
struct Link {
  std::string id;
  int i = -1;
  int j = -1;
  double k_w = rigid;
  bool compression_only = false;
  double gap = 0.0;  ///< mm, >= or < 0 (a wedge driven in); 0 unless compression_only
};

/// A support of one node. One-way: R = k max(0, -w - gap), upward on the structure.
struct Support {
  std::string id;
  int node = -1;
  double k_w = 0.0;   ///< N/mm, 0 = not held vertically
  double k_tx = 0.0;  ///< N mm/rad
  double k_ty = 0.0;
  bool compression_only = false;
  double gap = 0.0;
};

struct PlateContact {
  int node = -1;
  double k_w = rigid;
  double gap = 0.0;
};

/// A rigid plate with freedoms w, tx, ty at its reference point (x, y), resting on nodes in
/// compression-only contact: N = k max(0, w_n - w_p(n) - gap), pressing the node down, where
/// w_p(n) = w + tx (y_n - y) - ty (x_n - x).
struct Plate {
  std::string id;
  double x = 0.0;
  double y = 0.0;
  std::vector<PlateContact> contacts;
};

struct Frame {
  std::vector<Node> nodes;
  std::vector<Member> members;
  std::vector<Link> links;
  std::vector<Support> supports;
  std::vector<Plate> plates;
};

struct NodalLoad {
  int node = -1;   ///< index of a node, or -1 when `plate` is meant
  int plate = -1;  ///< index of a plate: the force acts at its reference point
  double Fz = 0.0;
  double Mx = 0.0;
  double My = 0.0;
};

/// Force per length, up positive: q1 at a, q2 at b, linear between; a < b measured from end i.
struct LineLoad {
  int member = -1;
  double q1 = 0.0;
  double q2 = 0.0;
  double a = 0.0;
  double b = 0.0;
};

struct PointLoad {
  int member = -1;
  double P = 0.0;  ///< N, up positive
  double a = 0.0;  ///< from end i, 0 <= a <= length
};

struct LoadCase {
  std::string id;
  std::vector<NodalLoad> nodal;
  std::vector<LineLoad> line;
  std::vector<PointLoad> point;
};

}  // namespace underprop::solver

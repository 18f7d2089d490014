// From nodal displacements to the independent freedoms of the equations.
//
// Two-way rigid links merge the w of their nodes, rigid supports take freedoms out, and rotations
// that nothing resists (idle: below 1e-12 of the node's stiffness in the other direction, at any
// angle in plan) are left out and stay 0. All of it is exact: u_nodes = T u.
//
// Nodal vectors have w, tx, ty of every node and then w, tx, ty of every plate.
#pragma once

#include "solver/beam_element.hpp"

#include <Eigen/Core>
#include <array>
#include <vector>

namespace underprop::solver {

/// One row of T. A row needs one freedom only: a node whose rotations are both resisted keeps its
/// global axes, and one that resists in a single direction has a single rotation.
struct FreedomTerm {
  int freedom = -1;  ///< -1: the nodal displacement is 0
  double factor = 0.0;
};

/// A rigid two-way link or rigid support: a constraint whose force follows from equilibrium.
struct RigidEdge {
  int link = -1;
  int support = -1;
};

class Freedoms {
public:
  Freedoms(const Frame& frame, const std::vector<BeamElement>& elements);

  [[nodiscard]] int size() const { return size_; }
  [[nodiscard]] Eigen::Index nodal_size() const { return static_cast<Eigen::Index>(rows_.size()); }
  [[nodiscard]] const FreedomTerm& row(int nodal) const {
    return rows_[static_cast<std::size_t>(nodal)];
  }

  [[nodiscard]] Eigen::VectorXd expand(const Eigen::VectorXd& u) const;      ///< T u
  [[nodiscard]] Eigen::VectorXd reduce(const Eigen::VectorXd& nodal) const;  ///< T' f

  /// Reactions that `expand` leaves out: forces of the rigid edges (in the order of edges()), then
  /// moments Mx, My on the structure at every node with a rigid rotational support (in the order of
  /// clamped()). `unbalanced` = nodal loads - nodal forces of all elements.
  [[nodiscard]] Eigen::VectorXd reactions(const Eigen::VectorXd& unbalanced) const;
  [[nodiscard]] const std::vector<RigidEdge>& edges() const { return edges_; }
  [[nodiscard]] const std::vector<int>& clamped() const { return clamped_; }

  /// The direction in plan about which nothing resists the turning of a node: a unit vector, (0, 0)
  /// if there is none, (2, 2) if no direction is resisted.
  [[nodiscard]] const std::array<double, 2>& idle(int node) const {
    return idle_[static_cast<std::size_t>(node)];
  }

  /// A moment at a node about a direction in which nothing resists.
  struct IdleMoment {
    int node;
    double moment;
  };
  [[nodiscard]] std::vector<IdleMoment> idle_moments(const Eigen::VectorXd& nodal_loads) const;

private:
  void merge_deflections(const Frame& frame);
  void choose_rotations(const Frame& frame, const std::vector<BeamElement>& elements);

  /// Leaf-first elimination of the rigid edges: the edge carries what its node still lacks.
  struct TreeStep {
    int node;
    int parent;   ///< node, or -1: the ground
    int edge;     ///< index into edges_
    double sign;  ///< force on `node` of a unit force in the edge
  };

  int nodes_ = 0;
  int size_ = 0;
  std::vector<FreedomTerm> rows_;
  std::vector<RigidEdge> edges_;
  std::vector<TreeStep> tree_;
  std::vector<int> clamped_;
  std::vector<std::array<double, 2>> idle_;  ///< per node, see idle()
  std::vector<std::array<bool, 2>> fixed_;   ///< per node: tx, ty rigidly supported
};

}  // namespace underprop::solver

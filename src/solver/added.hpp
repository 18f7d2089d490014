// What one question adds to the factored frame, written as springs on its freedoms.
//
// An added support is one spring. An added member has the strain energy
//   2 U = sum over k of (a_k'u)^2,  k = 1 ... 3:
// two bending deformations (the eigenvectors of the 2 x 2 matrix of the end rotations against the
// chord) and the twist, each times the root of its stiffness. Nodal rotations that nothing in the
// frame resists are no freedoms there but are resisted by the new members; stack the a_k of all new
// members as rows of A = [A_u A_t], t the idle rotations. They adjust themselves so that the energy is
// least:
//   t = -A_t^+ A_u u,  2 U = |Z'A_u u|^2,  Z an orthonormal basis of the complement of the range of A_t,
// static condensation in the factored form, which squares no condition number. Each row of Z'A_u is
// one two-way spring of stiffness 1. Source: R. J. Guyan, Reduction of stiffness and mass matrices,
// AIAA Journal 3, 1965 (condensation); G. H. Golub and C. F. Van Loan, Matrix Computations, 4th ed.
// 2013, section 5.3 (least squares by orthogonal factors).
#pragma once

#include "solver/responses.hpp"
#include "underprop/solver/analysis.hpp"

#include <Eigen/Core>
#include <vector>

namespace underprop::solver {

struct AddedSpring {
  Spring spring;     ///< `spring.support`, `link`, `plate` are -1
  int support = -1;  ///< index into Additions::supports, or -1: part of the members
  bool one_way = false;
  Eigen::VectorXd response;  ///< to the forces c, as SpringColumn
  Eigen::VectorXd stretch;
};

class Added {
public:
  Added() = default;
  /// Valid additions; a structure that is not loose.
  Added(const Responses& responses, const Additions& additions);

  [[nodiscard]] const std::vector<AddedSpring>& springs() const { return springs_; }

  /// Whether new members give nodes rotations that nothing resists in the end: a mechanism.
  [[nodiscard]] bool rolls() const { return rolls_; }

  /// Sets the rotations that only added members resist, given all other nodal displacements.
  void turn(Eigen::VectorXd& nodal) const;

  /// Forces of the added members, the rotations set.
  [[nodiscard]] std::vector<MemberForces> member_forces(const Eigen::VectorXd& nodal) const;

private:
  void add_members(const Responses& responses, const std::vector<Member>& members);

  struct End {
    int i, j;
  };
  struct Turn {
    int node;
    double x, y;  ///< the direction
  };
  std::vector<AddedSpring> springs_;
  std::vector<BeamElement> elements_;
  std::vector<End> ends_;
  std::vector<Turn> turns_;
  bool rolls_ = false;
  std::vector<int> rows_;     ///< nodal displacements that `to_turns_` refers to
  Eigen::MatrixXd to_turns_;  ///< turns = to_turns_ * nodal(rows_)
};

}  // namespace underprop::solver

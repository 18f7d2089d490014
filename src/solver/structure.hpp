// The assembled and factored frame with every one-way contact closed.
//
// Every vertical spring is written with a vector c over the freedoms and a gap g:
//   N = k (c'u - g), and the spring acts on the structure with the forces -c N.
//   support:       c'u = -w        (N: reaction, upward on the structure)
//   link:          c'u = w_j - w_i (N: compression)
//   plate contact: c'u = w_n - w_p(n)
#pragma once

#include "solver/freedoms.hpp"
#include "solver/ordering.hpp"

#include <Eigen/SparseCholesky>
#include <Eigen/SparseCore>
#include <optional>
#include <span>
#include <string>
#include <vector>

namespace underprop::solver {

struct Spring {
  std::string id;                                         ///< for messages
  int link = -1, support = -1, plate = -1, contact = -1;  ///< what it is: one of the three
  double k = 0.0;      ///< N/mm, finite; for a rigid contact see `rigid`
  double gap = 0.0;    ///< mm
  bool rigid = false;  ///< a rigid one-way contact: k is the augmentation of question.cpp
  std::vector<std::pair<int, double>> nodal;  ///< c over nodal displacements
  std::vector<std::pair<int, double>> c;      ///< c over freedoms

  [[nodiscard]] double stretch(const Eigen::VectorXd& u) const {
    double s = 0.0;
    for (const auto& [f, v] : c) s += v * u[f];
    return s;
  }
};

class Structure {
public:
  explicit Structure(Frame frame);  ///< a valid frame

  [[nodiscard]] const Frame& frame() const { return frame_; }
  [[nodiscard]] const std::vector<BeamElement>& elements() const { return elements_; }
  [[nodiscard]] const Freedoms& freedoms() const { return freedoms_; }

  /// First the one-way contacts (links, supports, plates in the order of the frame), then the
  /// two-way supports that are not rigid, then the two-way links that are not rigid.
  [[nodiscard]] const std::vector<Spring>& springs() const { return springs_; }
  [[nodiscard]] int contacts() const { return contacts_; }      ///< one-way springs
  [[nodiscard]] int changeable() const { return changeable_; }  ///< one-way and support springs
  [[nodiscard]] int spring_of_support(int support) const;       ///< -1: rigid

  /// K_c, all contacts closed; the lower triangle.
  [[nodiscard]] const Eigen::SparseMatrix<double>& matrix() const { return closed_; }

  /// K_c u = f, all contacts closed, refined once. Precondition: not loose.
  [[nodiscard]] Eigen::VectorXd solve(const Eigen::VectorXd& f) const;
  /// The same, not refined: for the thousands of columns of condensed.hpp, whose answers are verified.
  [[nodiscard]] Eigen::VectorXd solve_once(const Eigen::VectorXd& f) const;
  /// The response to nodal loads, all contacts closed: displacements of the freedoms, then
  /// Freedoms::reactions.
  [[nodiscard]] Eigen::VectorXd respond(const Eigen::VectorXd& nodal_loads) const;
  /// K u without the one-way contacts.
  [[nodiscard]] Eigen::VectorXd stiffness_times(const Eigen::VectorXd& u) const;

  /// The largest nodal force that two neighbouring terms of K u cancel, a measure of what rounding of
  /// u does to the residual: max K_ii |w_i| over the deflections.
  [[nodiscard]] double rounding_force(const Eigen::VectorXd& u) const;

  /// The motion of a frame that is loose even with all contacts closed.
  [[nodiscard]] const std::optional<Eigen::VectorXd>& loose() const { return loose_; }

  /// Whether a motion is free: its strain energy, computed member by member with the given spring
  /// stiffnesses (and `added` twice the energy of what is not part of the structure), vanishes against
  /// u' diag(K_c) u. A mere sum of squares of small numbers, it tells a mechanism (1e-25 and less) from
  /// a very soft structure (1e-13 and more) far beyond what the pivots of a factorisation can.
  [[nodiscard]] bool is_free(const Eigen::VectorXd& u, std::span<const double> k,
                             double added = 0.0) const;

  /// c over the freedoms from c over nodal displacements, equal freedoms summed.
  [[nodiscard]] std::vector<std::pair<int, double>> over_freedoms(
      const std::vector<std::pair<int, double>>& nodal) const;

  /// The name of the piece (or plate, or node) that moves most.
  [[nodiscard]] std::string loosest_piece(const Eigen::VectorXd& u) const;

  [[nodiscard]] EndVector end_displacements(const Eigen::VectorXd& nodal, int member) const;

private:
  void make_springs();
  void assemble();
  void find_looseness();

  Frame frame_;
  std::vector<BeamElement> elements_;
  Freedoms freedoms_;
  std::vector<Spring> springs_;
  std::vector<int> support_spring_;
  int contacts_ = 0;
  int changeable_ = 0;
  std::vector<std::pair<int, double>> turning_;  ///< elastic k_tx, k_ty on nodal rotations
  Eigen::SparseMatrix<double> open_, closed_;    ///< lower triangles, without and with contacts
  Eigen::VectorXd diagonal_;                     ///< of closed_
  Eigen::SimplicialLDLT<Eigen::SparseMatrix<double>, Eigen::Lower, FillReducing> ldlt_;
  std::optional<Eigen::VectorXd> loose_;
};

}  // namespace underprop::solver

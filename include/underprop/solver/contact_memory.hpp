// Contact problems that come by the thousand with one matrix: blocks factored for one open set answer
// for the sets near it, and the next problem starts from the set of the one before.
#pragma once

#include "underprop/solver/contact.hpp"

#include <Eigen/Cholesky>
#include <Eigen/Core>
#include <map>
#include <vector>

namespace underprop::solver {

/// A factored block of a symmetric positive definite matrix that solves for other blocks too: indices
/// that join or leave are a border of the system.
class BorderedBlock {
public:
  /// Factors M(set, set); `set` ascending. See regular().
  BorderedBlock(const ContactProblem& problem, std::vector<int> set);
  /// No pivot is near nothing.
  [[nodiscard]] bool regular() const { return regular_; }
  [[nodiscard]] const std::vector<int>& set() const { return set_; }

  /// Solves M(open, open) x = -q(open), `open` ascending. Empty: the block is singular, or nearly so.
  [[nodiscard]] Eigen::VectorXd solve(const ContactProblem& problem, const std::vector<int>& open);

private:
  /// L^-1 times a column of the border: of an index that joins, or of one that leaves.
  const Eigen::VectorXd& reduced(const ContactProblem& problem, int index, bool joins);

  std::vector<int> set_;
  Eigen::LLT<Eigen::MatrixXd> factor_;
  bool regular_ = false;
  std::map<int, Eigen::VectorXd> joining_, leaving_;
};

class ContactMemory {
public:
  struct Found {
    std::vector<int> open;          ///< ascending
    Eigen::VectorXd lambda, force;  ///< as in ContactSolution
  };

  /// Solves the problem by block principal pivoting (contact.hpp). It starts from the open set of the
  /// last problem of this `kind` (the same loads with other factors, say), or else from `problem.start`,
  /// or else from the last of any. All problems must have one matrix. False: no set was found in a few
  /// steps, or a block is nearly singular: to be looked at with care, by solve_contact.
  bool solve(const ContactProblem& problem, int kind, Found& found);

private:
  std::vector<BorderedBlock> blocks_;
  std::map<int, std::vector<int>> last_;  ///< open set by kind
  std::vector<int> latest_;
};

}  // namespace underprop::solver

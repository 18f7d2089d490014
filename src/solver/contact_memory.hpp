// Contact problems that come by the thousand with one matrix: blocks factored for one open set answer
// for the sets near it, and the next problem starts from the set of the one before.
#pragma once

#include "solver/contact.hpp"

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

  /// Solves M(open, open) x = -q(open), `open` ascending, with `shift` taken from the diagonal at the
  /// index `shifted` (of `open`; -1: none). Empty: the block is singular, or nearly so.
  [[nodiscard]] Eigen::VectorXd solve(const ContactProblem& problem, const std::vector<int>& open,
                                      int shifted = -1, double shift = 0.0);

private:
  /// L^-1 times a column of the border: of an index that joins, or of one that leaves.
  const Eigen::VectorXd& reduced(const ContactProblem& problem, int index, bool joins);

  std::vector<int> set_;
  Eigen::LLT<Eigen::MatrixXd> factor_;
  bool regular_ = false;
  std::map<int, Eigen::VectorXd> joining_, leaving_;
};

/// A contact whose stiffness k in the matrix is k' in this question. What it is short of, x = -k (s - g)
/// while it is open, is x = (k' - k)(s - g) while it presses; with y = (s - g) + x/k, as in the matrix,
/// that is y = x k'/(k (k' - k)): a shift of the diagonal, and x of the sign of k' - k. Where k' = 0 it
/// presses nothing ever, and x has no sign. (s, g, x: see plated.hpp.)
struct ChangedContact {
  int index = -1;
  double shift =
      0.0;  ///< k'/(k' - k), scaled like a matrix whose contact forces are divided by sqrt(k)
  double direction = 1.0;  ///< sign of k' - k
  bool absent = false;     ///< k' = 0
};

class ContactMemory {
public:
  struct Found {
    std::vector<int> open;          ///< ascending; a changed contact is in it unless it presses
    Eigen::VectorXd lambda, force;  ///< as in ContactSolution; of a changed contact x and y
  };

  /// Solves the problem by block principal pivoting (contact.hpp). It starts from the open set of the
  /// last problem of this `kind` (the same loads with other factors, say), or else from `problem.start`,
  /// or else from the last of any. All problems must have one matrix. Where no set is found in a few
  /// steps, or a block is nearly singular, solve_contact decides; with a changed contact that is left to
  /// the caller. False: no set was found that
  /// holds firmly.
  bool solve(const ContactProblem& problem, int kind, Found& found,
             const ChangedContact* changed = nullptr);

private:
  bool with_care(const ContactProblem& problem, int kind, Found& found);

  std::vector<BorderedBlock> blocks_;
  std::map<int, std::vector<int>> last_;  ///< open set by kind
  std::vector<int> latest_;
};

}  // namespace underprop::solver

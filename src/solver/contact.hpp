// One-way contact as a linear complementarity problem, and a method that ends for every input.
//
// Given a symmetric positive semidefinite M and a vector q, find lambda with
//   lambda >= 0,  N = q + M lambda >= 0,  lambda_i N_i = 0 for every i.
// For contacts: N is the scaled contact force, lambda the scaled opening (see question.cpp). A
// contact with lambda_i > 0 is open.
#pragma once

#include <Eigen/Core>
#include <functional>
#include <vector>

namespace underprop::solver {

struct ContactProblem {
  Eigen::VectorXd q;
  /// Column i of M. Asked for only for contacts that the method opens.
  std::function<const Eigen::VectorXd&(int)> column;
  /// Whether d (zero outside the open set) is a null vector of M. It is asked only for directions
  /// that M itself, within rounding, does not resist. None: d'Md <= 1e-13 scale d'd.
  std::function<bool(const Eigen::VectorXd& d)> is_null = {};
  double scale = 1.0;  ///< the size of the largest eigenvalue of M
  /// Contacts thought to be open, ascending: where the pivoting starts. It changes the way, not the
  /// answer; if it leads nowhere, the pivoting starts again from none.
  std::vector<int> start = {};
};

enum class ContactStatus {
  solved,
  /// No solution exists: `ray` d >= 0 has M d = 0 and q'd < 0, hence d'N = q'd < 0 for every lambda,
  /// which N >= 0 forbids.
  no_solution
};

struct ContactSolution {
  ContactStatus status = ContactStatus::solved;
  Eigen::VectorXd lambda;
  Eigen::VectorXd force;   ///< q + M lambda, exactly 0 on the open set
  std::vector<int> open;   ///< ascending
  Eigen::VectorXd ray;     ///< no_solution only
  bool fell_back = false;  ///< the guaranteed method was needed
};

/// First block principal pivoting (J. J. Judice and F. M. Pires, A block principal pivoting
/// algorithm for large-scale strictly monotone linear complementarity problems, Computers and
/// Operations Research 21, 1994), which takes a handful of steps but need not end; if it stalls or
/// meets a singular block, the primal active set method for min q'x + x'Mx/2, x >= 0 (J. Nocedal
/// and S. J. Wright, Numerical Optimization, 2nd ed. 2006, section 16.5; C. L. Lawson and R. J.
/// Hanson, Solving Least Squares Problems, 1974, chapter 23), which ends for every finite input: the
/// proof stands in contact.cpp. Block pivoting stops after ten steps without fewer infeasible
/// contacts, so it ends as well.
/// Throws std::runtime_error if an entry of q is not finite, or if rounding is so coarse that no state
/// satisfies the conditions within 1e-8 of the largest value.
[[nodiscard]] ContactSolution solve_contact(const ContactProblem& problem);

/// The same for a dense matrix.
[[nodiscard]] ContactSolution solve_contact(const Eigen::MatrixXd& M, const Eigen::VectorXd& q);

/// A unit vector d, zero outside `set`, with M d = 0 as judged by `problem.is_null`; empty if the
/// principal block M(set, set) is regular.
[[nodiscard]] Eigen::VectorXd null_vector(const ContactProblem& problem,
                                          const std::vector<int>& set);

}  // namespace underprop::solver

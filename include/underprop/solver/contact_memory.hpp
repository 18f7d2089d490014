// Contact problems that come by the thousand with one matrix: the open sets met so far are kept with
// their factors, and the next problem mostly has one of them.
#pragma once

#include "underprop/solver/contact.hpp"

#include <Eigen/Cholesky>
#include <vector>

namespace underprop::solver {

class ContactMemory {
public:
  struct Found {
    const std::vector<int>* open = nullptr;  ///< ascending; valid until the next call
    Eigen::VectorXd lambda, force;           ///< as in ContactSolution
  };

  /// Solves the problem (its `start` is chosen here, or taken where nothing is kept yet). `kind`: problems
  /// of one kind (the same loads with other factors, say) mostly have the same open set; -1: of none.
  /// False: a singular set, no solution, or the guaranteed method was needed: to be looked at with care.
  bool solve(ContactProblem problem, int kind, Found& found);

private:
  struct Set {
    std::vector<int> open;
    Eigen::LLT<Eigen::MatrixXd> factor;
    std::size_t used = 0;
    int kind = -1;  ///< of the problem that had it last
  };
  bool attempt(const Set& set, const ContactProblem& problem, Found& found) const;

  std::vector<Set> sets_;
  std::size_t clock_ = 0;
};

}  // namespace underprop::solver

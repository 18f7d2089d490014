#include "underprop/solver/contact_memory.hpp"

#include <algorithm>

namespace underprop::solver {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

namespace {

std::size_t at(Index i) { return static_cast<std::size_t>(i); }

/// Infeasibilities below this share of the largest value are rounding (as in contact.cpp).
constexpr double feasibility = 1e-12;
/// A set whose factor has a pivot below this is left to the careful method.
constexpr double least_pivot = 1e-6;
/// Sets remembered, and how many of the latest are tried.
constexpr std::size_t most_sets = 64;
constexpr std::size_t tried_sets = 3;

}  // namespace

bool ContactMemory::attempt(const Set& set, const ContactProblem& problem, Found& found) const {
  const VectorXd& q = problem.q;
  const auto n = static_cast<Index>(set.open.size());
  VectorXd x(n);
  for (Index i = 0; i < n; ++i) x[i] = -q[set.open[at(i)]];
  set.factor.solveInPlace(x);
  const double tolerance = feasibility * std::max(q.cwiseAbs().maxCoeff(), x.cwiseAbs().maxCoeff());
  if (!(x.minCoeff() >= -tolerance)) return false;
  found.force = q;
  for (Index i = 0; i < n; ++i) found.force += x[i] * problem.column(set.open[at(i)]);
  for (const int i : set.open) found.force[i] = 0.0;
  if (!(found.force.minCoeff() >= -tolerance)) return false;
  found.lambda.setZero(q.size());
  for (Index i = 0; i < n; ++i) found.lambda[set.open[at(i)]] = std::max(0.0, x[i]);
  return true;
}

bool ContactMemory::solve(ContactProblem problem, int kind, Found& found) {
  // The latest of this kind first, then the latest of any.
  std::sort(sets_.begin(), sets_.end(), [&](const Set& a, const Set& b) {
    const bool fits_a = kind >= 0 && a.kind == kind, fits_b = kind >= 0 && b.kind == kind;
    return fits_a != fits_b ? fits_a : a.used > b.used;
  });
  for (std::size_t k = 0; k < std::min(tried_sets, sets_.size()); ++k) {
    if (!attempt(sets_[k], problem, found)) continue;
    sets_[k].used = ++clock_;
    sets_[k].kind = kind;
    found.open = &sets_[k].open;
    return true;
  }
  if (!sets_.empty()) problem.start = sets_.front().open;
  ContactSolution solution = solve_contact(problem);
  if (solution.status != ContactStatus::solved || solution.fell_back) return false;
  std::erase_if(sets_, [&](const Set& other) { return other.open == solution.open; });
  Set set;
  set.open = std::move(solution.open);
  const auto m = static_cast<Index>(set.open.size());
  MatrixXd M(m, m);
  for (Index c = 0; c < m; ++c) {
    const VectorXd& column = problem.column(set.open[at(c)]);
    for (Index r = 0; r < m; ++r) M(r, c) = column[set.open[at(r)]];
  }
  if (m > 0) {
    set.factor.compute(M);
    if (set.factor.info() != Eigen::Success ||
        !(set.factor.matrixLLT().diagonal().cwiseAbs2().minCoeff() > least_pivot)) {
      return false;
    }
    if (!attempt(set, problem, found)) return false;
  } else {
    found.lambda.setZero(problem.q.size());
    found.force = problem.q;
  }
  if (sets_.size() >= most_sets) sets_.pop_back();
  set.used = ++clock_;
  set.kind = kind;
  sets_.push_back(std::move(set));
  found.open = &sets_.back().open;
  return true;
}

}  // namespace underprop::solver

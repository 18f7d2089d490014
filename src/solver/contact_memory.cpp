#include "solver/contact_memory.hpp"
#include "index.hpp"

#include "weighted_sum.hpp"

#include <Eigen/LU>
#include <algorithm>
#include <iterator>
#include <stdexcept>

namespace underprop::solver {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

namespace {

/// A block or border with a pivot below this share is left to the careful method.
constexpr double least_pivot = 1e-6;
constexpr double least_border_pivot = 1e-7;
/// Steps of pivoting in all, and without fewer infeasible contacts.
constexpr int most_steps = 40;
constexpr int most_stalled = 6;
/// A border is worth it up to this many indices; beyond, the block is factored anew.
constexpr std::size_t widest_border = 24;
constexpr std::size_t most_blocks = 16;

std::size_t distance(const std::vector<int>& a, const std::vector<int>& b) {
  std::size_t common = 0;
  for (std::size_t i = 0, j = 0; i < a.size() && j < b.size();) {
    if (a[i] == b[j]) {
      ++common;
      ++i;
      ++j;
    } else if (a[i] < b[j]) {
      ++i;
    } else {
      ++j;
    }
  }
  return a.size() + b.size() - 2 * common;
}

}  // namespace

BorderedBlock::BorderedBlock(const ContactProblem& problem, std::vector<int> set)
    : set_(std::move(set)) {
  const auto n = static_cast<Index>(set_.size());
  MatrixXd M(n, n);
  for (Index c = 0; c < n; ++c) {
    const VectorXd& column = problem.column(set_[at(c)]);
    for (Index r = 0; r < n; ++r) M(r, c) = column[set_[at(r)]];
  }
  if (n == 0) {
    regular_ = true;
    return;
  }
  factor_.compute(M);
  regular_ = factor_.info() == Eigen::Success &&
             factor_.matrixLLT().diagonal().cwiseAbs2().minCoeff() > least_pivot * problem.scale;
}

const VectorXd& BorderedBlock::reduced(const ContactProblem& problem, int index, bool joins) {
  auto& kept = joins ? joining_ : leaving_;
  const auto known = kept.find(index);
  if (known != kept.end()) return known->second;
  VectorXd v = VectorXd::Zero(static_cast<Index>(set_.size()));
  if (joins) {
    const VectorXd& column = problem.column(index);
    for (Index r = 0; r < v.size(); ++r) v[r] = column[set_[at(r)]];
  } else {
    v[std::lower_bound(set_.begin(), set_.end(), index) - set_.begin()] = 1.0;
  }
  if (v.size() > 0) factor_.matrixL().solveInPlace(v);
  return kept.emplace(index, std::move(v)).first->second;
}

VectorXd BorderedBlock::solve(const ContactProblem& problem, const std::vector<int>& open,
                              int shifted, double shift) {
  std::vector<int> join, leave;
  std::set_difference(open.begin(), open.end(), set_.begin(), set_.end(), std::back_inserter(join));
  std::set_difference(set_.begin(), set_.end(), open.begin(), open.end(),
                      std::back_inserter(leave));
  const auto n = static_cast<Index>(set_.size());
  // A shift inside the factored set is a border of its own: t = -shift x, x + t/shift = 0.
  const bool inside = shift != 0.0 && std::binary_search(set_.begin(), set_.end(), shifted);
  const auto a = static_cast<Index>(join.size());
  const Index left = a + static_cast<Index>(leave.size()), d = left + (inside ? 1 : 0);
  VectorXd z(n);
  for (Index i = 0; i < n; ++i) z[i] = -problem.q[set_[at(i)]];
  if (n > 0) factor_.matrixL().solveInPlace(z);
  VectorXd border_x;
  if (d > 0) {
    // [M_EE U; U' D] with U = [M_E,join, e_leave] and D = [M_join,join, 0; 0, 0].
    MatrixXd U(n, d);
    for (Index c = 0; c < left; ++c)
      U.col(c) =
          c < a ? reduced(problem, join[at(c)], true) : reduced(problem, leave[at(c - a)], false);
    if (inside) U.col(left) = reduced(problem, shifted, false);
    MatrixXd schur = -U.transpose() * U;
    VectorXd rhs = -U.transpose() * z;
    for (Index c = 0; c < a; ++c) {
      const VectorXd& column = problem.column(join[at(c)]);
      for (Index r = 0; r < a; ++r) schur(r, c) += column[join[at(r)]];
      rhs[c] -= problem.q[join[at(c)]];
      if (join[at(c)] == shifted) schur(c, c) -= shift;
    }
    if (inside) schur(left, left) += 1.0 / shift;
    const VectorXd scale = schur.diagonal().cwiseAbs().cwiseSqrt();
    if (!(scale.minCoeff() > 0.0)) return {};
    const VectorXd inverse = scale.cwiseInverse();
    const Eigen::PartialPivLU<MatrixXd> lu(inverse.asDiagonal() * schur * inverse.asDiagonal());
    const VectorXd pivots = lu.matrixLU().diagonal().cwiseAbs();
    // A joining index that the set already resists fully has a small pivot before scaling.
    if (!(pivots.minCoeff() > least_border_pivot * pivots.maxCoeff()) ||
        !(scale.head(a).size() == 0 ||
          scale.head(a).cwiseAbs2().minCoeff() > least_pivot * problem.scale))
      return {};
    border_x = inverse.cwiseProduct(lu.solve(inverse.cwiseProduct(rhs)));
    z.noalias() -= U * border_x;
  }
  if (n > 0) factor_.matrixU().solveInPlace(z);
  VectorXd x(static_cast<Index>(open.size()));
  std::size_t joined = 0, kept = 0;
  for (Index i = 0; i < x.size(); ++i) {
    const int index = open[at(i)];
    if (joined < join.size() && join[joined] == index) {
      x[i] = border_x[static_cast<Index>(joined++)];
      continue;
    }
    while (set_[kept] != index) ++kept;
    x[i] = z[static_cast<Index>(kept)];
  }
  return x;
}

bool ContactMemory::solve(const ContactProblem& problem, int kind, Found& found,
                          const ChangedContact* changed) {
  const VectorXd& q = problem.q;
  const auto n = static_cast<int>(q.size());
  const auto known = last_.find(kind);
  std::vector<WeightedColumn> columns;
  std::vector<int> open = kind >= 0 && known != last_.end() ? known->second
                          : problem.start.empty()           ? latest_
                                                            : problem.start;
  const int own = changed != nullptr ? changed->index : -1;
  bool lifted =
      false;  // the changed contact; it is among the open ones always, with its shift if pressed
  if (own >= 0) {
    const auto there = std::lower_bound(open.begin(), open.end(), own);
    lifted = changed->absent || (there != open.end() && *there == own);
    if (there == open.end() || *there != own) open.insert(there, own);
  }
  int fewest = n + 1, stalled = 0;
  for (int step = 0; step < most_steps && stalled < most_stalled; ++step) {
    // The factored block nearest to this set, or a new one.
    std::size_t best = blocks_.size(), least = widest_border + 1;
    for (std::size_t b = 0; b < blocks_.size(); ++b) {
      const std::size_t d = distance(blocks_[b].set(), open);
      if (d < least) {
        least = d;
        best = b;
      }
    }
    if (best == blocks_.size()) {
      if (blocks_.size() >= most_blocks) blocks_.erase(blocks_.begin());
      blocks_.emplace_back(problem, open);
      best = blocks_.size() - 1;
      if (!blocks_[best].regular()) {
        blocks_.pop_back();
        return own < 0 && with_care(problem, kind, found);
      }
    }
    const double shift = own >= 0 && !lifted ? changed->shift : 0.0;
    const VectorXd x = blocks_[best].solve(problem, open, own, shift);
    if (x.size() != static_cast<Index>(open.size()) || !x.allFinite())
      return own < 0 && with_care(problem, kind, found);
    found.force = q;
    columns.clear();
    for (std::size_t i = 0; i < open.size(); ++i)
      columns.push_back({x[static_cast<Index>(i)], problem.column(open[i]).data()});
    add_weighted(columns, 0, n, found.force.data());
    for (const int i : open) found.force[i] = 0.0;
    const double largest = x.size() > 0 ? x.cwiseAbs().maxCoeff() : 0.0;
    const double tolerance = feasibility * std::max(q.cwiseAbs().maxCoeff(), largest);
    std::vector<int> next;
    int wrong = 0;
    bool turns = false;  // the changed contact presses or lifts otherwise
    std::size_t k = 0;
    for (int i = 0; i < n; ++i) {
      const bool is_open = k < open.size() && open[k] == i;
      const double value = is_open ? x[static_cast<Index>(k)] : found.force[i];
      if (is_open) ++k;
      if (i == own) {
        next.push_back(i);
        found.force[i] = shift * value;
        if (changed->absent) continue;
        turns = lifted ? value < -tolerance : changed->direction * value < -tolerance;
        wrong += turns ? 1 : 0;
        continue;
      }
      const bool flips = value < -tolerance;
      wrong += flips ? 1 : 0;
      if (is_open != flips) next.push_back(i);
    }
    if (wrong == 0) {
      found.lambda.setZero(q.size());
      for (std::size_t i = 0; i < open.size(); ++i)
        found.lambda[open[i]] =
            open[i] == own ? x[static_cast<Index>(i)] : std::max(0.0, x[static_cast<Index>(i)]);
      found.open = open;
      if (own >= 0) {
        if (!lifted) std::erase(found.open, own);
        return true;
      }
      if (kind >= 0) last_[kind] = open;
      latest_ = std::move(open);
      return true;
    }
    stalled = wrong < fewest ? 0 : stalled + 1;
    fewest = std::min(fewest, wrong);
    open = std::move(next);
    if (turns) lifted = !lifted;
  }
  return own < 0 && with_care(problem, kind, found);
}

bool ContactMemory::with_care(const ContactProblem& problem, int kind, Found& found) {
  ContactProblem afresh = problem;
  afresh.start.clear();  // it led nowhere
  ContactSolution solution;
  try {
    solution = solve_contact(afresh);
  } catch (const std::runtime_error&) {
    return false;  // too coarse here: the caller asks in full
  }
  if (solution.status != ContactStatus::solved) return false;
  // What is left pressed must hold the frame firmly, as far as this matrix can tell: else in full.
  BorderedBlock block(problem, solution.open);
  if (!block.regular()) return false;
  if (blocks_.size() >= most_blocks) blocks_.erase(blocks_.begin());
  blocks_.push_back(std::move(block));
  found.open = std::move(solution.open);
  found.lambda = std::move(solution.lambda);
  found.force = std::move(solution.force);
  if (kind >= 0) last_[kind] = found.open;
  latest_ = found.open;
  return true;
}

}  // namespace underprop::solver

#include "solver/contact.hpp"
#include "index.hpp"

#include <Eigen/Cholesky>
#include <Eigen/Eigenvalues>
#include <algorithm>
#include <cmath>
#include <limits>
#include <optional>
#include <set>
#include <stdexcept>

namespace underprop::solver {

namespace {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

/// Pivots of a block below this share of the scale of M are looked at more closely.
constexpr double suspicious_pivot = 1e-8;
/// Above this share of the scale no pivot of a block is near nothing.
constexpr double plain_pivot = 1e-4;
constexpr double coarsest_feasibility = 1e-8;

constexpr const char* unresolved = "rounding exceeds the resolution of the contact problem";

MatrixXd block(const ContactProblem& p, const std::vector<int>& set) {
  const auto n = static_cast<Index>(set.size());
  MatrixXd m(n, n);
  for (Index c = 0; c < n; ++c) {
    const VectorXd& column = p.column(set[static_cast<std::size_t>(c)]);
    for (Index r = 0; r < n; ++r) m(r, c) = column[set[static_cast<std::size_t>(r)]];
  }
  return m;
}

VectorXd scatter(Index n, const std::vector<int>& set, const VectorXd& values) {
  VectorXd out = VectorXd::Zero(n);
  for (std::size_t k = 0; k < set.size(); ++k) out[set[k]] = values[static_cast<Index>(k)];
  return out;
}

bool is_null(const ContactProblem& p, const VectorXd& d) {
  if (p.is_null) return p.is_null(d);
  double energy = 0.0;
  for (int i = 0; i < static_cast<int>(d.size()); ++i) {
    if (d[i] != 0.0) energy += d[i] * p.column(i).dot(d);
  }
  return energy <= 1e-13 * p.scale * d.squaredNorm();
}

/// Solves M(set, set) x = -q(set), or returns the null vector that forbids it.
struct BlockSolution {
  VectorXd x;
  VectorXd null;  ///< over the set; empty if regular
};

BlockSolution solve_block(const ContactProblem& p, const std::vector<int>& set) {
  if (set.empty()) return {};
  const MatrixXd m = block(p, set);
  VectorXd rhs(m.rows());
  for (std::size_t k = 0; k < set.size(); ++k) rhs[static_cast<Index>(k)] = -p.q[set[k]];
  BlockSolution out;
  // Mostly the block is well conditioned, and its plain factor will do.
  const Eigen::LLT<MatrixXd> llt(m);
  if (llt.info() == Eigen::Success &&
      llt.matrixLLT().diagonal().cwiseAbs2().minCoeff() > plain_pivot * p.scale) {
    out.x = llt.solve(rhs);
    const VectorXd correction = llt.solve(rhs - m * out.x);
    out.x += correction;
    return out;
  }
  const Eigen::LDLT<MatrixXd> ldlt(m);
  if (ldlt.info() != Eigen::Success || !(ldlt.vectorD().minCoeff() > suspicious_pivot * p.scale)) {
    const Eigen::SelfAdjointEigenSolver<MatrixXd> eigen(m);
    const VectorXd d = eigen.eigenvectors().col(0);
    if (is_null(p, scatter(p.q.size(), set, d))) {
      out.null = d;
      return out;
    }
    // Nearly singular but resisted: solve in the eigenbasis, where a pivot cannot be lost.
    const double floor = 1e-16 * eigen.eigenvalues().maxCoeff();
    out.x =
        eigen.eigenvectors() *
        (eigen.eigenvectors().transpose() * rhs).cwiseQuotient(eigen.eigenvalues().cwiseMax(floor));
    return out;
  }
  out.x = ldlt.solve(rhs);
  const VectorXd residual = rhs - m * out.x;
  const VectorXd correction = ldlt.solve(residual);
  out.x += correction;
  return out;
}

VectorXd forces(const ContactProblem& p, const std::vector<int>& set, const VectorXd& x) {
  VectorXd N = p.q;
  for (std::size_t k = 0; k < set.size(); ++k) N += p.column(set[k]) * x[static_cast<Index>(k)];
  for (const int i : set) N[i] = 0.0;
  return N;
}

/// What counts as 0 among the forces N and among the openings lambda. The two differ by the size of M.
struct Tolerance {
  double force, opening;
};

Tolerance tolerance(const ContactProblem& p, const VectorXd& x, double share = feasibility) {
  const double q = p.q.size() > 0 ? p.q.cwiseAbs().maxCoeff() : 0.0;
  const double l = x.size() > 0 ? x.cwiseAbs().maxCoeff() : 0.0;
  return {share * std::max(q, p.scale * l), share * std::max(q / p.scale, l)};
}

ContactSolution finish(const ContactProblem& p, std::vector<int> set, const VectorXd& x) {
  ContactSolution s;
  s.lambda = scatter(p.q.size(), set, x.cwiseMax(0.0));
  s.force = forces(p, set, x).cwiseMax(0.0);
  s.open = std::move(set);
  return s;
}

/// Block principal pivoting: exchange every infeasible contact at once while their number falls
/// (and up to ten times more). None: it stalled or met a singular block.
std::optional<ContactSolution> block_pivoting(const ContactProblem& p, std::vector<int> open) {
  const Index n = p.q.size();
  Index fewest = n + 1;
  int patience = 10;
  for (int step = 0; step < 100; ++step) {
    const BlockSolution b = solve_block(p, open);
    if (b.null.size() > 0) return std::nullopt;
    const VectorXd N = forces(p, open, b.x);
    const VectorXd lambda = scatter(n, open, b.x);
    const Tolerance tol = tolerance(p, b.x);
    std::vector<char> is_open(static_cast<std::size_t>(n), 0);
    for (const int i : open) is_open[static_cast<std::size_t>(i)] = 1;
    Index infeasible = 0;
    std::vector<int> next;
    for (int i = 0; i < static_cast<int>(n); ++i) {
      const bool was_open = is_open[static_cast<std::size_t>(i)] != 0;
      const bool flip = was_open ? lambda[i] < -tol.opening : N[i] < -tol.force;
      infeasible += flip ? 1 : 0;
      if (was_open != flip) next.push_back(i);
    }
    if (infeasible == 0) return finish(p, open, b.x);
    if (infeasible < fewest) {
      fewest = infeasible;
      patience = 10;
    } else if (--patience < 0) {
      return std::nullopt;
    }
    open = std::move(next);
  }
  return std::nullopt;
}

/// Primal active set for min f(x) = q'x + x'Mx/2 over x >= 0, whose optimality conditions are the
/// complementarity problem.
///
/// Why it ends, in exact arithmetic. Before each entry (A) x minimises f over the face spanned by the
/// open set, (B) x > 0 on the open set, and (C) the block of the open set is regular, hence positive
/// definite. All three hold for x = 0 and no contact open. Let i enter, N_i < 0.
/// - First step, block still regular: it leads to the minimum over the wider face. Along it x_i rises,
///   because d_i = -N_i times a diagonal entry of the inverse of a positive definite matrix, and f
///   falls at the rate d_i N_i < 0; by (B) the step has a length.
/// - First step, block singular: its null vector d is unique up to a factor by (C), with d_i /= 0. f is
///   linear along d with the slope d_i N_i /= 0, so one sense of d makes f fall. Either some x_j
///   bounds the step, then d_j /= 0 and without j the block is regular again; or d >= 0, M d = 0 and
///   q'd < 0, which proves that there is no solution.
/// - Every later step of the same entry is towards the minimum over a face: f does not rise. A step
///   that is stopped takes out a contact that has reached 0, so there are finitely many; one that is
///   not stopped, not even at its end, restores (A), (B) and (C).
/// By (A) and (C) f is a function of the open set; it has fallen strictly, so no open set comes
/// back, and there are at most 2^n of them.
///
/// With rounding the same is checked and not believed: open sets are remembered, one that comes back
/// makes the tolerance ten times coarser, and the coarsest that does not help is an exception. So
/// the method ends for every input that is finite.
ContactSolution active_set(const ContactProblem& p) {
  const Index n = p.q.size();
  VectorXd x = VectorXd::Zero(n);
  std::vector<int> open;
  std::vector<char> barred(static_cast<std::size_t>(n), 0);  // entries that rounding undid
  std::set<std::vector<int>> seen{open};
  double share = feasibility;
  const auto gather = [&] {
    VectorXd v(static_cast<Index>(open.size()));
    for (std::size_t k = 0; k < open.size(); ++k) v[static_cast<Index>(k)] = x[open[k]];
    return v;
  };
  for (;;) {
    const VectorXd N = forces(p, open, gather());
    const double tol = tolerance(p, x, share).force;
    int enter = -1;
    for (int i = 0; i < static_cast<int>(n); ++i) {
      if (barred[static_cast<std::size_t>(i)] == 0 && N[i] < -tol &&
          (enter < 0 || N[i] < N[enter])) {
        enter = i;
      }
    }
    if (enter < 0) {
      ContactSolution s = finish(p, open, gather());
      s.fell_back = true;
      return s;
    }
    open.insert(std::lower_bound(open.begin(), open.end(), enter), enter);
    bool moved = false;
    for (;;) {
      const BlockSolution b = solve_block(p, open);
      VectorXd step;
      double limit = 1.0;
      if (b.null.size() > 0) {
        double slope = 0.0;  // f changes at this rate along d; N is 0 on the rest of the open set
        for (std::size_t k = 0; k < open.size(); ++k) {
          double Nk = p.q[open[k]];
          for (const int j : open) Nk += p.column(j)[open[k]] * x[j];
          slope += b.null[static_cast<Index>(k)] * Nk;
        }
        step = slope > 0.0 ? VectorXd(-b.null) : b.null;
        limit = std::numeric_limits<double>::infinity();
      } else {
        step = b.x - gather();
      }
      if (b.null.size() > 0 && step.minCoeff() >= -1e-6 * step.maxCoeff()) {
        // Negative entries of the size of rounding in a null vector bound nothing; what is left
        // without them must be null itself.
        const VectorXd ray = scatter(n, open, step.cwiseMax(0.0));
        if (is_null(p, ray)) {
          ContactSolution none;
          none.status = ContactStatus::no_solution;
          none.ray = ray;
          none.fell_back = true;
          return none;
        }
      }
      const double negligible = 1e-13 * step.cwiseAbs().maxCoeff();
      double alpha = limit;
      std::size_t first = open.size();
      for (std::size_t k = 0; k < open.size(); ++k) {
        const double s = step[static_cast<Index>(k)];
        if (s >= -negligible) continue;
        const double a = x[open[k]] / -s;
        // One that reaches 0 just at the end of the step leaves too: (B).
        if (a < alpha || (a == alpha && first == open.size())) {
          alpha = a;
          first = k;
        }
      }
      if (std::isinf(alpha)) throw std::runtime_error(unresolved);
      for (std::size_t k = 0; k < open.size(); ++k) {
        x[open[k]] = std::max(0.0, x[open[k]] + alpha * step[static_cast<Index>(k)]);
      }
      if (first == open.size()) {
        moved = true;
        break;
      }
      const int leaves = open[first];
      x[leaves] = 0.0;
      open.erase(open.begin() + static_cast<std::ptrdiff_t>(first));
      if (leaves == enter && !moved && alpha <= 0.0) {
        barred[static_cast<std::size_t>(enter)] = 1;  // N_enter < 0 was rounding
        break;
      }
      moved = moved || alpha > 0.0;
      if (open.empty()) {
        moved = true;  // by the proof only rounding leads here; `seen` takes note
        break;
      }
    }
    if (!moved) continue;
    std::fill(barred.begin(), barred.end(), char{0});
    if (seen.insert(open).second) continue;
    share *= 10.0;
    if (share > coarsest_feasibility) throw std::runtime_error(unresolved);
    seen = {open};
  }
}

}  // namespace

ContactSolution solve_contact(const ContactProblem& problem) {
  if (!problem.q.allFinite()) throw std::runtime_error("the contact problem is not finite");
  if (!problem.start.empty()) {
    if (std::optional<ContactSolution> s = block_pivoting(problem, problem.start))
      return *std::move(s);
  }
  if (std::optional<ContactSolution> s = block_pivoting(problem, {})) return *std::move(s);
  return active_set(problem);
}

ContactSolution solve_contact(const MatrixXd& M, const VectorXd& q) {
  std::vector<VectorXd> columns;
  for (Index i = 0; i < M.cols(); ++i) columns.emplace_back(M.col(i));
  return solve_contact(
      {q,
       [&columns](int i) -> const VectorXd& { return columns[static_cast<std::size_t>(i)]; },
       {},
       std::max(M.size() > 0 ? M.cwiseAbs().maxCoeff() : 0.0, std::numeric_limits<double>::min()),
       {}});
}

VectorXd null_vector(const ContactProblem& problem, const std::vector<int>& set) {
  if (set.empty()) return {};
  const BlockSolution b = solve_block(problem, set);
  return b.null.size() > 0 ? scatter(problem.q.size(), set, b.null) : VectorXd();
}

}  // namespace underprop::solver

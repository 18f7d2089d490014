// The complementarity problem alone, against trying all 2^n states.
#include "solver/contact.hpp"

#include "oracle/dense_random.hpp"
#include "support/catch.hpp"

#include <Eigen/Dense>
#include <algorithm>
#include <cmath>
#include <limits>
#include <optional>
#include <vector>

namespace contact_test_file {

using namespace underprop::solver;
using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

namespace {

/// Whether some open set gives lambda >= 0, N >= 0 (least-squares solutions on singular blocks).
std::optional<VectorXd> by_enumeration(const MatrixXd& M, const VectorXd& q) {
  const Index n = q.size();
  for (unsigned state = 0; state < (1U << n); ++state) {
    std::vector<Index> open;
    for (Index i = 0; i < n; ++i) {
      if ((state >> i) & 1U) open.push_back(i);
    }
    const auto m = static_cast<Index>(open.size());
    VectorXd lambda = VectorXd::Zero(n);
    if (m > 0) {
      MatrixXd block(m, m);
      VectorXd rhs(m);
      for (Index r = 0; r < m; ++r) {
        rhs[r] = -q[open[static_cast<std::size_t>(r)]];
        for (Index c = 0; c < m; ++c) {
          block(r, c) = M(open[static_cast<std::size_t>(r)], open[static_cast<std::size_t>(c)]);
        }
      }
      const VectorXd x = block.completeOrthogonalDecomposition().solve(rhs);
      for (Index r = 0; r < m; ++r) lambda[open[static_cast<std::size_t>(r)]] = x[r];
    }
    const VectorXd N = q + M * lambda;
    const double tol = 1e-11 * (1.0 + lambda.cwiseAbs().maxCoeff());
    bool ok = lambda.minCoeff() >= -tol && N.minCoeff() >= -tol;
    for (Index i = 0; i < n; ++i) ok = ok && (lambda[i] <= tol || std::abs(N[i]) <= tol);
    if (ok) return N;
  }
  return std::nullopt;
}

struct Counts {
  int solved = 0, unsolvable = 0, singular = 0, fell_back = 0;
};

void compare(oracle::Sequence& r, Counts& counts) {
  const Index n = 1 + r.below(7);
  const Index rank = 1 + r.below(static_cast<int>(n));
  MatrixXd A(n, rank);
  for (Index i = 0; i < n; ++i) {
    for (Index j = 0; j < rank; ++j) A(i, j) = r.between(-1, 1);
  }
  const MatrixXd M = A * A.transpose();
  VectorXd q(n);
  for (Index i = 0; i < n; ++i) q[i] = r.between(-1, r.chance(0.5) ? 0.3 : 1.0);
  const ContactSolution s = solve_contact(M, q);
  const auto expected = by_enumeration(M, q);
  counts.singular += rank < n ? 1 : 0;
  counts.fell_back += s.fell_back ? 1 : 0;
  INFO("M " << M << " q " << q.transpose() << " lambda " << s.lambda.transpose() << " N "
            << s.force.transpose());
  REQUIRE((s.status == ContactStatus::solved) == expected.has_value());
  if (s.status == ContactStatus::no_solution) {
    ++counts.unsolvable;
    CHECK(s.ray.minCoeff() >= 0.0);
    CHECK((M * s.ray).cwiseAbs().maxCoeff() < 1e-6);
    CHECK(q.dot(s.ray) < 0.0);
    return;
  }
  ++counts.solved;
  const VectorXd N = q + M * s.lambda;
  CHECK(s.lambda.minCoeff() >= 0.0);
  CHECK((N - s.force).cwiseAbs().maxCoeff() < 1e-9);
  CHECK(s.force.minCoeff() >= 0.0);
  CHECK(std::abs(s.lambda.dot(s.force)) < 1e-9);
  CHECK((s.force - *expected).cwiseAbs().maxCoeff() < 1e-7);  // N is unique, lambda need not be
}

}  // namespace

TEST_CASE("The contact method agrees with trying every state", "[oracle]") {
  oracle::Sequence r(5);
  Counts counts;
  for (int k = 0; k < 3000; ++k) compare(r, counts);
  // The sequence must exercise every way out.
  CHECK(counts.solved > 500);
  CHECK(counts.unsolvable > 100);
  CHECK(counts.singular > 500);
  CHECK(counts.fell_back > 100);
}

TEST_CASE("A problem without negative entries in q opens nothing", "[law]") {
  const MatrixXd M = MatrixXd::Identity(3, 3);
  const ContactSolution s = solve_contact(M, VectorXd::Ones(3));
  CHECK(s.open.empty());
  CHECK(s.lambda.isZero());
}

TEST_CASE("A problem of no contacts is solved", "[law]") {
  CHECK(solve_contact(MatrixXd(0, 0), VectorXd(0)).status == ContactStatus::solved);
}

TEST_CASE("An entry that is not a number is refused", "[law]") {
  VectorXd q(1);
  q << std::numeric_limits<double>::quiet_NaN();
  CHECK_THROWS_AS(solve_contact(MatrixXd::Identity(1, 1), q), std::runtime_error);
}

TEST_CASE("The null vector of a block is found and a regular block has none", "[law]") {
  MatrixXd M(2, 2);
  M << 1, -1, -1, 1;
  std::vector<VectorXd> columns{M.col(0), M.col(1)};
  const ContactProblem p{VectorXd::Zero(2), [&](int i) -> const VectorXd& {
                           return columns[static_cast<std::size_t>(i)];
                         }};
  const VectorXd d = null_vector(p, {0, 1});
  REQUIRE(d.size() == 2);
  CHECK(std::abs(d[0] - d[1]) < 1e-12);
  CHECK(null_vector(p, {1}).size() == 0);
}

namespace {

/// Openings, forces and their product, each against the size of the problem.
void check_complementarity(const MatrixXd& M, const VectorXd& q, const ContactSolution& s) {
  REQUIRE(s.status == ContactStatus::solved);
  const VectorXd N = q + M * s.lambda;
  const double force = std::max(q.cwiseAbs().maxCoeff(), N.cwiseAbs().maxCoeff());
  CHECK(s.lambda.minCoeff() >= 0.0);
  CHECK(s.force.minCoeff() >= 0.0);
  CHECK((N - s.force).cwiseAbs().maxCoeff() <= 1e-10 * force);
  for (Index i = 0; i < q.size(); ++i) CHECK(s.lambda[i] * s.force[i] == 0.0);
}

}  // namespace

TEST_CASE("A problem on which block pivoting runs in a ring is solved by the guaranteed method",
          "[published]") {
  // F. E. Curtis, Z. Han, D. P. Robinson, A globally convergent primal-dual active-set framework for
  // large-scale convex quadratic optimization, Computational Optimization and Applications 60 (2015):
  // exchanging every infeasible index runs through {3}, {1, 2, 3}, {2} for ever. (The numbers from
  // memory; that these three sets follow one another was checked in fractions.)
  MatrixXd M(3, 3);
  M << 4, 5, -5, 5, 9, -5, -5, -5, 7;
  VectorXd q(3);
  q << 2, 1, -3;
  for (const double size : {1e-9, 1.0, 1e9}) {  // the method must not depend on the size of M
    const ContactSolution s = solve_contact(size * M, q);
    CHECK(s.fell_back);
    check_complementarity(size * M, q, s);
    const auto expected = by_enumeration(M, q);
    REQUIRE(expected.has_value());
    CHECK((s.force - *expected).cwiseAbs().maxCoeff() < 1e-12);
  }
}

TEST_CASE("The matrices that make one-at-a-time pivoting visit every state are solved",
          "[published]") {
  // Y. Fathi, Computational complexity of LCPs associated with positive definite symmetric matrices,
  // Mathematical Programming 17 (1979): M = C C', C lower triangular with 1 on the diagonal and 2
  // below, q = -1. The solution is (1, 0 ... 0) with N = (0, 1 ... 1), since the first column of M is
  // (1, 2 ... 2).
  for (const Index n : {1, 2, 5, 16, 40}) {
    MatrixXd C = MatrixXd::Identity(n, n);
    for (Index i = 0; i < n; ++i) C.row(i).head(i).setConstant(2.0);
    const MatrixXd M = C * C.transpose();
    const VectorXd q = -VectorXd::Ones(n);
    const ContactSolution s = solve_contact(M, q);
    INFO("n " << n);
    check_complementarity(M, q, s);
    CHECK(s.open == std::vector<int>{0});
    CHECK(std::abs(s.lambda[0] - 1.0) < 1e-12);
  }
}

TEST_CASE("Degenerate problems, in which force and opening both vanish, are solved", "[law]") {
  // q is chosen so that M lambda + q = N for a given pair with many double zeros, some of them with
  // the same row twice (two contacts at one place).
  oracle::Sequence r(77);
  int fell_back = 0;
  for (int k = 0; k < 2000; ++k) {
    const Index n = 2 + r.below(9);
    const Index rank = 1 + r.below(static_cast<int>(n));
    MatrixXd A(n, rank);
    for (Index i = 0; i < n; ++i) {
      for (Index j = 0; j < rank; ++j) A(i, j) = static_cast<double>(r.below(5) - 2);
      if (i > 0 && r.chance(0.3)) A.row(i) = A.row(i - 1);
    }
    const MatrixXd M = A * A.transpose();
    VectorXd lambda = VectorXd::Zero(n), N = VectorXd::Zero(n);
    for (Index i = 0; i < n; ++i) {
      const int kind = r.below(3);  // open, closed, neither
      if (kind == 0) lambda[i] = static_cast<double>(1 + r.below(3));
      if (kind == 1) N[i] = static_cast<double>(1 + r.below(3));
    }
    const VectorXd q = N - M * lambda;
    INFO("problem " << k);
    const ContactSolution s = solve_contact(M, q);
    check_complementarity(M, q, s);
    CHECK((s.force - N).cwiseAbs().maxCoeff() < 1e-9 * (1.0 + q.cwiseAbs().maxCoeff()));
    fell_back += s.fell_back ? 1 : 0;
  }
  CHECK(fell_back > 50);
}

TEST_CASE("Large semidefinite problems end, solved or with the proof that they cannot be",
          "[law]") {
  oracle::Sequence r(91);
  int solved = 0, unsolvable = 0;
  for (int k = 0; k < 60; ++k) {
    const Index n = 60 + r.below(60);
    const Index rank = k % 3 == 0 ? n : n / (2 + k % 3);
    MatrixXd A(n, rank);
    for (Index i = 0; i < n; ++i) {
      for (Index j = 0; j < rank; ++j) A(i, j) = r.between(-1, 1);
    }
    const MatrixXd M = A * A.transpose();
    VectorXd q(n);
    for (Index i = 0; i < n; ++i) q[i] = r.between(-1, 1);
    if (k % 2 == 0) {  // in the range of M: solvable
      for (Index i = 0; i < n; ++i) q[i] = std::max(q[i], 0.0);
      VectorXd d(n);
      for (Index i = 0; i < n; ++i) d[i] = r.between(0, 1);
      q -= M * d / M.cwiseAbs().maxCoeff();
    }
    INFO("problem " << k);
    const ContactSolution s = solve_contact(M, q);
    if (s.status == ContactStatus::solved) {
      ++solved;
      check_complementarity(M, q, s);
    } else {
      ++unsolvable;
      CHECK(k % 2 == 1);
      CHECK(s.ray.minCoeff() >= 0.0);
      CHECK((M * s.ray).cwiseAbs().maxCoeff() < 1e-6 * M.cwiseAbs().maxCoeff() * s.ray.maxCoeff());
      CHECK(q.dot(s.ray) < 0.0);
    }
  }
  CHECK(solved >= 30);
  CHECK(unsolvable > 3);
}

}  // namespace contact_test_file

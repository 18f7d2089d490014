// The complementarity problem alone, against trying all 2^n states.
#include "underprop/solver/contact.hpp"

#include "oracle/dense_random.hpp"
#include "support/catch.hpp"

#include <Eigen/Dense>
#include <optional>

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

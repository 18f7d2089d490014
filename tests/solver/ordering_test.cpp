// The elimination order: a permutation, and one that keeps factors small.
#include "solver/ordering.hpp"

#include "support/catch.hpp"

#include <Eigen/SparseCholesky>
#include <algorithm>
#include <vector>

namespace ordering_test_file {

using namespace underprop::solver;
using Matrix = Eigen::SparseMatrix<double>;

namespace {

/// Five-point stencils on `parts` separate grids of n x n.
Matrix grids(int n, int parts) {
  std::vector<Eigen::Triplet<double>> t;
  for (int p = 0; p < parts; ++p) {
    const auto at = [&](int i, int j) { return p * n * n + i * n + j; };
    for (int i = 0; i < n; ++i) {
      for (int j = 0; j < n; ++j) {
        t.emplace_back(at(i, j), at(i, j), 4.1);
        for (const auto& [a, b] : {std::pair{i + 1, j}, std::pair{i, j + 1}}) {
          if (a >= n || b >= n) continue;
          t.emplace_back(at(i, j), at(a, b), -1.0);
          t.emplace_back(at(a, b), at(i, j), -1.0);
        }
      }
    }
  }
  Matrix m(parts * n * n, parts * n * n);
  m.setFromTriplets(t.begin(), t.end());
  return m;
}

template <class Ordering>
Eigen::Index entries(const Matrix& m) {
  const Eigen::SimplicialLDLT<Matrix, Eigen::Lower, Ordering> ldlt(m);
  REQUIRE(ldlt.info() == Eigen::Success);
  const Eigen::VectorXd x = ldlt.solve(m * Eigen::VectorXd::Ones(m.cols()));
  CHECK((x.array() - 1.0).abs().maxCoeff() < 1e-10);
  return Eigen::Index(ldlt.matrixL().nestedExpression().nonZeros());
}

}  // namespace

TEST_CASE("Nested dissection gives every freedom one place", "[law]") {
  for (const auto& [n, parts] :
       {std::pair{1, 1}, std::pair{1, 300}, std::pair{9, 7}, std::pair{70, 1}, std::pair{40, 3}}) {
    std::vector<int> order = nested_dissection(grids(n, parts));
    std::sort(order.begin(), order.end());
    REQUIRE(order.size() == static_cast<std::size_t>(n * n * parts));
    for (std::size_t k = 0; k < order.size(); ++k) REQUIRE(order[k] == static_cast<int>(k));
  }
}

TEST_CASE("Large grids are factored with few entries, alike every time", "[law]") {
  // George 1973: nested dissection of n x n needs about 31/4 n^2 log2 n entries; twice that is allowed
  // for separators that are levels of a search.
  const Matrix m = grids(80, 1);
  REQUIRE(m.cols() > FillReducing::small);
  CHECK(static_cast<double>(entries<FillReducing>(m)) < 2 * 7.75 * 6400 * 6.33);
  CHECK(nested_dissection(m) == nested_dissection(m));
  CHECK(entries<FillReducing>(m) * 10 < entries<Eigen::NaturalOrdering<int>>(m) * 9);
}

}  // namespace ordering_test_file

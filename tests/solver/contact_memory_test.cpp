// Problems by the thousand with one matrix: what is remembered may not change an answer.
#include "solver/contact_memory.hpp"

#include "oracle/dense_random.hpp"
#include "support/catch.hpp"

#include <Eigen/Dense>
#include <algorithm>
#include <cmath>
#include <vector>

namespace contact_memory_test_file {

using namespace underprop::solver;
using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

namespace {

struct Columns {
  explicit Columns(const MatrixXd& M) {
    for (Index i = 0; i < M.cols(); ++i) all.emplace_back(M.col(i));
  }
  [[nodiscard]] ContactProblem problem(const VectorXd& q, double scale) const {
    ContactProblem p;
    p.q = q;
    p.column = [this](int i) -> const VectorXd& { return all[static_cast<std::size_t>(i)]; };
    p.scale = scale;
    return p;
  }
  std::vector<VectorXd> all;
};

}  // namespace

TEST_CASE("A memory of contacts gives the answers of the careful method, or none", "[law]") {
  oracle::Sequence r(2026);
  std::size_t none = 0, found = 0;
  for (int matrix = 0; matrix < 300; ++matrix) {
    const Index n = 1 + r.below(24);
    const bool full = r.chance(0.5);
    const Index rank = full ? n + 3 : 1 + r.below(static_cast<int>(n));
    MatrixXd A(n, rank);
    for (Index i = 0; i < n; ++i) {
      for (Index j = 0; j < rank; ++j) A(i, j) = r.between(-1, 1);
    }
    MatrixXd M = A * A.transpose();
    M /= M.norm();
    const Columns columns(M);
    ContactMemory memory;
    for (int question = 0; question < 20; ++question) {
      VectorXd q(n);
      for (Index i = 0; i < n; ++i) q[i] = r.between(-1, r.chance(0.5) ? 0.3 : 1.0);
      const ContactSolution expected = solve_contact(M, q);
      ContactMemory::Found answer;
      INFO("matrix " << matrix << " question " << question << " n " << n << " rank " << rank);
      if (!memory.solve(columns.problem(q, 1.0), question % 3, answer)) {
        ++none;
        CHECK((expected.status == ContactStatus::no_solution || !full ||
               M.llt().matrixLLT().diagonal().minCoeff() < 1e-2));
        continue;
      }
      ++found;
      REQUIRE(expected.status == ContactStatus::solved);
      CHECK(answer.lambda.minCoeff() >= 0.0);
      const VectorXd N = q + M * answer.lambda;
      CHECK((N - expected.force).cwiseAbs().maxCoeff() < 1e-7);  // N is unique
      CHECK(std::is_sorted(answer.open.begin(), answer.open.end()));
      for (const int i : answer.open) CHECK(std::abs(N[i]) < 1e-7);
    }
  }
  CHECK(found > 3000);
  CHECK(none > 100);
}

TEST_CASE("A memory of contacts answers where block pivoting runs in a ring", "[law]") {
  // The matrix of contact_test.cpp, scaled as contact problems are.
  MatrixXd M(3, 3);
  M << 4, 5, -5, 5, 9, -5, -5, -5, 7;
  VectorXd q(3);
  q << 2, 1, -3;
  const Columns columns(M);
  ContactMemory memory;
  ContactMemory::Found answer;
  REQUIRE(memory.solve(columns.problem(q, M.norm()), 0, answer));
  CHECK((answer.lambda - solve_contact(M, q).lambda).cwiseAbs().maxCoeff() < 1e-12);
}

TEST_CASE("A memory of contacts gives no answer that nothing holds firmly", "[law]") {
  // Two contacts that hold a piece between them: with both open it is loose. A push that opens one and
  // presses the other is held; one that opens both is not.
  MatrixXd M(2, 2);
  M << 0.5, -0.5, -0.5, 0.5;
  const Columns columns(M);
  ContactMemory memory;
  ContactMemory::Found answer;
  CHECK_FALSE(memory.solve(columns.problem(VectorXd{{-1.0, -1.0}}, 1.0), 0, answer));
  CHECK(memory.solve(columns.problem(VectorXd{{-1.0, 3.0}}, 1.0), 1, answer));
  CHECK(answer.open == std::vector<int>{0});
}

}  // namespace contact_memory_test_file

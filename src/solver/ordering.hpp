// The order in which freedoms are eliminated, chosen to keep the factor small.
//
// Approximate minimum degree (Eigen's) is good up to a few thousand freedoms; on larger grillages its
// factor has several times more entries than need be. Above `small` nested dissection is used: split
// the graph by a separator, order both sides first and the separator last, and so on (A. George, Nested
// dissection of a regular finite element mesh, SIAM Journal on Numerical Analysis 10, 1973). The
// separator is the middle level of a breadth-first search from one end of the graph (A. George and J. W.
// H. Liu, Computer Solution of Large Sparse Positive Definite Systems, 1981, chapter 8). No position of
// a node is needed, no random number used.
#pragma once

#include <Eigen/OrderingMethods>
#include <Eigen/SparseCore>
#include <vector>

namespace underprop::solver {

/// Ordering functor for Eigen's sparse factorisations; `full` has both triangles.
struct FillReducing {
  using PermutationType = Eigen::PermutationMatrix<Eigen::Dynamic, Eigen::Dynamic, int>;
  static constexpr int small = 2000;  ///< freedoms
  void operator()(const Eigen::SparseMatrix<double>& full, PermutationType& permutation) const;
};

/// The elimination order by nested dissection: element k is the freedom that is eliminated as the k-th.
[[nodiscard]] std::vector<int> nested_dissection(const Eigen::SparseMatrix<double>& full);

}  // namespace underprop::solver

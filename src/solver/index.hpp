// Numbers of nodes, members and rows as indices of containers; tolerances that several files share.
#pragma once

#include <Eigen/Core>

#include <cstddef>

namespace underprop::solver {

[[nodiscard]] constexpr std::size_t at(int i) { return static_cast<std::size_t>(i); }
[[nodiscard]] constexpr std::size_t at(Eigen::Index i) { return static_cast<std::size_t>(i); }

/// A contact force below this share of the largest presses nothing.
inline constexpr double touching = 1e-11;
/// Infeasibilities below this share of the largest value are rounding.
inline constexpr double feasibility = 1e-12;

}  // namespace underprop::solver

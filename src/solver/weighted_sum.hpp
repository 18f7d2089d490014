// Sums of many columns, each times its factor: what turns known responses into a state.
#pragma once

#include <Eigen/Core>
#include <cstddef>
#include <vector>

namespace underprop::solver {

struct WeightedColumn {
  double factor;
  const double* column;
};

/// out[0 .. n) += the sum of factor * column[from .. from + n). Four columns in one pass over `out`: it is
/// the reading and writing of `out` that takes the time.
inline void add_weighted(const std::vector<WeightedColumn>& columns, Eigen::Index from,
                         Eigen::Index n, double* out) {
  using Map = Eigen::Map<const Eigen::VectorXd>;
  Eigen::Map<Eigen::VectorXd> sum(out, n);
  std::size_t k = 0;
  for (; k + 4 <= columns.size(); k += 4) {
    const WeightedColumn* c = &columns[k];
    sum += c[0].factor * Map(c[0].column + from, n) + c[1].factor * Map(c[1].column + from, n) +
           c[2].factor * Map(c[2].column + from, n) + c[3].factor * Map(c[3].column + from, n);
  }
  for (; k < columns.size(); ++k) sum += columns[k].factor * Map(columns[k].column + from, n);
}

}  // namespace underprop::solver

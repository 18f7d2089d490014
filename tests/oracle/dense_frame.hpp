// An independent twin of the solver: dense, slow, and derived another way. See dense_frame.cpp.
#pragma once

#include "underprop/solver/analysis.hpp"

#include <array>
#include <cstddef>
#include <memory>
#include <vector>

namespace oracle {

using namespace underprop::solver;

struct DenseAnswer {
  bool mechanism = false;
  std::vector<Displacement> displacements;
  std::vector<double> supports, links;
  std::vector<PlateResponse> plates;
  std::vector<std::array<double, 5>> members;  ///< Mi, Mj, Vi, Vj, T
};

class DenseFrame {
public:
  /// Both must outlive this.
  DenseFrame(const Frame& frame, const LoadCase& loads);
  ~DenseFrame();
  [[nodiscard]] std::size_t contacts() const;
  [[nodiscard]] DenseAnswer solve() const;

private:
  struct Twin;
  std::unique_ptr<Twin> twin_;
};

}  // namespace oracle

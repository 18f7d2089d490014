// A load case prepared for one structure: nodal loads, and what it puts on each member.
#pragma once

#include "solver/structure.hpp"

#include <Eigen/Core>
#include <vector>

namespace underprop::solver {

class CaseLoads {
public:
  CaseLoads(const Structure& structure, const LoadCase& load_case);

  /// Nodal loads, the loads on members replaced by their equivalents; three per node and plate.
  [[nodiscard]] Eigen::VectorXd nodal(const Structure& structure) const;

  /// Adds factor times the effect of the loads on a member, and the loads themselves to `loads`
  /// unless it is null.
  void add(int member, double factor, LoadEffect& effect, SpanLoads* loads) const;

private:
  struct OnMember {
    int member;
    LoadEffect effect;
    std::size_t line_begin, line_end, point_begin, point_end;
  };
  std::vector<OnMember> members_;  ///< ascending
  std::vector<LineLoad> line_;
  std::vector<PointLoad> point_;
  std::vector<NodalLoad> nodal_;
};

}  // namespace underprop::solver

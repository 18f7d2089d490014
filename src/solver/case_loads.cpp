#include "solver/case_loads.hpp"

#include <algorithm>

namespace underprop::solver {

CaseLoads::CaseLoads(const Structure& structure, const LoadCase& c)
    : line_(c.line), point_(c.point), nodal_(c.nodal) {
  const auto by_member = [](const auto& a, const auto& b) { return a.member < b.member; };
  std::stable_sort(line_.begin(), line_.end(), by_member);
  std::stable_sort(point_.begin(), point_.end(), by_member);
  std::size_t l = 0;
  std::size_t p = 0;
  while (l < line_.size() || p < point_.size()) {
    const int member = l == line_.size()    ? point_[p].member
                       : p == point_.size() ? line_[l].member
                                            : std::min(line_[l].member, point_[p].member);
    const BeamElement& b = structure.elements()[static_cast<std::size_t>(member)];
    OnMember on{member, {}, l, l, p, p};
    for (; l < line_.size() && line_[l].member == member; ++l) {
      const LineLoad& q = line_[l];
      on.effect.add(line_load_effect(b, q.q1, q.q2, q.a, q.b), 1.0);
    }
    for (; p < point_.size() && point_[p].member == member; ++p) {
      // Rounding must not leave a point load a hair outside the member.
      point_[p].a = std::min(point_[p].a, b.L);
      on.effect.add(point_load_effect(b, point_[p].P, point_[p].a), 1.0);
    }
    on.line_end = l;
    on.point_end = p;
    members_.push_back(on);
  }
}

Eigen::VectorXd CaseLoads::nodal(const Structure& structure) const {
  const Frame& frame = structure.frame();
  Eigen::VectorXd f = Eigen::VectorXd::Zero(structure.freedoms().nodal_size());
  const int nodes = static_cast<int>(frame.nodes.size());
  for (const NodalLoad& l : nodal_) {
    const int row = 3 * (l.node >= 0 ? l.node : nodes + l.plate);
    f[row] += l.Fz;
    f[row + 1] += l.Mx;
    f[row + 2] += l.My;
  }
  for (const OnMember& on : members_) {
    const auto m = static_cast<std::size_t>(on.member);
    const EndVector e = equivalent_nodal_loads(structure.elements()[m], on.effect);
    for (int k = 0; k < 3; ++k) {
      f[3 * frame.members[m].i + k] += e[static_cast<std::size_t>(k)];
      f[3 * frame.members[m].j + k] += e[static_cast<std::size_t>(k + 3)];
    }
  }
  return f;
}

void CaseLoads::add(int member, double factor, LoadEffect& effect, SpanLoads* loads) const {
  const auto found =
      std::lower_bound(members_.begin(), members_.end(), member,
                       [](const OnMember& on, int wanted) { return on.member < wanted; });
  if (found == members_.end() || found->member != member) return;
  effect.add(found->effect, factor);
  if (loads == nullptr) return;
  for (std::size_t l = found->line_begin; l < found->line_end; ++l) {
    LineLoad q = line_[l];
    q.q1 *= factor;
    q.q2 *= factor;
    loads->line.push_back(q);
  }
  for (std::size_t p = found->point_begin; p < found->point_end; ++p) {
    PointLoad q = point_[p];
    q.P *= factor;
    loads->point.push_back(q);
  }
}

}  // namespace underprop::solver

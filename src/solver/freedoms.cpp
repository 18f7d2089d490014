#include "solver/freedoms.hpp"
#include "index.hpp"

#include <cmath>

namespace underprop::solver {

namespace {

constexpr double idle_share = 1e-12;

}  // namespace

Freedoms::Freedoms(const Frame& frame, const std::vector<BeamElement>& elements)
    : nodes_(static_cast<int>(frame.nodes.size())),
      rows_(3 * (frame.nodes.size() + frame.plates.size())),
      idle_(frame.nodes.size(), {0.0, 0.0}),
      fixed_(frame.nodes.size(), {false, false}) {
  merge_deflections(frame);
  choose_rotations(frame, elements);
  for (std::size_t r = 3 * frame.nodes.size(); r < rows_.size(); ++r) rows_[r] = {size_++, 1.0};
}

void Freedoms::merge_deflections(const Frame& frame) {
  // Rigid edges as a graph over the nodes and the ground.
  struct Neighbour {
    int node, edge;
    double sign;  // force on the node from which the edge is seen
  };
  std::vector<std::vector<Neighbour>> graph(at(nodes_));
  std::vector<std::vector<std::pair<int, double>>> grounded(at(nodes_));
  for (std::size_t l = 0; l < frame.links.size(); ++l) {
    const Link& link = frame.links[l];
    if (link.compression_only || std::isfinite(link.k_w)) continue;
    const int e = static_cast<int>(edges_.size());
    edges_.push_back({static_cast<int>(l), -1});
    graph[at(link.i)].push_back({link.j, e, 1.0});
    graph[at(link.j)].push_back({link.i, e, -1.0});
  }
  for (std::size_t s = 0; s < frame.supports.size(); ++s) {
    const Support& support = frame.supports[s];
    if (support.compression_only || std::isfinite(support.k_w)) continue;
    grounded[at(support.node)].emplace_back(static_cast<int>(edges_.size()), 1.0);
    edges_.push_back({-1, static_cast<int>(s)});
  }

  // One spanning tree per group of merged nodes, rooted in the ground if the group is held. Edges
  // that close a ring are redundant and get no force: any share would be in equilibrium.
  std::vector<char> seen(at(nodes_), 0);
  std::vector<TreeStep> root_first;
  const auto grow = [&](int root, int freedom) {
    std::vector<int> queue{root};
    seen[at(root)] = 1;
    for (std::size_t k = 0; k < queue.size(); ++k) {
      const int node = queue[k];
      rows_[at(3 * node)] = {freedom, 1.0};
      for (const Neighbour& next : graph[at(node)]) {
        if (seen[at(next.node)] != 0) continue;
        seen[at(next.node)] = 1;
        root_first.push_back({next.node, node, next.edge, -next.sign});
        queue.push_back(next.node);
      }
    }
  };
  for (int n = 0; n < nodes_; ++n) {
    if (seen[at(n)] != 0 || grounded[at(n)].empty()) continue;
    root_first.push_back({n, -1, grounded[at(n)].front().first, 1.0});
    grow(n, -1);
  }
  for (int n = 0; n < nodes_; ++n) {
    if (seen[at(n)] == 0) grow(n, size_++);
  }
  tree_.assign(root_first.rbegin(), root_first.rend());
}

void Freedoms::choose_rotations(const Frame& frame, const std::vector<BeamElement>& elements) {
  struct Block {
    double xx = 0.0, xy = 0.0, yy = 0.0;
  };
  std::vector<Block> blocks(at(nodes_));
  for (std::size_t m = 0; m < elements.size(); ++m) {
    const BeamElement& b = elements[m];
    const auto add = [&](int node, double bending) {
      // Bending turns about n = (cy, -cx), torsion about (cx, cy).
      Block& k = blocks[at(node)];
      k.xx += bending * b.cy * b.cy + b.k_t * b.cx * b.cx;
      k.xy += (b.k_t - bending) * b.cx * b.cy;
      k.yy += bending * b.cx * b.cx + b.k_t * b.cy * b.cy;
    };
    add(frame.members[m].i, b.k_ii);
    add(frame.members[m].j, b.k_jj);
  }
  for (const Support& s : frame.supports) {
    if (std::isfinite(s.k_tx)) blocks[at(s.node)].xx += s.k_tx;
    if (std::isfinite(s.k_ty)) blocks[at(s.node)].yy += s.k_ty;
    fixed_[at(s.node)][0] = fixed_[at(s.node)][0] || !std::isfinite(s.k_tx);
    fixed_[at(s.node)][1] = fixed_[at(s.node)][1] || !std::isfinite(s.k_ty);
  }
  for (int n = 0; n < nodes_; ++n) {
    const Block& k = blocks[at(n)];
    const auto [fix_x, fix_y] = fixed_[at(n)];
    if (fix_x || fix_y) clamped_.push_back(n);
    FreedomTerm& tx = rows_[at(3 * n + 1)];
    FreedomTerm& ty = rows_[at(3 * n + 2)];
    if (fix_x && fix_y) continue;
    if (fix_x || fix_y) {
      const double left = fix_x ? k.yy : k.xx;
      const double other = fix_x ? k.xx : k.yy;
      if (left <= idle_share * other) {
        idle_[at(n)] = fix_x ? std::array{0.0, 1.0} : std::array{1.0, 0.0};
      } else {
        (fix_x ? ty : tx) = {size_++, 1.0};
      }
      continue;
    }
    // Principal stiffnesses; the smaller from the determinant, which keeps its digits.
    const double trace = k.xx + k.yy;
    const double large = 0.5 * (trace + std::hypot(k.xx - k.yy, 2.0 * k.xy));
    if (!(large > 0.0)) {
      idle_[at(n)] = {2.0, 2.0};
      continue;
    }
    const double small = (k.xx * k.yy - k.xy * k.xy) / large;
    // In a determinant of nearly equal products 4 eps is all that can be told from 0.
    if (small > idle_share * large) {
      tx = {size_++, 1.0};
      ty = {size_++, 1.0};
      continue;
    }
    // The stiff direction: the longer row of the (nearly) rank-one block.
    const bool first = k.xx >= k.yy;
    const double ex = first ? k.xx : k.xy;
    const double ey = first ? k.xy : k.yy;
    const double length = std::hypot(ex, ey);
    const int f = size_++;
    if (ex != 0.0) tx = {f, ex / length};
    if (ey != 0.0) ty = {f, ey / length};
    idle_[at(n)] = {-ey / length, ex / length};
  }
}

Eigen::VectorXd Freedoms::expand(const Eigen::VectorXd& u) const {
  Eigen::VectorXd nodal = Eigen::VectorXd::Zero(nodal_size());
  for (std::size_t r = 0; r < rows_.size(); ++r) {
    const FreedomTerm& t = rows_[r];
    if (t.freedom >= 0) nodal[static_cast<Eigen::Index>(r)] = t.factor * u[t.freedom];
  }
  return nodal;
}

Eigen::VectorXd Freedoms::reduce(const Eigen::VectorXd& nodal) const {
  Eigen::VectorXd f = Eigen::VectorXd::Zero(size_);
  for (std::size_t r = 0; r < rows_.size(); ++r) {
    const FreedomTerm& t = rows_[r];
    if (t.freedom >= 0) f[t.freedom] += t.factor * nodal[static_cast<Eigen::Index>(r)];
  }
  return f;
}

Eigen::VectorXd Freedoms::reactions(const Eigen::VectorXd& unbalanced) const {
  const auto edges = static_cast<Eigen::Index>(edges_.size());
  Eigen::VectorXd out =
      Eigen::VectorXd::Zero(edges + 2 * static_cast<Eigen::Index>(clamped_.size()));
  if (!tree_.empty()) {
    std::vector<double> lacking(at(nodes_));  // the force the constraints must put on the node
    for (int n = 0; n < nodes_; ++n) lacking[at(n)] = -unbalanced[3 * n];
    for (const TreeStep& s : tree_) {
      out[s.edge] = s.sign * lacking[at(s.node)];
      if (s.parent >= 0) lacking[at(s.parent)] += lacking[at(s.node)];
    }
  }
  for (std::size_t c = 0; c < clamped_.size(); ++c) {
    const int n = clamped_[c];
    const Eigen::Index to = edges + 2 * static_cast<Eigen::Index>(c);
    if (fixed_[at(n)][0]) out[to] = -unbalanced[3 * n + 1];
    if (fixed_[at(n)][1]) out[to + 1] = -unbalanced[3 * n + 2];
  }
  return out;
}

std::vector<Freedoms::IdleMoment> Freedoms::idle_moments(const Eigen::VectorXd& loads) const {
  std::vector<IdleMoment> out;
  for (int n = 0; n < nodes_; ++n) {
    const auto [ex, ey] = idle_[at(n)];
    const double mx = loads[3 * n + 1];
    const double my = loads[3 * n + 2];
    if ((ex == 0.0 && ey == 0.0) || (mx == 0.0 && my == 0.0)) continue;
    const double size = std::hypot(mx, my);
    const double moment = ex > 1.0 ? size : ex * mx + ey * my;
    if (std::abs(moment) > 1e-9 * size) out.push_back({n, moment});
  }
  return out;
}

}  // namespace underprop::solver

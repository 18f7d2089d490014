// Small frames for the solver's tests. N, mm.
#pragma once

#include "underprop/solver/analysis.hpp"

#include <cmath>
#include <string>
#include <utility>
#include <vector>

namespace frames {

using namespace underprop::solver;

inline constexpr double EI = 4.0e11;

/// Collects a frame piece by piece; every function returns the index of what it added.
struct Builder {
  Frame frame;
  LoadCase loads{"load", {}, {}, {}};

  int node(double x, double y = 0.0) {
    frame.nodes.push_back({"n" + std::to_string(frame.nodes.size()), x, y});
    return static_cast<int>(frame.nodes.size()) - 1;
  }
  int member(int i, int j, double stiffness = EI, double kGA = rigid, double GJ = 0.0) {
    Member m;
    m.id = "m" + std::to_string(frame.members.size());
    m.piece = m.id;
    m.i = i;
    m.j = j;
    m.EI = stiffness;
    m.kGA = kGA;
    m.GJ = GJ;
    frame.members.push_back(m);
    return static_cast<int>(frame.members.size()) - 1;
  }
  int support(int node, double k_w = rigid, double k_tx = 0.0, double k_ty = 0.0) {
    frame.supports.push_back(
        {"s" + std::to_string(frame.supports.size()), node, k_w, k_tx, k_ty, false, 0.0});
    return static_cast<int>(frame.supports.size()) - 1;
  }
  int one_way(int node, double k_w, double gap = 0.0) {
    const int s = support(node, k_w);
    frame.supports.back().compression_only = true;
    frame.supports.back().gap = gap;
    return s;
  }
  int link(int i, int j, double k_w = rigid, bool one_way_link = false, double gap = 0.0) {
    frame.links.push_back({"l" + std::to_string(frame.links.size()), i, j, k_w, one_way_link, gap});
    return static_cast<int>(frame.links.size()) - 1;
  }
  /// A straight line of nodes and members along x.
  std::vector<int> beam(const std::vector<double>& x, double y = 0.0, double kGA = rigid) {
    std::vector<int> nodes;
    for (const double at : x) {
      nodes.push_back(node(at, y));
      if (nodes.size() > 1) member(nodes[nodes.size() - 2], nodes.back(), EI, kGA);
    }
    return nodes;
  }
  /// Downward uniform load over a whole member.
  void uniform(int m, double w) { loads.line.push_back({m, -w, -w, 0.0, length(m)}); }
  void point(int m, double P, double a) { loads.point.push_back({m, -P, a}); }
  void at_node(int n, double Fz, double Mx = 0.0, double My = 0.0) {
    loads.nodal.push_back({n, -1, Fz, Mx, My});
  }
  [[nodiscard]] double length(int m) const;
};

/// The response of one load case with factor 1, and the questions that need all three.
struct Solved {
  Analysis analysis;
  std::vector<CaseFactor> combination{{0, 1.0}};
  Response response;

  explicit Solved(const Builder& b, const std::vector<SupportChange>& changes = {})
      : analysis(b.frame, {b.loads}), response(analysis.solve(combination, changes)) {}
  [[nodiscard]] MemberForces forces(int m) const {
    const std::vector<int> members{m};
    return analysis.member_forces(response, combination, members).front();
  }
  [[nodiscard]] double M(int m, double at) const {
    return analysis.section(response, combination, m, at).M;
  }
  [[nodiscard]] double V(int m, double at) const {
    return analysis.section(response, combination, m, at).V;
  }
  [[nodiscard]] double w(int m, double at) const {
    return analysis.deflection(response, combination, m, at);
  }
};

inline double Builder::length(int m) const {
  const Member& e = frame.members[static_cast<std::size_t>(m)];
  const Node& a = frame.nodes[static_cast<std::size_t>(e.i)];
  const Node& b = frame.nodes[static_cast<std::size_t>(e.j)];
  const double dx = b.x - a.x;
  const double dy = b.y - a.y;
  // Axis-parallel members need no root and so lose no digit.
  if (dy == 0.0) return dx < 0.0 ? -dx : dx;
  if (dx == 0.0) return dy < 0.0 ? -dy : dy;
  return std::hypot(dx, dy);
}

}  // namespace frames

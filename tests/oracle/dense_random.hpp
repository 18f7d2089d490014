// Small grillages drawn from a fixed sequence of numbers: the same ones on every machine.
#pragma once

#include "underprop/solver/frame.hpp"

#include <cmath>
#include <cstdint>
#include <string>
#include <vector>

namespace oracle {

using namespace underprop::solver;

class Sequence {
public:
  explicit Sequence(std::uint64_t start) : state_(start * 0x9E3779B97F4A7C15ULL + 1) {}
  double unit() {  // [0, 1)
    state_ ^= state_ << 13;
    state_ ^= state_ >> 7;
    state_ ^= state_ << 17;
    return static_cast<double>(state_ >> 11) * 0x1.0p-53;
  }
  double between(double lo, double hi) { return lo + (hi - lo) * unit(); }
  bool chance(double p) { return unit() < p; }
  int below(int n) { return static_cast<int>(unit() * n); }

private:
  std::uint64_t state_;
};

struct RandomCase {
  Frame frame;
  LoadCase loads;
};

/// Two or three joists along x under two or three boards along y, turned in plan in half of the
/// cases; springs, releases, shear and torsion at random; at most `contacts` one-way contacts.
inline RandomCase random_grillage(std::uint64_t number, int contacts, bool rigid_contacts) {
  Sequence r(number + 17);
  for (int k = 0; k < 8; ++k) r.unit();
  RandomCase out;
  Frame& f = out.frame;
  const int joists = 2 + r.below(2);
  const int boards = 2 + r.below(2);
  const double angle = r.chance(0.5) ? 0.0 : r.between(-1.5, 1.5);
  const double c = angle == 0.0 ? 1.0 : std::cos(angle);
  const double s = angle == 0.0 ? 0.0 : std::sin(angle);
  std::vector<double> xs{0.0}, ys{0.0};
  for (int k = 0; k <= boards; ++k) xs.push_back(xs.back() + r.between(300, 1200));
  for (int k = 1; k < joists; ++k) ys.push_back(ys.back() + r.between(300, 700));
  const auto node = [&](double x, double y) {
    f.nodes.push_back({"n" + std::to_string(f.nodes.size()), c * x - s * y, s * x + c * y});
    return static_cast<int>(f.nodes.size()) - 1;
  };
  const auto member = [&](int i, int j, double EI, const std::string& piece) {
    Member m;
    m.id = "m" + std::to_string(f.members.size());
    m.piece = piece;
    m.i = i;
    m.j = j;
    m.EI = EI * r.between(0.5, 2.0);
    if (r.chance(0.6)) m.kGA = r.between(2e5, 5e6);
    if (r.chance(0.4)) m.GJ = r.between(1e8, 1e10);
    for (EndFixity* e : {&m.end_i, &m.end_j}) {
      if (r.chance(0.15)) e->bending = r.between(1e7, 1e9);
      if (r.chance(0.15)) e->torsion = r.chance(0.5) ? 0.0 : r.between(1e6, 1e8);
    }
    f.members.push_back(m);
  };
  int left = contacts;
  const auto one_way = [&](double p) { return left > 0 && r.chance(p) && left-- > 0; };
  const auto gap = [&] { return r.chance(0.6) ? 0.0 : r.between(-0.5, 1.5); };
  const auto contact_stiffness = [&] {
    return rigid_contacts && r.chance(0.5) ? rigid : r.between(500, 5e4);
  };
  const auto support = [&](int n) {
    Support p{"s" + std::to_string(f.supports.size()), n, r.between(500, 5e4), 0, 0, false, 0};
    if (one_way(0.6)) {
      p.compression_only = true;
      p.k_w = contact_stiffness();
      p.gap = gap();
    } else if (r.chance(0.3)) {
      p.k_w = rigid;
    }
    // Enough to keep a piece from rolling.
    p.k_tx = r.between(1e5, 1e8);
    p.k_ty = r.between(1e3, 1e6);
    f.supports.push_back(p);
  };
  std::vector<std::vector<int>> joist(static_cast<std::size_t>(joists));
  for (int j = 0; j < joists; ++j) {
    auto& line = joist[static_cast<std::size_t>(j)];
    for (const double x : xs) line.push_back(node(x, ys[static_cast<std::size_t>(j)]));
    for (std::size_t k = 0; k + 1 < line.size(); ++k) {
      member(line[k], line[k + 1], 4e11, "joist " + std::to_string(j));
    }
    support(line.front());
    support(line.back());
    if (r.chance(0.5)) support(line[1 + static_cast<std::size_t>(r.below(boards))]);
  }
  std::vector<int> tops;
  for (int b = 1; b <= boards; ++b) {
    int before = -1;
    for (int j = 0; j < joists; ++j) {
      const int n = node(xs[static_cast<std::size_t>(b)], ys[static_cast<std::size_t>(j)]);
      tops.push_back(n);
      if (before >= 0) member(before, n, 2e10, "board " + std::to_string(b));
      if (j == 0 && r.chance(0.9)) {  // else a board with torsional stiffness can roll
        f.supports.push_back({"s" + std::to_string(f.supports.size()), n, 0.0, r.between(1e5, 1e8),
                              r.between(1e5, 1e8), false, 0.0});
      }
      before = n;
      Link l{"l" + std::to_string(f.links.size()),
             n,
             joist[static_cast<std::size_t>(j)][static_cast<std::size_t>(b)],
             rigid,
             false,
             0};
      // N = k (w_j - w_i): the lower node is j.
      if (one_way(0.3)) {
        l.compression_only = true;
        l.k_w = contact_stiffness();
        l.gap = gap();
      } else if (r.chance(0.5)) {
        l.k_w = r.between(1e3, 1e5);
      }
      f.links.push_back(l);
    }
  }
  if (left >= 4 && r.chance(0.7)) {
    Plate p{"plate", 0, 0, {}};
    for (const std::size_t k : {std::size_t{0}, std::size_t{1}, tops.size() - 2, tops.size() - 1}) {
      p.contacts.push_back({tops[k], contact_stiffness(), gap()});
      p.x += f.nodes[static_cast<std::size_t>(tops[k])].x / 4 + r.between(-40, 40);
      p.y += f.nodes[static_cast<std::size_t>(tops[k])].y / 4 + r.between(-40, 40);
    }
    f.plates.push_back(p);
    out.loads.nodal.push_back({-1, 0, -r.between(2e3, 2e4), r.between(-3e5, 3e5), 0.0});
  }
  out.loads.id = "load";
  for (int k = 0; k < 4; ++k) {
    const int m = r.below(static_cast<int>(f.members.size()));
    const Node& i = f.nodes[static_cast<std::size_t>(f.members[static_cast<std::size_t>(m)].i)];
    const Node& j = f.nodes[static_cast<std::size_t>(f.members[static_cast<std::size_t>(m)].j)];
    const double L = std::hypot(j.x - i.x, j.y - i.y);
    const double a = r.between(0, 0.6) * L;
    out.loads.line.push_back({m, -r.between(0, 5), r.between(-6, 1), a, r.between(a + 1, L)});
    out.loads.point.push_back({m, -r.between(0, 4e3), r.between(0, L)});
  }
  out.loads.nodal.push_back({tops[static_cast<std::size_t>(r.below(static_cast<int>(tops.size())))],
                             -1, r.between(-4e3, 1e3), 0, 0});
  return out;
}

}  // namespace oracle

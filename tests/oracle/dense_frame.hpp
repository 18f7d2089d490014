// An independent twin of the solver: dense, slow, and derived another way.
//
// Every node keeps its three freedoms; elastic or released member ends are condensed one by
// one; rigid links, rigid supports and closed rigid contacts are Lagrange multipliers. The element comes
// from the flexibility of the cantilever (fixed at i), integrated numerically from the unit moments
// and shears. All 2^n contact states are tried. Nothing is taken from src/solver.
#pragma once

#include "underprop/solver/analysis.hpp"

#include <Eigen/Dense>
#include <array>
#include <cmath>
#include <functional>
#include <limits>
#include <optional>
#include <vector>

namespace oracle {

using namespace underprop::solver;
using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

struct DenseAnswer {
  bool mechanism = false;
  std::vector<Displacement> displacements;
  std::vector<double> supports, links;
  std::vector<PlateResponse> plates;
  std::vector<std::array<double, 5>> members;  ///< Mi, Mj, Vi, Vj, T
};

class DenseFrame {
public:
  DenseFrame(const Frame& frame, const LoadCase& loads) : f_(frame), loads_(loads) { assemble(); }

  [[nodiscard]] std::size_t contacts() const { return contacts_.size(); }

  [[nodiscard]] DenseAnswer solve() const {
    const std::size_t n = contacts_.size();
    for (std::size_t state = 0; state < (std::size_t{1} << n); ++state) {
      std::vector<bool> closed(n);
      for (std::size_t c = 0; c < n; ++c) closed[c] = ((state >> c) & 1U) == 0;
      if (auto answer = attempt(closed)) return *answer;
    }
    DenseAnswer none;
    none.mechanism = true;
    return none;
  }

private:
  struct Row {
    std::vector<std::pair<Index, double>> c;  // c'u - gap: how far the spring is pressed
    double k = 0.0, gap = 0.0;
    int link = -1, support = -1, plate = -1, contact = -1;
  };
  struct Beam {
    double L = 0, cx = 0, cy = 0, EI = 0, kGA = 0;
    std::array<Index, 6> dof{};
    MatrixXd k;                          // 6 x 6 local: w_i, psi_i, phi_i, w_j, psi_j, phi_j
    VectorXd fixed = VectorXd::Zero(6);  // end forces on the clamped member under its loads
    MatrixXd turn;                       // local = turn * global
  };

  static double gauss(double a, double b, const std::function<double(double)>& f) {
    static constexpr std::array<double, 4> x{0.1834346424956498, 0.5255324099163290,
                                             0.7966664774136267, 0.9602898564975363};
    static constexpr std::array<double, 4> w{0.3626837833783620, 0.3137066458778873,
                                             0.2223810344533745, 0.1012285362903763};
    double sum = 0.0;
    const double h = (b - a) / 2;
    for (std::size_t k = 0; k < 4; ++k) {
      sum += w[k] * (f((a + b) / 2 - h * x[k]) + f((a + b) / 2 + h * x[k]));
    }
    return sum * h;
  }

  // Cantilever clamped at i. A unit force up at j: M(x) = L - x, V = -1 (V = dM/dx). A unit sagging
  // moment at j: M = 1, V = 0. Displacements at j from virtual work: w_j = int M m/EI + V v/kGA.
  void element(Beam& b, const Member& m, int index) const {
    const double L = b.L;
    const auto m1 = [L](double x) { return L - x; };
    const auto m2 = [](double) { return 1.0; };
    const double shear = std::isfinite(b.kGA) ? 1.0 / b.kGA : 0.0;
    Eigen::Matrix2d F;
    F(0, 0) = gauss(0, L, [&](double x) { return m1(x) * m1(x) / b.EI + shear; });
    F(0, 1) = F(1, 0) = gauss(0, L, [&](double x) { return m1(x) * m2(x) / b.EI; });
    F(1, 1) = gauss(0, L, [&](double x) { return m2(x) * m2(x) / b.EI; });
    const Eigen::Matrix2d kjj = F.inverse();
    // Forces at i from those at j by equilibrium: Fz_i = -Fz_j, and the moment (about the same axis
    // as psi) m_i = -m_j - L Fz_j ... with psi = dw/dx' a force up at j turns the member by +L Fz.
    Eigen::Matrix2d H;
    H << -1, 0, -L, -1;
    Eigen::Matrix<double, 4, 2> E;
    E << H, Eigen::Matrix2d::Identity();
    const Eigen::Matrix4d kb = E * kjj * E.transpose();
    b.k = MatrixXd::Zero(6, 6);
    const std::array<Index, 4> at{0, 1, 3, 4};
    for (Index r = 0; r < 4; ++r) {
      for (Index c = 0; c < 4; ++c) {
        b.k(at[static_cast<std::size_t>(r)], at[static_cast<std::size_t>(c)]) = kb(r, c);
      }
    }
    const double kt = m.GJ / L;
    b.k(2, 2) = b.k(5, 5) = kt;
    b.k(2, 5) = b.k(5, 2) = -kt;

    // Loads: displacement of the cantilever's end, then the end forces that bring it back.
    Eigen::Vector2d d = Eigen::Vector2d::Zero();
    Eigen::Vector2d total = Eigen::Vector2d::Zero();  // force up, its moment about i
    const auto add_point = [&](double P, double a) {
      // P up at a: M(x) = P (a - x), V = -P for x < a.
      d[0] += gauss(0, a, [&](double x) { return P * (a - x) * m1(x) / b.EI + P * shear; });
      d[1] += gauss(0, a, [&](double x) { return P * (a - x) / b.EI; });
      total += Eigen::Vector2d(P, P * a);
    };
    for (const PointLoad& p : loads_.point) {
      if (p.member == index) add_point(p.P, p.a);
    }
    for (const LineLoad& q : loads_.line) {
      if (q.member != index) continue;
      // Eight-point quadrature over the load; each ordinate as a point load.
      for (std::size_t r = 0; r < 2; ++r) {
        const double v = gauss(q.a, q.b, [&](double s) {
          const double P = q.q1 + (q.q2 - q.q1) * (s - q.a) / (q.b - q.a);
          return gauss(0, s, [&](double x) {
            return r == 0 ? P * (s - x) * m1(x) / b.EI + P * shear : P * (s - x) / b.EI;
          });
        });
        d[static_cast<Index>(r)] += v;
        total[static_cast<Index>(r)] += gauss(q.a, q.b, [&](double s) {
          const double P = q.q1 + (q.q2 - q.q1) * (s - q.a) / (q.b - q.a);
          return r == 0 ? P : P * s;
        });
      }
    }
    const Eigen::Vector2d end_j = -kjj * d;  // forces at j on the clamped member
    b.fixed[3] = end_j[0];
    b.fixed[4] = end_j[1];
    b.fixed[0] = -end_j[0] - total[0];
    b.fixed[1] = -end_j[1] - L * end_j[0] - total[1];
  }

  /// The end freedom d moves inside of a spring k; it is condensed and the outer side takes its place.
  static void put_spring(Beam& b, Index d, double k) {
    if (!std::isfinite(k)) return;
    const double sum = b.k(d, d) + k;
    const VectorXd column = b.k.col(d);
    const double fixed = b.fixed[d];
    if (!(sum > 0.0)) return;  // neither the member nor the spring resists
    b.k -= column * column.transpose() / sum;
    b.fixed -= column * fixed / sum;
    b.k.col(d) = column * (k / sum);
    b.k.row(d) = b.k.col(d).transpose();
    b.k(d, d) = k * column[d] / sum;
    b.fixed[d] = k * fixed / sum;
  }

  void assemble() {
    const auto nodes = static_cast<Index>(f_.nodes.size());
    const Index size = 3 * (nodes + static_cast<Index>(f_.plates.size()));
    for (std::size_t m = 0; m < f_.members.size(); ++m) {
      const Member& e = f_.members[m];
      const Node& i = f_.nodes[static_cast<std::size_t>(e.i)];
      const Node& j = f_.nodes[static_cast<std::size_t>(e.j)];
      Beam b;
      b.L = std::sqrt((j.x - i.x) * (j.x - i.x) + (j.y - i.y) * (j.y - i.y));
      b.cx = (j.x - i.x) / b.L;
      b.cy = (j.y - i.y) / b.L;
      b.EI = e.EI;
      b.kGA = e.kGA;
      b.turn = MatrixXd::Zero(6, 6);
      for (Index end = 0; end < 2; ++end) {
        b.turn(3 * end, 3 * end) = 1.0;
        b.turn(3 * end + 1, 3 * end + 1) = b.cy;  // psi
        b.turn(3 * end + 1, 3 * end + 2) = -b.cx;
        b.turn(3 * end + 2, 3 * end + 1) = b.cx;  // phi
        b.turn(3 * end + 2, 3 * end + 2) = b.cy;
        const int node = end == 0 ? e.i : e.j;
        b.dof[static_cast<std::size_t>(3 * end)] = 3 * node;
        for (int r = 1; r <= 2; ++r) b.dof[static_cast<std::size_t>(3 * end + r)] = 3 * node + r;
      }
      element(b, e, static_cast<int>(m));
      put_spring(b, 1, e.end_i.bending);
      put_spring(b, 2, e.end_i.torsion);
      put_spring(b, 4, e.end_j.bending);
      put_spring(b, 5, e.end_j.torsion);
      beams_.push_back(b);
    }
    K_ = MatrixXd::Zero(size, size);
    load_ = VectorXd::Zero(size);
    for (const Beam& b : beams_) {
      const MatrixXd k = b.turn.transpose() * b.k * b.turn;
      const VectorXd fixed = b.turn.transpose() * b.fixed;
      for (Index r = 0; r < 6; ++r) {
        load_[b.dof[static_cast<std::size_t>(r)]] -= fixed[r];
        for (Index c = 0; c < 6; ++c) {
          K_(b.dof[static_cast<std::size_t>(r)], b.dof[static_cast<std::size_t>(c)]) += k(r, c);
        }
      }
    }
    for (const NodalLoad& l : loads_.nodal) {
      const Index row = 3 * (l.node >= 0 ? l.node : nodes + l.plate);
      load_[row] += l.Fz;
      load_[row + 1] += l.Mx;
      load_[row + 2] += l.My;
    }
    for (std::size_t l = 0; l < f_.links.size(); ++l) {
      const Link& link = f_.links[l];
      Row row{{{3 * link.j, 1.0}, {3 * link.i, -1.0}}, link.k_w, link.gap};
      row.link = static_cast<int>(l);
      (link.compression_only ? contacts_ : springs_).push_back(row);
    }
    for (std::size_t s = 0; s < f_.supports.size(); ++s) {
      const Support& p = f_.supports[s];
      Row row{{{3 * p.node, -1.0}}, p.k_w, p.gap};
      row.support = static_cast<int>(s);
      if (p.k_w > 0.0) (p.compression_only ? contacts_ : springs_).push_back(row);
      if (p.k_tx > 0.0) springs_.push_back({{{3 * p.node + 1, 1.0}}, p.k_tx, 0.0});
      if (p.k_ty > 0.0) springs_.push_back({{{3 * p.node + 2, 1.0}}, p.k_ty, 0.0});
    }
    for (std::size_t p = 0; p < f_.plates.size(); ++p) {
      const Plate& plate = f_.plates[p];
      const Index o = 3 * (nodes + static_cast<Index>(p));
      for (std::size_t c = 0; c < plate.contacts.size(); ++c) {
        const Node& n = f_.nodes[static_cast<std::size_t>(plate.contacts[c].node)];
        Row row{{{3 * plate.contacts[c].node, 1.0},
                 {o, -1.0},
                 {o + 1, -(n.y - plate.y)},
                 {o + 2, n.x - plate.x}},
                plate.contacts[c].k_w,
                plate.contacts[c].gap};
        row.plate = static_cast<int>(p);
        row.contact = static_cast<int>(c);
        contacts_.push_back(row);
      }
    }
  }

  [[nodiscard]] std::optional<DenseAnswer> attempt(const std::vector<bool>& closed) const {
    std::vector<const Row*> active;
    for (const Row& r : springs_) active.push_back(&r);
    for (std::size_t c = 0; c < contacts_.size(); ++c) {
      if (closed[c]) active.push_back(&contacts_[c]);
    }
    VectorXd u, multipliers;
    if (!solve_linear(active, u, multipliers)) return std::nullopt;
    // Consistency of the contact state.
    const auto stretch = [&](const Row& r) {
      double s = -r.gap;
      for (const auto& [i, v] : r.c) s += v * u[i];
      return s;
    };
    std::vector<double> force(active.size());
    double largest = 0.0;
    Index next = 0;
    for (std::size_t a = 0; a < active.size(); ++a) {
      force[a] =
          std::isfinite(active[a]->k) ? active[a]->k * stretch(*active[a]) : multipliers[next++];
      if (active[a]->link >= 0 || active[a]->support >= 0 || active[a]->plate >= 0) {
        largest = std::max(largest, std::abs(force[a]));
      }
    }
    const double moved = u.cwiseAbs().maxCoeff() + 1e-9;
    std::vector<const Row*> pressing;
    for (const Row& r : springs_) pressing.push_back(&r);
    for (std::size_t a = springs_.size(); a < active.size(); ++a) {
      if (force[a] < -1e-9 * largest) return std::nullopt;
      if (force[a] > 1e-9 * largest) pressing.push_back(active[a]);
    }
    for (std::size_t c = 0; c < contacts_.size(); ++c) {
      if (!closed[c] && stretch(contacts_[c]) > 1e-9 * moved) return std::nullopt;
    }
    // Contact that touches without force holds nothing.
    VectorXd again, m;
    DenseAnswer answer;
    if (!solve_linear(pressing, again, m)) {
      answer.mechanism = true;
      return answer;
    }
    const auto nodes = static_cast<Index>(f_.nodes.size());
    for (Index n = 0; n < nodes; ++n) {
      answer.displacements.push_back({u[3 * n], u[3 * n + 1], u[3 * n + 2]});
    }
    answer.supports.assign(f_.supports.size(), 0.0);
    answer.links.assign(f_.links.size(), 0.0);
    for (std::size_t p = 0; p < f_.plates.size(); ++p) {
      const Index o = 3 * (nodes + static_cast<Index>(p));
      answer.plates.push_back(
          {u[o], u[o + 1], u[o + 2], std::vector<double>(f_.plates[p].contacts.size(), 0.0)});
    }
    for (std::size_t a = 0; a < active.size(); ++a) {
      const Row& r = *active[a];
      if (r.link >= 0) answer.links[static_cast<std::size_t>(r.link)] = force[a];
      if (r.support >= 0) answer.supports[static_cast<std::size_t>(r.support)] = force[a];
      if (r.plate >= 0) {
        answer.plates[static_cast<std::size_t>(r.plate)]
            .contacts[static_cast<std::size_t>(r.contact)] = force[a];
      }
    }
    for (const Beam& b : beams_) {
      VectorXd local(6);
      for (Index k = 0; k < 6; ++k) local[k] = u[b.dof[static_cast<std::size_t>(k)]];
      const VectorXd end = b.k * (b.turn * local) + b.fixed;
      // Forces on the member: up at i is V_i; the moment turning psi at i is -M_i.
      answer.members.push_back({-end[1], end[4], end[0], -end[3], end[5]});
    }
    return answer;
  }

  /// False: a motion other than idle rotations is free, or there is no equilibrium.
  [[nodiscard]] bool solve_linear(const std::vector<const Row*>& active, VectorXd& u,
                                  VectorXd& multipliers) const {
    const Index n = K_.rows();
    Index rigid_rows = 0;
    for (const Row* r : active) rigid_rows += std::isfinite(r->k) ? 0 : 1;
    MatrixXd A = MatrixXd::Zero(n + rigid_rows, n + rigid_rows);
    VectorXd b = VectorXd::Zero(n + rigid_rows);
    A.topLeftCorner(n, n) = K_;
    b.head(n) = load_;
    Index next = n;
    for (const Row* r : active) {
      if (std::isfinite(r->k)) {
        for (const auto& [i, vi] : r->c) {
          b[i] += r->k * r->gap * vi;
          for (const auto& [j, vj] : r->c) A(i, j) += r->k * vi * vj;
        }
      } else {
        for (const auto& [i, v] : r->c) A(i, next) = A(next, i) = v;
        b[next++] = r->gap;
      }
    }
    // Scaled to a unit diagonal, so that one threshold serves forces and moments.
    VectorXd scale = VectorXd::Ones(n + rigid_rows);
    const auto of_pair = [&](Index i) {  // the two rotations of one place keep one scale
      if (i % 3 == 0) return A(i, i);
      const Index other = i % 3 == 1 ? i + 1 : i - 1;
      return std::max(A(i, i), A(other, other));
    };
    for (Index i = 0; i < n; ++i) {
      if (of_pair(i) > 0.0) scale[i] = 1.0 / std::sqrt(of_pair(i));
    }
    for (Index i = n; i < n + rigid_rows; ++i) {
      const double size = A.row(i).cwiseProduct(scale.transpose()).norm();
      if (size > 0.0) scale[i] = 1.0 / size;
    }
    const MatrixXd S = scale.asDiagonal() * A * scale.asDiagonal();
    const VectorXd rhs = scale.cwiseProduct(b);
    Eigen::CompleteOrthogonalDecomposition<MatrixXd> qr;
    qr.setThreshold(1e-11);
    qr.compute(S);
    VectorXd x = qr.solve(rhs);
    const VectorXd residual = rhs - S * x;
    const VectorXd correction = qr.solve(residual);
    x += correction;
    if ((S * x - rhs).norm() > 1e-8 * (rhs.norm() + 1e-300)) return false;
    // Null motions may only be idle rotations: each place's two rotations are null by themselves.
    Eigen::FullPivLU<MatrixXd> lu;
    lu.setThreshold(1e-11);
    lu.compute(S);
    if (lu.dimensionOfKernel() > 0) {
      const MatrixXd kernel = lu.kernel();
      for (Index c = 0; c < kernel.cols(); ++c) {
        const double size = kernel.col(c).head(n).norm();
        if (size < 1e-9 * kernel.col(c).norm()) continue;  // a multiplier: redundant contacts
        for (Index i = 0; i < n; ++i) {
          const bool deflection = i % 3 == 0;
          if (deflection) {
            if (std::abs(kernel(i, c)) > 1e-7 * size) return false;
            continue;
          }
          const VectorXd part = S.col(i) * kernel(i, c) + S.col(i + 1) * kernel(i + 1, c);
          if (part.norm() > 1e-7 * size) return false;
          ++i;
        }
      }
    }
    x = scale.cwiseProduct(x);
    u = x.head(n);
    multipliers = x.tail(rigid_rows);
    return true;
  }

  const Frame& f_;
  const LoadCase& loads_;
  MatrixXd K_;
  VectorXd load_;
  std::vector<Beam> beams_;
  std::vector<Row> springs_, contacts_;
};

}  // namespace oracle

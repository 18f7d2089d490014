// An independent twin of the solver: dense, slow, and derived another way.
//
// Every node keeps its three freedoms; elastic or released member ends are condensed one by
// one; rigid links, rigid supports and closed rigid contacts are Lagrange multipliers. The element comes
// from the flexibility of the cantilever (fixed at i), integrated numerically from the unit moments
// and shears. All 2^n contact states are tried. Nothing is taken from src/solver.
#include "oracle/dense_frame.hpp"

#include <Eigen/Dense>
#include <array>
#include <cmath>
#include <functional>
#include <limits>
#include <optional>
#include <type_traits>
#include <vector>

namespace oracle {

using Eigen::Index;
/// Extended precision where the machine has it: boards with hardly any torsional stiffness make
/// condition numbers of 1e11, and a twin in the solver's own precision would judge by its own rounding.
using Real = long double;
using Matrix = Eigen::Matrix<Real, Eigen::Dynamic, Eigen::Dynamic>;
using Vector = Eigen::Matrix<Real, Eigen::Dynamic, 1>;

struct DenseFrame::Twin {
  Twin(const Frame& frame, const LoadCase& loads) : f_(frame), loads_(loads) { assemble(); }

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
    std::vector<std::pair<Index, Real>> c;  // c'u - gap: how far the spring is pressed
    Real k = 0.0, gap = 0.0;
    int link = -1, support = -1, plate = -1, contact = -1;
  };
  struct Beam {
    Real L = 0, cx = 0, cy = 0, EI = 0, kGA = 0;
    std::array<Index, 6> dof{};
    Matrix k;                        // 6 x 6 local: w_i, psi_i, phi_i, w_j, psi_j, phi_j
    Vector fixed = Vector::Zero(6);  // end forces on the clamped member under its loads
    Matrix turn;                     // local = turn * global
  };

  static Real gauss(Real a, Real b, const std::function<Real(Real)>& f) {
    static constexpr std::array<Real, 4> x{0.18343464249564980494L, 0.52553240991632898582L,
                                           0.79666647741362673959L, 0.96028985649753623168L};
    static constexpr std::array<Real, 4> w{0.36268378337836198297L, 0.31370664587788728734L,
                                           0.22238103445337447054L, 0.10122853629037625915L};
    Real sum = 0.0;
    const Real h = (b - a) / 2;
    for (std::size_t k = 0; k < 4; ++k) {
      sum += w[k] * (f((a + b) / 2 - h * x[k]) + f((a + b) / 2 + h * x[k]));
    }
    return sum * h;
  }

  // Cantilever clamped at i. A unit force up at j: M(x) = L - x, V = -1 (V = dM/dx). A unit sagging
  // moment at j: M = 1, V = 0. Displacements at j from virtual work: w_j = int M m/EI + V v/kGA.
  void element(Beam& b, const Member& m, int index) const {
    const Real L = b.L;
    const auto m1 = [L](Real x) { return L - x; };
    const auto m2 = [](Real) { return Real{1}; };
    const Real shear = std::isfinite(b.kGA) ? 1.0 / b.kGA : 0.0;
    Eigen::Matrix<Real, 2, 2> F;
    F(0, 0) = gauss(0, L, [&](Real x) { return m1(x) * m1(x) / b.EI + shear; });
    F(0, 1) = F(1, 0) = gauss(0, L, [&](Real x) { return m1(x) * m2(x) / b.EI; });
    F(1, 1) = gauss(0, L, [&](Real x) { return m2(x) * m2(x) / b.EI; });
    const Eigen::Matrix<Real, 2, 2> kjj = F.inverse();
    // Forces at i from those at j by equilibrium: Fz_i = -Fz_j, and the moment (about the same axis
    // as psi) m_i = -m_j - L Fz_j ... with psi = dw/dx' a force up at j turns the member by +L Fz.
    Eigen::Matrix<Real, 2, 2> H;
    H << -1, 0, -L, -1;
    Eigen::Matrix<Real, 4, 2> E;
    E << H, Eigen::Matrix<Real, 2, 2>::Identity();
    const Eigen::Matrix<Real, 4, 4> kb = E * kjj * E.transpose();
    b.k = Matrix::Zero(6, 6);
    const std::array<Index, 4> at{0, 1, 3, 4};
    for (Index r = 0; r < 4; ++r) {
      for (Index c = 0; c < 4; ++c) {
        b.k(at[static_cast<std::size_t>(r)], at[static_cast<std::size_t>(c)]) = kb(r, c);
      }
    }
    const Real kt = m.GJ / L;
    b.k(2, 2) = b.k(5, 5) = kt;
    b.k(2, 5) = b.k(5, 2) = -kt;

    // Loads: displacement of the cantilever's end, then the end forces that bring it back.
    Eigen::Matrix<Real, 2, 1> d = Eigen::Matrix<Real, 2, 1>::Zero();
    Eigen::Matrix<Real, 2, 1> total =
        Eigen::Matrix<Real, 2, 1>::Zero();  // force up, its moment about i
    const auto add_point = [&](Real P, Real a) {
      // P up at a: M(x) = P (a - x), V = -P for x < a.
      d[0] += gauss(0, a, [&](Real x) { return P * (a - x) * m1(x) / b.EI + P * shear; });
      d[1] += gauss(0, a, [&](Real x) { return P * (a - x) / b.EI; });
      total += Eigen::Matrix<Real, 2, 1>(P, P * a);
    };
    for (const PointLoad& p : loads_.point) {
      if (p.member == index) add_point(p.P, p.a);
    }
    for (const LineLoad& q : loads_.line) {
      if (q.member != index) continue;
      // Eight-point quadrature over the load; each ordinate as a point load.
      for (std::size_t r = 0; r < 2; ++r) {
        const Real v = gauss(q.a, q.b, [&](Real s) {
          const Real P = q.q1 + (q.q2 - q.q1) * (s - q.a) / (q.b - q.a);
          return gauss(0, s, [&](Real x) {
            return r == 0 ? P * (s - x) * m1(x) / b.EI + P * shear : P * (s - x) / b.EI;
          });
        });
        d[static_cast<Index>(r)] += v;
        total[static_cast<Index>(r)] += gauss(q.a, q.b, [&](Real s) {
          const Real P = q.q1 + (q.q2 - q.q1) * (s - q.a) / (q.b - q.a);
          return r == 0 ? P : P * s;
        });
      }
    }
    const Eigen::Matrix<Real, 2, 1> end_j = -kjj * d;  // forces at j on the clamped member
    b.fixed[3] = end_j[0];
    b.fixed[4] = end_j[1];
    b.fixed[0] = -end_j[0] - total[0];
    b.fixed[1] = -end_j[1] - L * end_j[0] - total[1];
  }

  /// The end freedom d moves inside of a spring k; it is condensed and the outer side takes its place.
  static void put_spring(Beam& b, Index d, Real k) {
    if (!std::isfinite(k)) return;
    const Real sum = b.k(d, d) + k;
    const Vector column = b.k.col(d);
    const Real fixed = b.fixed[d];
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
      const Real dx = Real{j.x} - i.x, dy = Real{j.y} - i.y;
      b.L = std::sqrt(dx * dx + dy * dy);
      b.cx = dx / b.L;
      b.cy = dy / b.L;
      b.EI = e.EI;
      b.kGA = e.kGA;
      b.turn = Matrix::Zero(6, 6);
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
    K_ = Matrix::Zero(size, size);
    load_ = Vector::Zero(size);
    for (const Beam& b : beams_) {
      const Matrix k = b.turn.transpose() * b.k * b.turn;
      const Vector fixed = b.turn.transpose() * b.fixed;
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

  static double plain(Real v) { return static_cast<double>(v); }

  /// The state is tried in double precision; the answer is computed in Real.
  [[nodiscard]] std::optional<DenseAnswer> attempt(const std::vector<bool>& closed) const {
    std::vector<const Row*> active;
    for (const Row& r : springs_) active.push_back(&r);
    for (std::size_t c = 0; c < contacts_.size(); ++c) {
      if (closed[c]) active.push_back(&contacts_[c]);
    }
    Vector u, multipliers;
    bool exact = false;
    if (!solve_linear<double>(active, u, multipliers, exact)) return std::nullopt;
    // Consistency of the contact state.
    const auto stretch = [&](const Row& r) {
      Real s = -r.gap;
      for (const auto& [i, v] : r.c) s += v * u[i];
      return s;
    };
    std::vector<double> force(active.size());
    double largest = 0.0;
    const auto find_forces = [&] {
      largest = 0.0;
      Index next = 0;
      for (std::size_t a = 0; a < active.size(); ++a) {
        force[a] = plain(std::isfinite(active[a]->k) ? active[a]->k * stretch(*active[a])
                                                     : multipliers[next++]);
        if (active[a]->link >= 0 || active[a]->support >= 0 || active[a]->plate >= 0) {
          largest = std::max(largest, std::abs(force[a]));
        }
      }
    };
    find_forces();
    const Real moved = u.cwiseAbs().maxCoeff() + Real{1e-9};
    std::vector<const Row*> pressing;
    for (const Row& r : springs_) pressing.push_back(&r);
    for (std::size_t a = springs_.size(); a < active.size(); ++a) {
      if (force[a] < -1e-9 * largest) return std::nullopt;
      if (force[a] > 1e-9 * largest) pressing.push_back(active[a]);
    }
    for (std::size_t c = 0; c < contacts_.size(); ++c) {
      if (!closed[c] && stretch(contacts_[c]) > Real{1e-9} * moved) return std::nullopt;
    }
    // Contact that touches without force holds nothing.
    Vector again, m;
    DenseAnswer answer;
    bool either = false;
    if (pressing != active && !solve_linear<double>(pressing, again, m, either)) {
      answer.mechanism = true;
      return answer;
    }
    if (!exact && solve_linear<Real>(active, again, m, either)) {
      u = again;
      multipliers = m;
      find_forces();
    }
    const auto nodes = static_cast<Index>(f_.nodes.size());
    for (Index n = 0; n < nodes; ++n) {
      answer.displacements.push_back({plain(u[3 * n]), plain(u[3 * n + 1]), plain(u[3 * n + 2])});
    }
    answer.supports.assign(f_.supports.size(), 0.0);
    answer.links.assign(f_.links.size(), 0.0);
    for (std::size_t p = 0; p < f_.plates.size(); ++p) {
      const Index o = 3 * (nodes + static_cast<Index>(p));
      answer.plates.push_back({plain(u[o]), plain(u[o + 1]), plain(u[o + 2]),
                               std::vector<double>(f_.plates[p].contacts.size(), 0.0)});
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
      Vector local(6);
      for (Index k = 0; k < 6; ++k) local[k] = u[b.dof[static_cast<std::size_t>(k)]];
      const Vector end = b.k * (b.turn * local) + b.fixed;
      // Forces on the member: up at i is V_i; the moment turning psi at i is -M_i.
      answer.members.push_back(
          {plain(-end[1]), plain(end[4]), plain(end[0]), plain(-end[3]), plain(end[5])});
    }
    return answer;
  }

  /// False: a motion other than idle rotations is free, or there is no equilibrium. Factored in S,
  /// refined with residuals in Real; `exact`: until these vanish, and no motion nearly free.
  template <class S>
  [[nodiscard]] bool solve_linear(const std::vector<const Row*>& active, Vector& u_out,
                                  Vector& multipliers, bool& exact) const {
    using M = Eigen::Matrix<S, Eigen::Dynamic, Eigen::Dynamic>;
    using V = Eigen::Matrix<S, Eigen::Dynamic, 1>;
    const S threshold = static_cast<S>(std::is_same_v<S, double> ? 1e-11 : 1e-15);
    const S loose = static_cast<S>(1e-7);
    exact = false;
    const Index n = K_.rows();
    Index rigid_rows = 0;
    for (const Row* r : active) rigid_rows += std::isfinite(r->k) ? 0 : 1;
    Matrix A = Matrix::Zero(n + rigid_rows, n + rigid_rows);
    Vector b = Vector::Zero(n + rigid_rows);
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
    Vector scale = Vector::Ones(n + rigid_rows);
    const auto of_pair = [&](Index i) {  // the two rotations of one place keep one scale
      if (i % 3 == 0) return A(i, i);
      const Index other = i % 3 == 1 ? i + 1 : i - 1;
      return std::max(A(i, i), A(other, other));
    };
    for (Index i = 0; i < n; ++i) {
      if (of_pair(i) > Real{0}) scale[i] = Real{1} / std::sqrt(of_pair(i));
    }
    for (Index i = n; i < n + rigid_rows; ++i) {
      const Real size = A.row(i).cwiseProduct(scale.transpose()).norm();
      if (size > Real{0}) scale[i] = Real{1} / size;
    }
    const Matrix unrounded = scale.asDiagonal() * A * scale.asDiagonal();
    const Vector rhs = scale.cwiseProduct(b);
    const M scaled = unrounded.cast<S>();
    Eigen::CompleteOrthogonalDecomposition<M> qr;
    qr.setThreshold(threshold);
    qr.compute(scaled);
    Vector x = Vector::Zero(rhs.size()), residual = rhs;
    constexpr int most_refinements = 6;
    for (int k = 0; k <= most_refinements && !exact; ++k) {
      const V correction = qr.solve(residual.template cast<S>().eval());
      x += correction.template cast<Real>();
      residual = rhs - unrounded * x;
      const Real terms = (unrounded.cwiseAbs() * x.cwiseAbs()).norm() + rhs.norm();
      exact = residual.norm() <= Real{1e-17L} * terms;
    }
    if (residual.norm() > Real{1e-8L} * (rhs.norm() + Real{1e-300L})) return false;
    // Null motions may only be idle rotations: each place's two rotations are null by themselves.
    Eigen::FullPivLU<M> lu;
    lu.setThreshold(threshold);
    lu.compute(scaled);
    // Where a pivot is neither clearly one nor clearly none, a small residual says little.
    for (const S pivot : lu.matrixLU().diagonal()) {
      const S size = std::abs(pivot) / lu.maxPivot();
      if (size > static_cast<S>(1e-15) && size < static_cast<S>(1e-6)) exact = false;
    }
    if (lu.dimensionOfKernel() > 0) {
      const M kernel = lu.kernel();
      for (Index c = 0; c < kernel.cols(); ++c) {
        const S size = kernel.col(c).head(n).norm();
        if (size < static_cast<S>(1e-9) * kernel.col(c).norm())
          continue;  // a multiplier: redundant contacts
        for (Index i = 0; i < n; ++i) {
          const bool deflection = i % 3 == 0;
          if (deflection) {
            if (std::abs(kernel(i, c)) > loose * size) return false;
            continue;
          }
          const V part = scaled.col(i) * kernel(i, c) + scaled.col(i + 1) * kernel(i + 1, c);
          if (part.norm() > loose * size) return false;
          ++i;
        }
      }
    }
    x = scale.cwiseProduct(x);
    u_out = x.head(n).template cast<Real>();
    multipliers = x.tail(rigid_rows).template cast<Real>();
    return true;
  }

  const Frame& f_;
  const LoadCase& loads_;
  Matrix K_;
  Vector load_;
  std::vector<Beam> beams_;
  std::vector<Row> springs_, contacts_;
};

DenseFrame::DenseFrame(const Frame& frame, const LoadCase& loads)
    : twin_(std::make_unique<Twin>(frame, loads)) {}
DenseFrame::~DenseFrame() = default;
std::size_t DenseFrame::contacts() const { return twin_->contacts(); }
DenseAnswer DenseFrame::solve() const { return twin_->solve(); }

}  // namespace oracle

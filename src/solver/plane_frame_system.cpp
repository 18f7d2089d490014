#include "plane_frame_system.hpp"

#include "solver/validation.hpp"

#include <fmt/format.h>

#include <cmath>

namespace underprop::solver::plane {

namespace {

template <class... Args>
void require(bool ok, fmt::format_string<Args...> format, Args&&... args) {
  if (!ok) throw InvalidFrame(fmt::format(format, std::forward<Args>(args)...));
}

constexpr int unused = -2;  // a rotation without meaning

bool within(int index, std::size_t size) {
  return index >= 0 && static_cast<std::size_t>(index) < size;
}

void validate(const Frame& frame) {
  for (const Node& n : frame.nodes)
    require(std::isfinite(n.x) && std::isfinite(n.z), "node '{}': its place is not finite", n.id);
  for (const Member& m : frame.members) {
    require(within(m.i, frame.nodes.size()) && within(m.j, frame.nodes.size()),
            "member '{}': an end is not a node", m.id);
    const Node& a = frame.nodes[static_cast<std::size_t>(m.i)];
    const Node& b = frame.nodes[static_cast<std::size_t>(m.j)];
    require(std::hypot(b.x - a.x, b.z - a.z) > 1e-6, "member '{}' has no length", m.id);
    require(m.EA > 0.0 && std::isfinite(m.EA), "member '{}': EA must be positive and finite", m.id);
    require(m.EI >= 0.0 && std::isfinite(m.EI), "member '{}': EI must be finite, not negative",
            m.id);
    require(m.kGA > 0.0, "member '{}': kGA must be positive", m.id);
    require(m.rotation_i >= 0.0 && m.rotation_j >= 0.0,
            "member '{}': an end spring is negative or not a number", m.id);
    require(m.parts >= 1 && m.parts <= 64, "member '{}': parts must be 1 to 64", m.id);
  }
  for (const Support& s : frame.supports) {
    require(within(s.node, frame.nodes.size()), "support '{}': its node does not exist", s.id);
    require(s.k_u >= 0.0 && s.k_w >= 0.0 && s.k_theta >= 0.0,
            "support '{}': a stiffness is negative or not a number", s.id);
  }
}

}  // namespace

Matrix6 local_stiffness(const Element& e) {
  Matrix6 k = Matrix6::Zero();
  const double a = e.EA / e.length;
  k(0, 0) = k(3, 3) = a;
  k(0, 3) = k(3, 0) = -a;
  if (e.EI > 0.0) {
    const double L = e.length, b = e.EI / ((1.0 + e.phi) * L * L * L);
    const Eigen::Matrix4d bending =
        (Eigen::Matrix4d() << 12.0, 6.0 * L, -12.0, 6.0 * L,               //
         6.0 * L, (4.0 + e.phi) * L * L, -6.0 * L, (2.0 - e.phi) * L * L,  //
         -12.0, -6.0 * L, 12.0, -6.0 * L,                                  //
         6.0 * L, (2.0 - e.phi) * L * L, -6.0 * L, (4.0 + e.phi) * L * L)
            .finished();
    constexpr std::array<int, 4> at{1, 2, 4, 5};
    for (int r = 0; r < 4; ++r) {
      for (int c = 0; c < 4; ++c)
        k(at[static_cast<std::size_t>(r)], at[static_cast<std::size_t>(c)]) = b * bending(r, c);
    }
  }
  return k;
}

Matrix6 local_geometric(const Element& e) {
  Matrix6 g = Matrix6::Zero();
  const double L = e.length;
  if (e.EI <= 0.0) {
    g(1, 1) = g(4, 4) = 1.0 / L;
    g(1, 4) = g(4, 1) = -1.0 / L;
    return g;
  }
  // Integral of N_r' N_s' of Timoshenko's shape functions; phi = 0 gives 6/5, L/10, 2 L2/15, -L2/30.
  const double p = e.phi, scale = 1.0 / (L * (1.0 + p) * (1.0 + p));
  const double ww = scale * (1.2 + 2.0 * p + p * p), wt = scale * L / 10.0;
  const double same = scale * L * L * (2.0 / 15.0 + p / 6.0 + p * p / 12.0);
  const double other = -scale * L * L * (1.0 / 30.0 + p / 6.0 + p * p / 12.0);
  g(1, 1) = g(4, 4) = ww;
  g(1, 4) = g(4, 1) = -ww;
  g(1, 2) = g(2, 1) = g(1, 5) = g(5, 1) = wt;
  g(4, 2) = g(2, 4) = g(4, 5) = g(5, 4) = -wt;
  g(2, 2) = g(5, 5) = same;
  g(2, 5) = g(5, 2) = other;
  return g;
}

Matrix6 to_local(const Element& e) {
  Matrix6 t = Matrix6::Zero();
  for (const int k : {0, 3}) {
    t(k, k) = e.c;
    t(k, k + 1) = e.s;
    t(k + 1, k) = -e.s;
    t(k + 1, k + 1) = e.c;
    t(k + 2, k + 2) = 1.0;
  }
  return t;
}

System::System(const Frame& frame) : frame_(frame) {
  validate(frame);
  const std::size_t count = frame.nodes.size();
  nodes_.assign(count, {0, 0, unused});
  std::vector<std::string> owner(count);
  for (const Member& m : frame.members) {
    for (const auto& [node, spring] : {std::pair{m.i, m.rotation_i}, {m.j, m.rotation_j}}) {
      const auto n = static_cast<std::size_t>(node);
      if (owner[n].empty()) owner[n] = m.piece.empty() ? m.id : m.piece;
      if (m.EI > 0.0 && spring > 0.0) nodes_[n][2] = 0;
    }
  }
  for (const Support& s : frame.supports) {
    const auto n = static_cast<std::size_t>(s.node);
    if (s.k_u == rigid) nodes_[n][0] = -1;
    if (s.k_w == rigid) nodes_[n][1] = -1;
    if (s.k_theta == rigid && nodes_[n][2] != unused) nodes_[n][2] = -1;
  }
  const auto fresh = [&](const std::string& piece) {
    pieces_.push_back(piece);
    return static_cast<int>(pieces_.size()) - 1;
  };
  for (std::size_t n = 0; n < count; ++n) {
    require(!owner[n].empty(), "node '{}': no member ends there", frame.nodes[n].id);
    for (int& freedom : nodes_[n]) {
      if (freedom == 0) freedom = fresh(owner[n]);
    }
  }
  for (const Support& s : frame.supports) {
    const std::array<int, 3>& at = nodes_[static_cast<std::size_t>(s.node)];
    const std::array<double, 3> k{s.k_u, s.k_w, s.k_theta};
    for (std::size_t d = 0; d < 3; ++d) {
      if (k[d] > 0.0 && std::isfinite(k[d]) && at[d] >= 0) springs_.push_back({at[d], -1, k[d]});
    }
  }
  for (std::size_t index = 0; index < frame.members.size(); ++index) {
    const Member& m = frame.members[index];
    const std::string& piece = m.piece.empty() ? m.id : m.piece;
    const Node& a = frame.nodes[static_cast<std::size_t>(m.i)];
    const Node& b = frame.nodes[static_cast<std::size_t>(m.j)];
    const double whole = std::hypot(b.x - a.x, b.z - a.z);
    const int parts = m.EI > 0.0 ? m.parts : 1;
    Element e;
    e.member = static_cast<int>(index);
    e.length = whole / parts;
    e.c = (b.x - a.x) / whole;
    e.s = (b.z - a.z) / whole;
    e.EA = m.EA;
    e.EI = m.EI;
    e.phi = std::isfinite(m.kGA) ? 12.0 * m.EI / (m.kGA * e.length * e.length) : 0.0;
    const auto end = [&](int node, double spring) {
      std::array<int, 3> at = nodes_[static_cast<std::size_t>(node)];
      if (m.EI <= 0.0) {
        at[2] = -1;
      } else if (spring < rigid) {
        const int own = fresh(piece);
        if (spring > 0.0) springs_.push_back({own, at[2], spring});
        at[2] = own;
      }
      return at;
    };
    const std::array<int, 3> first = end(m.i, m.rotation_i), last = end(m.j, m.rotation_j);
    std::array<int, 3> from = first;
    for (int part = 0; part < parts; ++part) {
      std::array<int, 3> to = last;
      if (part + 1 < parts) {
        for (int& freedom : to) freedom = fresh(piece);
      }
      e.freedom = {from[0], from[1], from[2], to[0], to[1], to[2]};
      elements_.push_back(e);
      from = to;
    }
  }
}

namespace {

void scatter(std::vector<Eigen::Triplet<double>>& list, const Element& e, const Matrix6& local) {
  const Matrix6 t = to_local(e);
  const Matrix6 k = t.transpose() * local * t;
  for (int r = 0; r < 6; ++r) {
    for (int c = 0; c < 6; ++c) {
      const int row = e.freedom[static_cast<std::size_t>(r)];
      const int column = e.freedom[static_cast<std::size_t>(c)];
      if (row >= 0 && column >= 0) list.emplace_back(row, column, k(r, c));
    }
  }
}

}  // namespace

Eigen::SparseMatrix<double> System::stiffness() const {
  std::vector<Eigen::Triplet<double>> list;
  for (const Element& e : elements_) scatter(list, e, local_stiffness(e));
  for (const Spring& s : springs_) {
    list.emplace_back(s.a, s.a, s.k);
    if (s.b < 0) continue;
    list.emplace_back(s.b, s.b, s.k);
    list.emplace_back(s.a, s.b, -s.k);
    list.emplace_back(s.b, s.a, -s.k);
  }
  Eigen::SparseMatrix<double> K(size(), size());
  K.setFromTriplets(list.begin(), list.end());
  return K;
}

Eigen::SparseMatrix<double> System::geometric(const std::vector<double>& N) const {
  std::vector<Eigen::Triplet<double>> list;
  for (std::size_t k = 0; k < elements_.size(); ++k)
    scatter(list, elements_[k], N[k] * local_geometric(elements_[k]));
  Eigen::SparseMatrix<double> K(size(), size());
  K.setFromTriplets(list.begin(), list.end());
  return K;
}

Eigen::VectorXd System::loads(const std::vector<Load>& loads) const {
  Eigen::VectorXd f = Eigen::VectorXd::Zero(size());
  for (const Load& load : loads) {
    require(within(load.node, nodes_.size()), "a load acts on a node that does not exist");
    require(std::isfinite(load.Fx) && std::isfinite(load.Fz) && std::isfinite(load.M),
            "a load on node '{}' is not finite",
            frame_.nodes[static_cast<std::size_t>(load.node)].id);
    const std::array<int, 3>& at = node(load.node);
    const std::array<double, 3> value{load.Fx, load.Fz, load.M};
    require(load.M == 0.0 || at[2] != unused,
            "a moment acts on node '{}', where no member can take it",
            frame_.nodes[static_cast<std::size_t>(load.node)].id);
    for (std::size_t d = 0; d < 3; ++d) {
      if (at[d] >= 0) f[at[d]] += value[d];
    }
  }
  return f;
}

Vector6 System::local(const Element& e, const Eigen::VectorXd& x) const {
  Vector6 global = Vector6::Zero();
  for (int r = 0; r < 6; ++r) {
    const int freedom = e.freedom[static_cast<std::size_t>(r)];
    if (freedom >= 0) global[r] = x[freedom];
  }
  return to_local(e) * global;
}

std::vector<double> System::axial(const Eigen::VectorXd& x) const {
  std::vector<double> N;
  N.reserve(elements_.size());
  for (const Element& e : elements_) {
    const Vector6 d = local(e, x);
    N.push_back(e.EA * (d[3] - d[0]) / e.length);
  }
  return N;
}

std::optional<std::string> System::loose(const Eigen::SparseMatrix<double>& K) const {
  // Inverse iteration on the matrix scaled to a diagonal of ones, lifted a little so that it factors.
  constexpr double lift = 1e-13, nothing = 1e-11;
  Eigen::VectorXd d(size());
  for (int k = 0; k < size(); ++k) {
    const double diagonal = K.coeff(k, k);
    if (!(diagonal > 0.0)) return pieces_[static_cast<std::size_t>(k)];
    d[k] = 1.0 / std::sqrt(diagonal);
  }
  Eigen::SparseMatrix<double> S = d.asDiagonal() * K * d.asDiagonal();
  Eigen::SparseMatrix<double> lifted = S;
  for (int k = 0; k < size(); ++k) lifted.coeffRef(k, k) += lift;
  const Eigen::SimplicialLDLT<Eigen::SparseMatrix<double>> factor(lifted);
  if (factor.info() != Eigen::Success) return pieces_.empty() ? std::string("frame") : pieces_[0];
  Eigen::VectorXd x(size());
  for (int k = 0; k < size(); ++k) x[k] = 1.0 + 0.5 * std::sin(1.0 + 2.0 * k);
  x.normalize();
  for (int turn = 0; turn < 8; ++turn) {
    x = factor.solve(x);
    x.normalize();
  }
  if (x.dot(S * x) > nothing) return std::nullopt;
  // Rounding must not choose between freedoms that move alike: the first within a thousandth counts.
  const double most = x.cwiseAbs().maxCoeff();
  for (int k = 0; k < size(); ++k) {
    if (std::abs(x[k]) >= 0.999 * most) return pieces_[static_cast<std::size_t>(k)];
  }
  return pieces_[0];
}

}  // namespace underprop::solver::plane

#include "solver/plane_frame.hpp"

#include "plane_frame_system.hpp"
#include "solver/validation.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>

namespace underprop::solver::plane {

namespace {

using Sparse = Eigen::SparseMatrix<double>;
using Factor = Eigen::SimplicialLDLT<Sparse>;

constexpr double proof = 1e-6;  // relative

/// The critical factor nearest to `low`, at which the frame is stable: (K + low G) y = -G x again and again,
/// then the quotient of Rayleigh. Nothing if it does not settle.
std::optional<double> from_below(Factor& factor, const Sparse& K, const Sparse& G, double low) {
  const Sparse A = K + low * G;
  factor.factorize(A);
  if (factor.info() != Eigen::Success) return std::nullopt;
  Eigen::VectorXd x(K.rows());
  for (Eigen::Index k = 0; k < x.size(); ++k) x[k] = 1.0 + 0.37 * std::sin(1.0 + 2.3 * double(k));
  double last = 0.0;
  for (int turn = 0; turn < 60; ++turn) {
    x = factor.solve(-(G * x));
    const double size = x.norm();
    if (!(size > 0.0) || !std::isfinite(size)) return std::nullopt;
    x /= size;
    const double lambda = -x.dot(K * x) / x.dot(G * x);
    if (!std::isfinite(lambda)) return std::nullopt;
    if (turn > 2 && std::abs(lambda - last) <= 1e-11 * std::abs(lambda)) return lambda;
    last = lambda;
  }
  return std::nullopt;
}

/// Negative pivots; nothing if a pivot is exactly zero.
std::optional<int> negatives(Factor& factor, const Sparse& matrix) {
  factor.factorize(matrix);
  if (factor.info() != Eigen::Success) return std::nullopt;
  const Eigen::VectorXd D = factor.vectorD();
  int count = 0;
  for (Eigen::Index k = 0; k < D.size(); ++k) {
    if (!(D[k] > 0.0)) ++count;
  }
  return count;
}

void recover(const Frame& frame, const System& system, const Eigen::VectorXd& x,
             const std::vector<double>& N, const std::vector<Load>& loads, Order order,
             Answer& answer) {
  for (std::size_t n = 0; n < frame.nodes.size(); ++n) {
    const auto& at = system.node(static_cast<int>(n));
    const auto value = [&](int freedom) { return freedom >= 0 ? x[freedom] : 0.0; };
    answer.displacements.push_back({value(at[0]), value(at[1]), value(at[2])});
  }
  answer.members.assign(frame.members.size(), {});
  std::vector<bool> seen(frame.members.size(), false);
  std::vector<Reaction> on_nodes(frame.nodes.size());  // of the members and springs, by node
  const auto& elements = system.elements();
  for (std::size_t k = 0; k < elements.size(); ++k) {
    const Element& e = elements[k];
    const auto m = static_cast<std::size_t>(e.member);
    Matrix6 stiffness = local_stiffness(e);
    if (order == Order::second) stiffness += N[k] * local_geometric(e);
    const Vector6 f = stiffness * system.local(e, x);
    MemberForces& forces = answer.members[m];
    const Vector6 global = to_local(e).transpose() * f;
    if (!seen[m]) {
      seen[m] = true;
      forces.N = N[k];
      forces.V_i = f[1];
      forces.M_i = f[2];
      Reaction& r = on_nodes[static_cast<std::size_t>(frame.members[m].i)];
      r.Fx += global[0];
      r.Fz += global[1];
      if (frame.members[m].EI > 0.0) r.M += global[2];
    }
    forces.N = std::min(forces.N, N[k]);
    forces.M_j = f[5];
    forces.M_largest = std::max({forces.M_largest, std::abs(f[2]), std::abs(f[5])});
    if (k + 1 == elements.size() || elements[k + 1].member != e.member) {
      Reaction& r = on_nodes[static_cast<std::size_t>(frame.members[m].j)];
      r.Fx += global[3];
      r.Fz += global[4];
      r.M += global[5];
    }
  }
  for (const Load& load : loads) {
    Reaction& r = on_nodes[static_cast<std::size_t>(load.node)];
    r.Fx -= load.Fx;
    r.Fz -= load.Fz;
    r.M -= load.M;
  }
  // What is left over at a node is what the ground gives; a spring's share is its own.
  double sum_x = 0.0, sum_z = 0.0, largest = 0.0;
  for (const Support& s : frame.supports) {
    const auto n = static_cast<std::size_t>(s.node);
    const Displacement& d = answer.displacements[n];
    const auto part = [](double k, double left, double moved) {
      return k == rigid ? left : -k * moved;
    };
    answer.reactions.push_back({part(s.k_u, on_nodes[n].Fx, d.u), part(s.k_w, on_nodes[n].Fz, d.w),
                                part(s.k_theta, on_nodes[n].M, d.theta)});
    sum_x += answer.reactions.back().Fx;
    sum_z += answer.reactions.back().Fz;
  }
  for (const Load& load : loads) {
    sum_x += load.Fx;
    sum_z += load.Fz;
    largest += std::abs(load.Fx) + std::abs(load.Fz);
  }
  for (const MemberForces& forces : answer.members) largest = std::max(largest, std::abs(forces.N));
  if (!(std::abs(sum_x) <= proof * largest && std::abs(sum_z) <= proof * largest)) {
    throw ProofFailed(fmt::format("plane frame: the reactions do not balance the loads ({}, {} N)",
                                  sum_x, sum_z));
  }
}

}  // namespace

Answer solve(const Frame& frame, const std::vector<Load>& loads, Order order) {
  const System system(frame);
  Answer answer;
  const Eigen::VectorXd f = system.loads(loads);
  const Sparse K = system.stiffness();
  answer.mechanism = system.loose(K);
  if (answer.mechanism) return answer;
  Factor factor;
  factor.analyzePattern(K);
  factor.factorize(K);
  Eigen::VectorXd x = factor.solve(f);
  std::vector<double> N = system.axial(x);
  Sparse A = K;
  if (order == Order::second) {
    bool settled = false;
    for (int turn = 0; turn < 200 && !settled; ++turn) {
      A = K + system.geometric(N);
      const auto count = negatives(factor, A);
      if (!count || *count > 0) {
        answer.unstable = true;
        return answer;
      }
      x = factor.solve(f);
      const std::vector<double> next = system.axial(x);
      double change = 0.0, size = 0.0;
      for (std::size_t k = 0; k < N.size(); ++k) {
        change = std::max(change, std::abs(next[k] - N[k]));
        size = std::max(size, std::abs(next[k]));
      }
      settled = change <= 1e-9 * size;
      if (!settled) N = next;
    }
    // Axial forces that never settle belong to a frame at the end of its stiffness.
    if (!settled) {
      answer.unstable = true;
      return answer;
    }
  }
  const double residual = (A * x - f).norm();
  // Forces, not moments, measure: a moment counts by the length that turns it into one.
  if (!(residual <= proof * std::max(f.norm(), 1e-300)) && residual > 0.0)
    throw ProofFailed(fmt::format("plane frame: residual {} against {}", residual, f.norm()));
  recover(frame, system, x, N, loads, order, answer);
  return answer;
}

Critical critical_factor(const Frame& frame, const std::vector<Load>& loads) {
  const System system(frame);
  Critical critical;
  const Sparse K = system.stiffness();
  critical.mechanism = system.loose(K);
  if (critical.mechanism) return critical;
  Factor factor;
  factor.analyzePattern(K);
  factor.factorize(K);
  const std::vector<double> N = system.axial(factor.solve(system.loads(loads)));
  const Sparse G = system.geometric(N);
  const auto buckled = [&](double lambda) {
    // Exactly at a critical load a pivot vanishes: a hair beside it counts.
    for (int turn = 0; turn < 20; ++turn) {
      const Sparse A = K + lambda * G;
      const auto count = negatives(factor, A);
      if (count) return *count > 0;
      lambda *= 1.0 + 1e-12;
    }
    return true;
  };
  constexpr double most = 1e9;
  double low = 0.0, high = 1.0;
  while (!buckled(high)) {
    if (high >= most) {
      critical.factor = std::numeric_limits<double>::infinity();
      return critical;
    }
    low = high;
    high *= 4.0;
  }
  const auto halve = [&](double within) {
    while (high - low > within * high) {
      const double middle = 0.5 * (low + high);
      (buckled(middle) ? high : low) = middle;
    }
  };
  // Once near, iterations from the stable side (Bathe, Finite Element Procedures, 11.2.2: inverse iteration
  // with a shift) find the factor; counting pivots a hair to both sides of it proves it the lowest.
  halve(0.1);
  if (const auto found = from_below(factor, K, G, low); found && *found < high) {
    const double below = *found * (1.0 - 4e-10), above = *found * (1.0 + 4e-10);
    if (below > low && !buckled(below)) low = below;
    if (above < high && buckled(above)) high = above;
  }
  halve(1e-9);
  critical.factor = low;  // the cautious end
  return critical;
}

}  // namespace underprop::solver::plane

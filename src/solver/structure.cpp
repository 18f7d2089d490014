#include "solver/structure.hpp"
#include "index.hpp"

#include "underprop/solver/analysis.hpp"

#include <fmt/format.h>
#include <algorithm>
#include <cmath>

namespace underprop::solver {

namespace {

using Eigen::Index;
using Eigen::VectorXd;
using Matrix = Eigen::SparseMatrix<double>;

std::vector<BeamElement> make_elements(const Frame& frame) {
  std::vector<BeamElement> out;
  out.reserve(frame.members.size());
  for (const Member& m : frame.members) {
    out.push_back(beam_element(m, frame.nodes[at(m.i)], frame.nodes[at(m.j)]));
  }
  return out;
}

}  // namespace

Structure::Structure(Frame frame)
    : frame_(std::move(frame)),
      elements_(make_elements(frame_)),
      freedoms_(frame_, elements_),
      support_spring_(frame_.supports.size(), -1) {
  make_springs();
  assemble();
  find_looseness();
}

int Structure::spring_of_support(int support) const { return support_spring_[at(support)]; }

std::vector<std::pair<int, double>> Structure::over_freedoms(
    const std::vector<std::pair<int, double>>& nodal) const {
  std::vector<std::pair<int, double>> out;
  for (const auto& [row, value] : nodal) {
    const FreedomTerm& t = freedoms_.row(row);
    if (t.freedom < 0) continue;
    const auto same =
        std::find_if(out.begin(), out.end(), [&](const auto& e) { return e.first == t.freedom; });
    if (same == out.end()) {
      out.emplace_back(t.freedom, value * t.factor);
    } else {
      same->second += value * t.factor;
    }
  }
  std::erase_if(out, [](const auto& e) { return e.second == 0.0; });
  return out;
}

void Structure::make_springs() {
  // The deflection stiffness of the members at a node: the measure for the augmentation of rigid
  // contacts, which converges the faster the larger it is and costs digits in the same measure.
  std::vector<double> local(frame_.nodes.size(), 0.0);
  double largest = 0.0;
  for (std::size_t m = 0; m < elements_.size(); ++m) {
    const BeamElement& b = elements_[m];
    const double k = (b.k_ii + 2.0 * b.k_ij + b.k_jj) / (b.L * b.L);
    const double alone = k > 0.0 ? k : b.EI / (b.L * b.L * b.L);
    local[at(frame_.members[m].i)] += alone;
    local[at(frame_.members[m].j)] += alone;
    largest = std::max(largest, alone);
  }
  const auto augmentation = [&](const std::vector<std::pair<int, double>>& nodal) {
    double least = std::numeric_limits<double>::infinity();
    for (const auto& [row, c] : nodal) {
      const std::size_t node = at(row / 3);
      if (node < local.size() && local[node] > 0.0) least = std::min(least, local[node]);
    }
    if (std::isfinite(least)) return 100.0 * least;
    return largest > 0.0 ? 100.0 * largest : 1e6;
  };
  const auto add = [&](Spring s, double k) {
    s.rigid = !std::isfinite(k);
    s.k = s.rigid ? augmentation(s.nodal) : k;
    s.c = over_freedoms(s.nodal);
    springs_.push_back(std::move(s));
  };
  const auto add_link = [&](std::size_t l) {
    const Link& link = frame_.links[l];
    Spring s;
    s.id = link.id;
    s.link = static_cast<int>(l);
    s.gap = link.gap;
    s.nodal = {{3 * link.j, 1.0}, {3 * link.i, -1.0}};
    add(std::move(s), link.k_w);
  };
  const auto add_support = [&](std::size_t n) {
    const Support& support = frame_.supports[n];
    Spring s;
    s.id = support.id;
    s.support = static_cast<int>(n);
    s.gap = support.gap;
    s.nodal = {{3 * support.node, -1.0}};
    support_spring_[n] = static_cast<int>(springs_.size());
    add(std::move(s), support.k_w);
  };

  for (std::size_t l = 0; l < frame_.links.size(); ++l) {
    if (frame_.links[l].compression_only) add_link(l);
  }
  for (std::size_t n = 0; n < frame_.supports.size(); ++n) {
    if (frame_.supports[n].compression_only) add_support(n);
  }
  for (std::size_t p = 0; p < frame_.plates.size(); ++p) {
    const Plate& plate = frame_.plates[p];
    const int row = 3 * static_cast<int>(frame_.nodes.size() + p);
    for (std::size_t c = 0; c < plate.contacts.size(); ++c) {
      const PlateContact& contact = plate.contacts[c];
      const Node& node = frame_.nodes[at(contact.node)];
      Spring s;
      s.id = plate.id + " on " + node.id;
      s.plate = static_cast<int>(p);
      s.contact = static_cast<int>(c);
      s.gap = contact.gap;
      s.nodal = {{3 * contact.node, 1.0},
                 {row, -1.0},
                 {row + 1, -(node.y - plate.y)},
                 {row + 2, node.x - plate.x}};
      add(std::move(s), contact.k_w);
    }
  }
  contacts_ = static_cast<int>(springs_.size());
  for (std::size_t n = 0; n < frame_.supports.size(); ++n) {
    const Support& s = frame_.supports[n];
    if (!s.compression_only && std::isfinite(s.k_w)) add_support(n);
  }
  changeable_ = static_cast<int>(springs_.size());
  for (std::size_t l = 0; l < frame_.links.size(); ++l) {
    const Link& link = frame_.links[l];
    if (!link.compression_only && std::isfinite(link.k_w)) add_link(l);
  }
  for (const Support& s : frame_.supports) {
    if (std::isfinite(s.k_tx) && s.k_tx > 0.0) turning_.emplace_back(3 * s.node + 1, s.k_tx);
    if (std::isfinite(s.k_ty) && s.k_ty > 0.0) turning_.emplace_back(3 * s.node + 2, s.k_ty);
  }
}

void Structure::assemble() {
  std::vector<Eigen::Triplet<double>> open, contact;
  open.reserve(21 * elements_.size());
  const auto add = [](std::vector<Eigen::Triplet<double>>& to, int r, int c, double v) {
    if (r >= c && v != 0.0) to.emplace_back(r, c, v);
  };
  for (std::size_t m = 0; m < elements_.size(); ++m) {
    const auto k = solver::stiffness(elements_[m]);
    std::array<FreedomTerm, 6> t;
    for (int e = 0; e < 3; ++e) {
      t[at(e)] = freedoms_.row(3 * frame_.members[m].i + e);
      t[at(e + 3)] = freedoms_.row(3 * frame_.members[m].j + e);
    }
    for (std::size_t r = 0; r < 6; ++r) {
      for (std::size_t c = 0; c < 6; ++c) {
        if (t[r].freedom < 0 || t[c].freedom < 0) continue;
        add(open, t[r].freedom, t[c].freedom, t[r].factor * k[r][c] * t[c].factor);
      }
    }
  }
  for (const auto& [row, k] : turning_) {
    const FreedomTerm& t = freedoms_.row(row);
    if (t.freedom >= 0) add(open, t.freedom, t.freedom, t.factor * t.factor * k);
  }
  // A support's tx and ty springs at a node with one turned freedom act on it both; the mixed terms
  // vanish because each spring turns about one axis.
  for (std::size_t s = 0; s < springs_.size(); ++s) {
    auto& to = static_cast<int>(s) < contacts_ ? contact : open;
    for (const auto& [r, vr] : springs_[s].c) {
      for (const auto& [c, vc] : springs_[s].c) add(to, r, c, vr * springs_[s].k * vc);
    }
  }
  const Index n = freedoms_.size();
  open_.resize(n, n);
  open_.setFromTriplets(open.begin(), open.end());
  Matrix extra(n, n);
  extra.setFromTriplets(contact.begin(), contact.end());
  closed_ = open_ + extra;
  diagonal_ = closed_.diagonal();
  if (!diagonal_.allFinite()) throw InvalidFrame("a stiffness is too large to compute with");
}

void Structure::find_looseness() {
  const Index n = freedoms_.size();
  if (n == 0) return;
  ldlt_.compute(closed_);
  bool suspicious = ldlt_.info() != Eigen::Success;
  if (!suspicious) {
    const VectorXd pivots = ldlt_.vectorD();
    const VectorXd full = ldlt_.permutationP() * diagonal_;
    for (Index i = 0; i < n; ++i) suspicious = suspicious || !(pivots[i] > 1e-8 * full[i]);
  }
  if (!suspicious) return;

  // Inverse iteration with a small shift finds the softest motion; its energy decides.
  const double largest = diagonal_.maxCoeff();
  VectorXd weight = diagonal_;
  for (Index i = 0; i < n; ++i) {
    if (!(weight[i] > 1e-14 * largest)) weight[i] = largest > 0.0 ? 1e-14 * largest : 1.0;
  }
  std::vector<double> k(springs_.size());
  for (std::size_t s = 0; s < springs_.size(); ++s) k[s] = springs_[s].k;
  Matrix shifted = closed_;
  Matrix shift(n, n);
  shift.reserve(Eigen::VectorXi::Constant(static_cast<int>(n), 1));
  for (Index i = 0; i < n; ++i) shift.insert(i, i) = 1e-13 * weight[i];
  shifted += shift;
  Eigen::SimplicialLDLT<Matrix, Eigen::Lower, FillReducing> factor(shifted);
  if (factor.info() == Eigen::Success) {
    VectorXd v(n);
    for (Index i = 0; i < n; ++i) v[i] = 1.0 + 0.37 * std::sin(static_cast<double>(7 * i + 1));
    for (int step = 0; step < 30; ++step) {
      const VectorXd rhs = weight.cwiseProduct(v);  // Eigen's solve must not see its own target
      v = factor.solve(rhs);
      const double size = std::sqrt(v.cwiseAbs2().dot(weight));
      if (!std::isfinite(size) || !(size > 0.0)) break;
      v /= size;
      if (step >= 2 && is_free(v, k)) {
        loose_ = v;
        return;
      }
    }
  }
  if (ldlt_.info() != Eigen::Success || !(ldlt_.vectorD().minCoeff() > 0.0)) {
    // No factorisation, and no motion that is free beyond doubt: refuse all the same.
    Index least = 0;
    diagonal_.minCoeff(&least);
    loose_ = VectorXd::Unit(n, least);
  }
}

VectorXd Structure::solve(const VectorXd& f) const {
  if (f.size() == 0) return f;
  VectorXd u = ldlt_.solve(f);
  const VectorXd residual = f - closed_.selfadjointView<Eigen::Lower>() * u;
  const VectorXd correction = ldlt_.solve(residual);
  u += correction;
  return u;
}

VectorXd Structure::solve_once(const VectorXd& f) const {
  if (f.size() == 0) return f;
  return ldlt_.solve(f);
}

VectorXd Structure::stiffness_times(const VectorXd& u) const {
  return open_.selfadjointView<Eigen::Lower>() * u;
}

double Structure::rounding_force(const VectorXd& u) const {
  double most = 0.0;
  const int deflections = static_cast<int>(frame_.nodes.size() + frame_.plates.size());
  for (int n = 0; n < deflections; ++n) {
    const FreedomTerm& t = freedoms_.row(3 * n);
    if (t.freedom < 0) continue;
    most = std::max(most, diagonal_[t.freedom] * std::abs(u[t.freedom]));
  }
  return most;
}

EndVector Structure::end_displacements(const VectorXd& nodal, int member) const {
  const int i = 3 * frame_.members[at(member)].i;
  const int j = 3 * frame_.members[at(member)].j;
  return {nodal[i], nodal[i + 1], nodal[i + 2], nodal[j], nodal[j + 1], nodal[j + 2]};
}

VectorXd Structure::respond(const VectorXd& nodal_loads) const {
  const VectorXd u = solve(freedoms_.reduce(nodal_loads));
  if (freedoms_.edges().empty() && freedoms_.clamped().empty()) return u;
  const VectorXd nodal = freedoms_.expand(u);
  VectorXd unbalanced = nodal_loads;
  for (std::size_t m = 0; m < elements_.size(); ++m) {
    const EndVector f =
        solver::stiffness_times(elements_[m], end_displacements(nodal, static_cast<int>(m)));
    for (int e = 0; e < 3; ++e) {
      unbalanced[3 * frame_.members[m].i + e] -= f[at(e)];
      unbalanced[3 * frame_.members[m].j + e] -= f[at(e + 3)];
    }
  }
  for (const auto& [row, k] : turning_) unbalanced[row] -= k * nodal[row];
  for (const Spring& s : springs_) {
    const double N = s.k * s.stretch(u);
    for (const auto& [row, c] : s.nodal) unbalanced[row] -= c * N;
  }
  const VectorXd reactions = freedoms_.reactions(unbalanced);
  VectorXd out(u.size() + reactions.size());
  out << u, reactions;
  return out;
}

bool Structure::is_free(const VectorXd& u, std::span<const double> k, double added) const {
  const VectorXd nodal = freedoms_.expand(u);
  double energy = added;
  for (std::size_t m = 0; m < elements_.size(); ++m) {
    energy += twice_energy(elements_[m], end_displacements(nodal, static_cast<int>(m)));
  }
  for (const auto& [row, stiffness] : turning_) energy += stiffness * nodal[row] * nodal[row];
  for (std::size_t s = 0; s < springs_.size(); ++s) {
    const double stretch = springs_[s].stretch(u);
    energy += k[s] * stretch * stretch;
  }
  const double scale = u.cwiseAbs2().dot(diagonal_);
  return energy <= 1e-17 * scale;  // also 0 <= 0: a node that nothing touches
}

std::string Structure::loosest_piece(const VectorXd& u) const {
  const VectorXd nodal = freedoms_.expand(u);
  // A turn counts as the deflection that it makes over a typical member.
  double typical = 0.0;
  for (const BeamElement& b : elements_) typical += b.L;
  typical = elements_.empty() ? 1000.0 : typical / static_cast<double>(elements_.size());
  const auto motion = [&](int i) {
    return std::max(std::abs(nodal[3 * i]),
                    typical * std::hypot(nodal[3 * i + 1], nodal[3 * i + 2]));
  };
  double most = 0.0;
  std::string name = "a node";
  const auto consider = [&](double moved, auto&& say) {
    if (moved > most * (1.0 + 1e-6)) {
      most = moved;
      name = say();
    }
  };
  for (std::size_t m = 0; m < elements_.size(); ++m) {
    const Member& member = frame_.members[m];
    consider(std::max(motion(member.i), motion(member.j)),
             [&] { return !member.piece.empty() ? member.piece : "member " + member.id; });
  }
  const int nodes = static_cast<int>(frame_.nodes.size());
  for (std::size_t p = 0; p < frame_.plates.size(); ++p) {
    consider(motion(nodes + static_cast<int>(p)), [&] { return "plate " + frame_.plates[p].id; });
  }
  for (int n = 0; n < nodes; ++n) {
    consider(motion(n), [&] { return "node " + frame_.nodes[at(n)].id; });
  }
  return name;
}

}  // namespace underprop::solver

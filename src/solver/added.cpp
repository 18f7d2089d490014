#include "solver/added.hpp"
#include "index.hpp"

#include <Eigen/QR>
#include <algorithm>
#include <cmath>

namespace underprop::solver {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

namespace {

/// Idle rotations resisted less than this share (of the root of the stiffness) by the new members stay
/// idle: the root of what Freedoms takes for nothing.
constexpr double resisted = 1e-6;

/// The rows a_k of one member over w, tx, ty at i and j.
std::vector<EndVector> energy_rows(const BeamElement& b) {
  const EndVector e_i{1.0 / b.L, b.cy, -b.cx, -1.0 / b.L, 0.0, 0.0};
  const EndVector e_j{1.0 / b.L, 0.0, 0.0, -1.0 / b.L, b.cy, -b.cx};
  std::vector<EndVector> rows;
  const auto add = [&](double stiffness, double part_i, double part_j) {
    if (!(stiffness > 0.0)) return;
    EndVector row{};
    for (std::size_t k = 0; k < 6; ++k) {
      row[k] = std::sqrt(stiffness) * (part_i * e_i[k] + part_j * e_j[k]);
    }
    rows.push_back(row);
  };
  // Eigenvalues of [k_ii k_ij; k_ij k_jj], the smaller from the determinant, which keeps its digits.
  const double large = 0.5 * (b.k_ii + b.k_jj + std::hypot(b.k_ii - b.k_jj, 2.0 * b.k_ij));
  if (large > 0.0) {
    const double small = std::max(0.0, (b.k_ii * b.k_jj - b.k_ij * b.k_ij) / large);
    const double angle = 0.5 * std::atan2(2.0 * b.k_ij, b.k_ii - b.k_jj);
    add(large, std::cos(angle), std::sin(angle));
    add(small, -std::sin(angle), std::cos(angle));
  }
  if (b.k_t > 0.0) {
    const double r = std::sqrt(b.k_t);
    rows.push_back({0.0, -r * b.cx, -r * b.cy, 0.0, r * b.cx, r * b.cy});
  }
  return rows;
}

}  // namespace

Added::Added(const Responses& responses, const Additions& additions) {
  for (std::size_t s = 0; s < additions.supports.size(); ++s) {
    const SupportAddition& a = additions.supports[s];
    AddedSpring out;
    out.support = static_cast<int>(s);
    out.one_way = a.compression_only;
    out.spring.k = a.k_w;
    out.spring.gap = a.gap;
    out.spring.nodal = {{3 * a.node, -1.0}};
    springs_.push_back(std::move(out));
  }
  if (!additions.members.empty()) add_members(responses, additions.members);
  for (AddedSpring& s : springs_) {
    s.spring.c = responses.structure().over_freedoms(s.spring.nodal);
    for (const auto& [row, c] : s.spring.nodal) {
      const VectorXd& unit = responses.nodal_unit(row);
      if (s.response.size() == 0) s.response = VectorXd::Zero(unit.size());
      s.response += c * unit;
    }
    s.stretch = responses.stretches(s.response);
  }
}

void Added::add_members(const Responses& responses, const std::vector<Member>& members) {
  const Frame& frame = responses.structure().frame();
  const Freedoms& freedoms = responses.structure().freedoms();
  std::vector<int> nodes;
  for (const Member& m : members) {
    elements_.push_back(beam_element(m, frame.nodes[at(m.i)], frame.nodes[at(m.j)]));
    ends_.push_back({m.i, m.j});
    nodes.push_back(m.i);
    nodes.push_back(m.j);
  }
  std::sort(nodes.begin(), nodes.end());
  nodes.erase(std::unique(nodes.begin(), nodes.end()), nodes.end());
  const auto first_column = [&](int node) {
    return 3 * (std::lower_bound(nodes.begin(), nodes.end(), node) - nodes.begin());
  };
  std::vector<std::vector<EndVector>> rows;
  Index count = 0;
  for (const BeamElement& b : elements_) {
    rows.push_back(energy_rows(b));
    count += static_cast<Index>(rows.back().size());
  }
  if (count == 0) return;  // released at both ends and without torsion: such a member does nothing
  MatrixXd A = MatrixXd::Zero(count, 3 * static_cast<Index>(nodes.size()));
  Index next = 0;
  for (std::size_t m = 0; m < rows.size(); ++m) {
    for (const EndVector& row : rows[m]) {
      for (int e = 0; e < 3; ++e) {
        A(next, first_column(ends_[m].i) + e) += row[at(e)];
        A(next, first_column(ends_[m].j) + e) += row[at(e + 3)];
      }
      ++next;
    }
  }

  // Idle directions leave A and enter A_t.
  std::vector<VectorXd> idle;
  const auto take_out = [&](int node, double x, double y) {
    const Index c = first_column(node);
    const VectorXd along = x * A.col(c + 1) + y * A.col(c + 2);
    A.col(c + 1) -= x * along;
    A.col(c + 2) -= y * along;
    idle.push_back(along);
    turns_.push_back({node, x, y});
  };
  for (const int n : nodes) {
    const auto [x, y] = freedoms.idle(n);
    for (int e = 0; e < 3; ++e) rows_.push_back(3 * n + e);
    if (x > 1.0) {
      take_out(n, 1.0, 0.0);
      take_out(n, 0.0, 1.0);
    } else if (x != 0.0 || y != 0.0) {
      take_out(n, x, y);
    }
  }
  // A member beside an old one turns nothing new but by rounding: measured against all rotations.
  double largest = 0.0;
  for (const VectorXd& t : idle) largest = std::max(largest, t.norm());
  double all = largest;
  for (Index c = 0; c < A.cols(); ++c) {
    if (c % 3 != 0) all = std::max(all, A.col(c).norm());
  }
  if (largest <= resisted * all) {
    turns_.clear();
  } else {
    MatrixXd A_t(count, static_cast<Index>(idle.size()));
    for (Index t = 0; t < A_t.cols(); ++t) A_t.col(t) = idle[at(t)];
    Eigen::CompleteOrthogonalDecomposition<MatrixXd> qr;
    qr.setThreshold(resisted * all / largest);
    qr.compute(A_t);
    // The rotations that each node gains, against those that are resisted all together: two nodes that
    // only a twisting new member joins still roll with it.
    Index gained = 0;
    for (Index t = 0; t < A_t.cols();) {
      Index next_node = t + 1;
      while (next_node < A_t.cols() && turns_[at(next_node)].node == turns_[at(t)].node)
        ++next_node;
      const MatrixXd own = A_t.middleCols(t, next_node - t);
      const double most = own.colwise().norm().maxCoeff();
      if (most > resisted * all) {
        Eigen::ColPivHouseholderQR<MatrixXd> of_node;
        of_node.setThreshold(resisted * all / most);
        gained += of_node.compute(own).rank();
      }
      t = next_node;
    }
    rolls_ = gained > qr.rank();
    to_turns_ = -qr.solve(A);
    const MatrixXd Q = qr.householderQ();
    A = (Q.rightCols(count - qr.rank()).transpose() * A).eval();
  }

  for (Index r = 0; r < A.rows(); ++r) {
    AddedSpring out;
    out.spring.k = 1.0;
    for (Index c = 0; c < A.cols(); ++c) {
      if (A(r, c) != 0.0) out.spring.nodal.emplace_back(rows_[at(c)], A(r, c));
    }
    if (!out.spring.nodal.empty()) springs_.push_back(std::move(out));
  }
}

void Added::turn(VectorXd& nodal) const {
  if (turns_.empty()) return;
  VectorXd u(static_cast<Index>(rows_.size()));
  for (std::size_t r = 0; r < rows_.size(); ++r) u[static_cast<Index>(r)] = nodal[rows_[r]];
  const VectorXd turned = to_turns_ * u;
  for (std::size_t t = 0; t < turns_.size(); ++t) {
    nodal[3 * turns_[t].node + 1] += turns_[t].x * turned[static_cast<Index>(t)];
    nodal[3 * turns_[t].node + 2] += turns_[t].y * turned[static_cast<Index>(t)];
  }
}

std::vector<MemberForces> Added::member_forces(const VectorXd& nodal) const {
  std::vector<MemberForces> out;
  for (std::size_t m = 0; m < elements_.size(); ++m) {
    EndVector u{};
    for (int e = 0; e < 3; ++e) {
      u[at(e)] = nodal[3 * ends_[m].i + e];
      u[at(e + 3)] = nodal[3 * ends_[m].j + e];
    }
    const EndForces f = end_forces(elements_[m], u, {});
    out.push_back({f.Mi, f.Mj, f.Vi, f.Vj, f.T, std::max(std::abs(f.Mi), std::abs(f.Mj)),
                   std::max(std::abs(f.Vi), std::abs(f.Vj))});
  }
  return out;
}

}  // namespace underprop::solver

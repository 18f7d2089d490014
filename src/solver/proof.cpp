// From the solution of a question to the response, and its proof.
#include "index.hpp"
#include "solver/question.hpp"

#include <fmt/format.h>
#include <algorithm>
#include <cmath>
#include <limits>

namespace underprop::solver {

using Eigen::Index;
using Eigen::VectorXd;

namespace {

/// Proof: an answer further off than this is not given.
constexpr double proof_limit = 1e-6;
/// Short members are stiff, and displacements carry 16 digits only: what rounding of the
/// displacements alone can make of the residual is allowed on top, up to this.
constexpr double rounding_limit = 1e-4;

}  // namespace

void Question::finish() {
  const Frame& frame = s_.frame();
  const Freedoms& freedoms = s_.freedoms();
  if (!raw_.allFinite()) throw ProofFailed("the solution is not finite");
  const VectorXd u = freedoms_of(raw_);
  VectorXd nodal = freedoms.expand(u);
  added_.turn(nodal);
  response_.added_members = added_.member_forces(nodal);
  const auto nodes = frame.nodes.size();

  response_.displacements.resize(nodes);
  for (std::size_t n = 0; n < nodes; ++n) {
    const Index row = 3 * static_cast<Index>(n);
    response_.displacements[n] = {nodal[row], nodal[row + 1], nodal[row + 2]};
  }
  response_.supports.assign(frame.supports.size(), 0.0);
  response_.links.assign(frame.links.size(), 0.0);
  response_.plates.resize(frame.plates.size());
  for (std::size_t p = 0; p < frame.plates.size(); ++p) {
    const Index row = 3 * static_cast<Index>(nodes + p);
    response_.plates[p].w = nodal[row];
    response_.plates[p].tx = nodal[row + 1];
    response_.plates[p].ty = nodal[row + 2];
    response_.plates[p].contacts.resize(frame.plates[p].contacts.size());
  }

  double largest = 0.0;
  std::vector<int> contact(spring_.size(), -1);
  for (int i = 0; i < contacts_; ++i) contact[at(contact_[at(i)])] = i;
  response_.added_supports.assign(added_supports_, 0.0);
  force_.resize(spring_.size());
  const double pressing = contacts_ > 0 ? N_.maxCoeff() : 0.0;
  for (std::size_t s = 0; s < spring_.size(); ++s) {
    const Spring& spring = *spring_[s];
    // From the displacements, not from the complementarity problem: prove() compares the two.
    double N = k_[s] * (spring.stretch(u) - gap_[s]);
    const int i = contact[s];
    if (i >= 0) {
      if (rigid_[s] != 0) {
        N = N_[i];
      } else {
        // A force at the size of rounding of its own stretch is none.
        N = std::max(0.0, N);
        if (opened_[i] > 0.0 && N <= touching * pressing) N = 0.0;
      }
    }
    force_[s] = N;
    if (spring.link >= 0) response_.links[at(spring.link)] = N;
    if (spring.support >= 0) response_.supports[at(spring.support)] = N;
    if (spring.plate >= 0) response_.plates[at(spring.plate)].contacts[at(spring.contact)] = N;
    if (s >= at(own_)) {
      // The springs of an added member are no forces that anybody sees.
      const int added = added_.springs()[s - at(own_)].support;
      if (added < 0) continue;
      response_.added_supports[at(added)] = N;
    }
    largest = std::max(largest, std::abs(N));
  }
  Index next = freedoms.size();
  for (const RigidEdge& e : freedoms.edges()) {
    const double N = raw_[next++];
    largest = std::max(largest, std::abs(N));
    if (e.link >= 0) response_.links[at(e.link)] = N;
    if (e.support >= 0) response_.supports[at(e.support)] = N;
  }

  // Reactions of the supports on the structure, about the middle of the nodes.
  Eigen::Vector3d reactions = Eigen::Vector3d::Zero();
  for (std::size_t k = 0; k < frame.supports.size(); ++k) {
    const Support& support = frame.supports[k];
    const Node& n = frame.nodes[at(support.node)];
    const double R = response_.supports[k];
    const auto& d = response_.displacements[at(support.node)];
    reactions += r_.about_middle(n.x, n.y, R);
    if (std::isfinite(support.k_tx)) reactions[1] -= support.k_tx * d.tx;
    if (std::isfinite(support.k_ty)) reactions[2] -= support.k_ty * d.ty;
  }
  for (std::size_t s = at(own_); s < spring_.size(); ++s) {
    if (added_.springs()[s - at(own_)].support < 0) continue;
    const Node& n = frame.nodes[at(spring_[s]->nodal.front().first / 3)];
    reactions += r_.about_middle(n.x, n.y, force_[s]);
  }
  for (std::size_t c = 0; c < freedoms.clamped().size(); ++c) {
    reactions[1] += raw_[next++];
    reactions[2] += raw_[next++];
  }
  prove(u, reactions, largest);
}

void Question::prove(const VectorXd& u, const Eigen::Vector3d& reactions, double largest) {
  const Freedoms& freedoms = s_.freedoms();

  // Residual: all elements and the reported contact forces against the loads.
  VectorXd residual = s_.stiffness_times(u) - loads_;
  const auto add = [&](const Spring& spring, double N) {
    for (const auto& [f, c] : spring.c) residual[f] += c * N;
  };
  for (const int s : contact_) add(*spring_[at(s)], force_[at(s)]);
  for (std::size_t s = at(s_.contacts()); s < spring_.size(); ++s) {
    const bool own = s < at(own_);
    if (!own && added_.springs()[s - at(own_)].one_way) continue;
    const double was = own ? spring_[s]->k : 0.0;  // the part that stiffness_times knows
    if (k_[s] != was) add(*spring_[s], (k_[s] - was) * spring_[s]->stretch(u));
  }

  // Forces and moments are measured each against the largest of its kind.
  const double typical = s_.elements().empty()
                             ? r_.size()
                             : r_.size() / std::sqrt(static_cast<double>(s_.elements().size()));
  double force = largest;
  double moment = 0.0;
  double off_force = 0.0;
  double off_moment = 0.0;
  const auto over = [&](int row, auto&& say) {
    const FreedomTerm& t = freedoms.row(row);
    if (t.freedom >= 0) say(t.freedom);
  };
  for (int row = 0; row < static_cast<int>(freedoms.nodal_size()); ++row) {
    const bool turning = row % 3 != 0;
    over(row, [&](int f) {
      double& scale = turning ? moment : force;
      double& off = turning ? off_moment : off_force;
      scale = std::max(scale, std::abs(loads_[f]));
      off = std::max(off, std::abs(residual[f]));
      if (!std::isfinite(residual[f])) off = std::numeric_limits<double>::infinity();
    });
  }
  force = std::max({force, moment / r_.size(), std::numeric_limits<double>::min()});
  moment = std::max(moment, force * typical);

  Proof& proof = response_.proof;
  proof.residual = std::max(off_force / force, off_moment / moment);
  const Eigen::Vector3d sum = total_ + reactions;
  const double arm = moment / force + r_.size();
  proof.balance = std::max({std::abs(sum[0]), std::abs(sum[1]) / arm, std::abs(sum[2]) / arm}) /
                  std::max(force, std::abs(total_[0]));
  const double moved = u.size() > 0 ? u.cwiseAbs().maxCoeff() : 0.0;
  for (int i = 0; i < contacts_; ++i) {
    const int s = contact_[at(i)];
    const Spring& spring = *spring_[at(s)];
    const double closing = spring.stretch(u) - gap_[at(s)];  // > 0: pressed together
    double worst = 0.0;
    if (rigid_[at(s)] != 0) {
      const double reach = std::max({moved, std::abs(gap_[at(s)]), largest / spring.k, 1e-300});
      worst = std::max(closing / reach, N_[i] > touching * largest ? -closing / reach : 0.0);
    } else {
      worst = std::abs(std::max(0.0, k_[at(s)] * closing) - N_[i]) / force;
    }
    proof.complementarity = std::max(proof.complementarity, worst);
    if (!std::isfinite(worst)) proof.complementarity = worst;
  }

  const double rounding = 1e-15 * s_.rounding_force(u) / force;
  const double limit = std::max(proof_limit, std::min(rounding, rounding_limit));
  if (proof.residual <= limit && proof.balance <= limit && proof.complementarity <= limit) return;
  throw ProofFailed(fmt::format(
      "the solution fails its proof: residual {:.2e}, balance {:.2e}, complementarity {:.2e}, "
      "allowed {:.2e}",
      proof.residual, proof.balance, proof.complementarity, limit));
}

}  // namespace underprop::solver

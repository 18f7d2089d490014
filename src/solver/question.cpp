// One-way contact on the condensed contact freedoms.
//
// With K_c the stiffness with every contact closed, and lambda_i >= 0 the tension that contact i would
// have to bear to stay closed (lambda = k times the opening, 0 where it is closed),
//   K_c u = f + sum c_i k_i g_i - sum c_i lambda_i,    N_i = lambda_i + k_i (c_i'u - g_i),
//   N >= 0, lambda >= 0, N_i lambda_i = 0.
// Divided by sqrt(k_i): N^ = q^ + (I - S) lambda^ with S = D C'K_c^-1 C D, D = diag(sqrt(k_i)).
// K_c - C D^2 C' = K (no contacts) is positive semidefinite, so S has eigenvalues in [0, 1] and the
// problem is that of contact.hpp. A column K_c^-1 c_i is computed when contact i first opens, and kept.
//
// A rigid contact (c'u <= g) has a finite k_i here as an augmentation: the problem is solved with its
// gap set to g - n/k, n being the force of the previous round, until n no longer changes. At that
// point c'u = g wherever n > 0: exact, not a penalty. The rounds are the proximal point algorithm on
// the dual (R. T. Rockafellar, Augmented Lagrangians and applications of the proximal point algorithm
// in convex programming, Mathematics of Operations Research 1, 1976); they converge whenever there is
// a solution, also where more contacts press than statics needs.
//
// A changed support p adds (k' - k) c_p c_p', an added spring k c_p c_p' (one-way ones closed): by
// Woodbury (M. A. Woodbury, Inverting modified matrices, Memorandum Report 42, Princeton 1950)
//   K'^-1 = K_c^-1 - Y W Y',  Y = K_c^-1 C_P,  W = Delta (I + C_P'Y Delta)^-1.
#include "solver/question.hpp"
#include "index.hpp"

#include "solver/contact.hpp"

#include <fmt/format.h>
#include <Eigen/LU>
#include <algorithm>
#include <cmath>

namespace underprop::solver {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

namespace {

/// A contact force below this share of the largest may be rounding: whether it is, the loads tell.
constexpr double doubtful = 1e-8;
/// Loads whose work on a motion is below this share of what they could do on it do no work on it.
constexpr double no_work = 1e-9;

/// Rounding that keeps the contact method from ending is a failed proof, not an answer.
ContactSolution solve_or_fail(const ContactProblem& problem) {
  try {
    return solve_contact(problem);
  } catch (const std::runtime_error& e) {
    throw ProofFailed(e.what());
  }
}

constexpr const char* lifted = " once contacts that cannot pull have opened";

}  // namespace

Question::Question(const Responses& responses, std::span<const CaseFactor> combination,
                   std::span<const SupportChange> changes, const Additions& additions)
    : r_(responses), s_(responses.structure()), own_(static_cast<int>(s_.springs().size())) {
  for (int i = 0; i < s_.contacts(); ++i) contact_.push_back(i);
  const auto take = [&](const Spring& s) {
    spring_.push_back(&s);
    k_.push_back(s.k);
    gap_.push_back(s.gap);
    rigid_.push_back(s.rigid ? 1 : 0);
  };
  for (const Spring& s : s_.springs()) take(s);
  superpose(combination);
  change(changes);
  if (!additions.empty() && !beyond_factored()) {
    added_ = Added(responses, additions);
    added_supports_ = additions.supports.size();
    for (const AddedSpring& a : added_.springs()) {
      const int s = static_cast<int>(spring_.size());
      take(a.spring);
      if (a.one_way) contact_.push_back(s);
      changed_.push_back(s);
    }
  }
  contacts_ = static_cast<int>(contact_.size());
  for (const int s : contact_) any_rigid_ = any_rigid_ || rigid_[at(s)] != 0;
}

Response Question::answer() {
  if (const auto& motion = s_.loose()) return mechanism(*motion, "");
  if (response_.mechanism) return std::move(response_);
  if (!changed_.empty() && !weaken()) return std::move(response_);
  stretch_.resize(contacts_);
  for (int i = 0; i < contacts_; ++i) stretch_[i] = spring_[at(contact_[at(i)])]->stretch(raw_);
  if (contacts_ > 0 && !close_contacts()) return std::move(response_);
  finish();
  return std::move(response_);
}

void Question::superpose(std::span<const CaseFactor> combination) {
  if (s_.loose()) return;
  raw_ = r_.gaps();
  loads_ = VectorXd::Zero(s_.freedoms().size());
  std::vector<Freedoms::IdleMoment> idle;
  for (const CaseFactor& c : combination) {
    const Unit& unit = r_.unit(c.load_case);
    raw_ += c.factor * unit.response;
    loads_ += c.factor * unit.loads;
    total_ += c.factor * unit.total;
    for (const auto& m : unit.idle) idle.push_back({m.node, c.factor * m.moment});
  }
  if (idle.empty()) return;
  std::stable_sort(idle.begin(), idle.end(),
                   [](const auto& x, const auto& y) { return x.node < y.node; });
  for (std::size_t k = 0; k < idle.size();) {
    double sum = 0.0;
    double largest = 0.0;
    const int node = idle[k].node;
    for (; k < idle.size() && idle[k].node == node; ++k) {
      sum += idle[k].moment;
      largest = std::max(largest, std::abs(idle[k].moment));
    }
    if (std::abs(sum) > 1e-9 * largest) {
      response_.mechanism =
          fmt::format("a moment at node {} meets no resistance", s_.frame().nodes[at(node)].id);
      return;
    }
  }
}

void Question::change(std::span<const SupportChange> changes) {
  for (const SupportChange& c : changes) {
    const int s = s_.spring_of_support(c.support);
    const double gap = c.gap.value_or(s_.springs()[at(s)].gap);
    if (c.k_w == k_[at(s)] && gap == gap_[at(s)] && rigid_[at(s)] == 0) continue;
    changed_.push_back(s);
    k_[at(s)] = c.k_w;
    gap_[at(s)] = gap;
    rigid_[at(s)] = 0;
  }
}

bool Question::weaken() {
  const auto p = static_cast<Index>(changed_.size());
  MatrixXd flexibility(p, p);
  VectorXd delta(p);
  for (Index j = 0; j < p; ++j) {
    const int s = changed_[at(j)];
    const double was = s < own_ ? spring_[at(s)]->k : 0.0;
    for (Index i = 0; i < p; ++i) flexibility(i, j) = flexibility_between(s, changed_[at(i)]);
    delta[j] = k_[at(s)] - was;
    raw_ += (k_[at(s)] * gap_[at(s)] - was * spring_[at(s)]->gap) * column(s);
  }
  const MatrixXd system = MatrixXd::Identity(p, p) + flexibility * delta.asDiagonal();
  const Eigen::FullPivLU<MatrixXd> lu(system);
  const VectorXd pivots = lu.matrixLU().diagonal().cwiseAbs();
  if (!(pivots.minCoeff() > 1e-8 * std::max(1.0, pivots.maxCoeff()))) {
    Eigen::FullPivLU<MatrixXd> rank(system);
    rank.setThreshold(1e-7);
    const MatrixXd kernel = rank.kernel();
    for (Index c = 0; c < kernel.cols(); ++c) {
      VectorXd u = VectorXd::Zero(raw_.size());
      for (Index j = 0; j < p; ++j) {
        u += column(changed_[at(j)]) * (delta[j] * kernel(j, c));
      }
      if (is_free(freedoms_of(u), k_)) {
        response_ = mechanism(u, " without the changed supports");
        return false;
      }
    }
  }
  woodbury_ = delta.asDiagonal() * lu.inverse();
  raw_ = corrected(raw_);
  return true;
}

const VectorXd& Question::column(int spring) const {
  return spring < own_ ? r_.column(spring).response : added_.springs()[at(spring - own_)].response;
}

double Question::flexibility_between(int i, int j) const {
  if (i < own_ && j < own_) return r_.column(i).stretch[j];
  if (i < j) std::swap(i, j);  // i is added
  const AddedSpring& added = added_.springs()[at(i - own_)];
  return j < own_ ? added.stretch[j] : spring_[at(j)]->stretch(added.response);
}

VectorXd Question::corrected(const VectorXd& response) const {
  if (woodbury_.size() == 0) return response;
  VectorXd s(static_cast<Index>(changed_.size()));
  for (std::size_t j = 0; j < changed_.size(); ++j) {
    s[static_cast<Index>(j)] = spring_[at(changed_[j])]->stretch(response);
  }
  const VectorXd w = woodbury_ * s;
  VectorXd out = response;
  for (std::size_t j = 0; j < changed_.size(); ++j) {
    out -= w[static_cast<Index>(j)] * column(changed_[j]);
  }
  return out;
}

VectorXd Question::flexibility(int i) const {
  const auto plain = [&](int spring) {
    VectorXd out(contacts_);
    const Index own = s_.contacts();
    out.head(own) =
        (spring < own_ ? r_.column(spring).stretch : added_.springs()[at(spring - own_)].stretch)
            .head(own);
    for (Index j = own; j < contacts_; ++j) {
      out[j] = flexibility_between(spring, contact_[at(j)]);
    }
    return out;
  };
  const int spring = contact_[at(i)];
  VectorXd out = plain(spring);
  if (woodbury_.size() == 0) return out;
  VectorXd s(static_cast<Index>(changed_.size()));
  for (std::size_t j = 0; j < changed_.size(); ++j) {
    s[static_cast<Index>(j)] = flexibility_between(spring, changed_[j]);
  }
  const VectorXd w = woodbury_ * s;
  for (std::size_t j = 0; j < changed_.size(); ++j) {
    out -= w[static_cast<Index>(j)] * plain(changed_[j]);
  }
  return out;
}

VectorXd Question::freedoms_of(const VectorXd& response) const {
  return response.head(s_.freedoms().size());
}

VectorXd Question::opening_motion(const VectorXd& d) const {
  VectorXd u = VectorXd::Zero(raw_.size());
  for (int i = 0; i < contacts_; ++i) {
    if (d[i] != 0.0) u -= root_k_[i] * d[i] * column(contact_[at(i)]);
  }
  return freedoms_of(corrected(u));
}

double Question::most_work(const VectorXd& motion) const {
  double force = 0.0, moment = 0.0, moved = 0.0, turned = 0.0;
  for (Index row = 0; row < s_.freedoms().nodal_size(); ++row) {
    const int f = s_.freedoms().row(static_cast<int>(row)).freedom;
    if (f < 0) continue;
    double& load = row % 3 == 0 ? force : moment;
    double& reach = row % 3 == 0 ? moved : turned;
    load = std::max(load, std::abs(loads_[f]));
    reach = std::max(reach, std::abs(motion[f]));
  }
  return force * moved + moment * turned;
}

bool Question::is_free(const VectorXd& d) const {
  std::vector<double> k = k_;
  for (int i = 0; i < contacts_; ++i) {
    if (d[i] != 0.0) k[at(contact_[at(i)])] = 0.0;
  }
  return is_free(opening_motion(d), k);
}

bool Question::is_free(const VectorXd& u, const std::vector<double>& k) const {
  double added = 0.0;
  for (std::size_t s = at(own_); s < spring_.size(); ++s) {
    const double stretch = spring_[s]->stretch(u);
    added += k[s] * stretch * stretch;
  }
  return s_.is_free(u, k, added);
}

Response Question::mechanism(const VectorXd& motion, const std::string& when) const {
  Response r;
  r.mechanism = fmt::format("{} is loose{}: nothing resists its motion",
                            s_.loosest_piece(freedoms_of(motion)), when);
  const VectorXd nodal = s_.freedoms().expand(freedoms_of(motion));
  const std::size_t nodes = s_.frame().nodes.size();
  double most = 0.0, work = 0.0;
  for (Index row = 0; row < s_.freedoms().nodal_size(); ++row) {
    const int f = s_.freedoms().row(static_cast<int>(row)).freedom;
    if (f >= 0 && f < loads_.size()) work += loads_[f] * motion[f];
  }
  for (std::size_t n = 0; n < nodes; ++n)
    most = std::max(most, std::abs(nodal[3 * static_cast<Index>(n)]));
  if (!(most > 0.0)) return r;
  const double scale = (work < 0.0 ? -1.0 : 1.0) / most;
  for (std::size_t n = 0; n < nodes; ++n)
    r.loose_w.push_back(scale * nodal[3 * static_cast<Index>(n)]);
  return r;
}

bool Question::close_contacts() {
  root_k_.resize(contacts_);
  VectorXd trial(contacts_);  // the forces with all contacts closed
  for (int i = 0; i < contacts_; ++i) {
    const int s = contact_[at(i)];
    root_k_[i] = std::sqrt(k_[at(s)]);
    trial[i] = k_[at(s)] * (stretch_[i] - gap_[at(s)]);
  }
  std::vector<VectorXd> scaled(at(contacts_));
  ContactProblem problem;
  problem.column = [&](int i) -> const VectorXd& {
    VectorXd& m = scaled[at(i)];
    if (m.size() == 0) {
      m = -root_k_[i] * root_k_.cwiseProduct(flexibility(i));
      m[i] += 1.0;
    }
    return m;
  };
  problem.is_null = [&](const VectorXd& d) { return is_free(d); };

  const double reach = freedoms_of(raw_).lpNorm<Eigen::Infinity>();
  VectorXd pressed = VectorXd::Zero(contacts_);  // n of the augmentation
  std::vector<int> open;
  opened_ = VectorXd::Zero(contacts_);
  bool done = false;
  for (int round = 0; round < 400 && !done; ++round) {
    VectorXd force = trial;
    if (round > 0) {
      // The stretches once the forces `pressed` act on top of the augmented springs.
      for (int i = 0; i < contacts_; ++i) {
        if (pressed[i] == 0.0) continue;
        force -= pressed[i] * root_k_.cwiseAbs2().cwiseProduct(flexibility(i));
        force[i] += pressed[i];
      }
    }
    const double largest = force.cwiseAbs().maxCoeff();
    if ((force.array() >= -touching * largest).all()) {
      N_ = force.cwiseMax(0.0);
      opened_.setZero();
      open.clear();
    } else {
      problem.q.resize(contacts_);
      for (int i = 0; i < contacts_; ++i) {
        problem.q[i] = root_k_[i] > 0.0 ? force[i] / root_k_[i] : 0.0;
      }
      ContactSolution s = solve_or_fail(problem);
      if (s.status == ContactStatus::no_solution) {
        response_ = mechanism(opening_motion(s.ray), lifted);
        return false;
      }
      N_ = root_k_.cwiseProduct(s.force);
      opened_ = root_k_.cwiseProduct(s.lambda);
      open = std::move(s.open);
    }
    done = true;
    if (!any_rigid_) break;
    const double scale = std::max(N_.maxCoeff(), 0.0);
    for (int i = 0; i < contacts_; ++i) {
      const int s = contact_[at(i)];
      if (rigid_[at(s)] == 0) continue;
      // The change over k is what the contact still penetrates. Where it falls slowly (a rigid
      // contact beside a rigid support), a penetration at the size of rounding is enough.
      const double change = std::abs(N_[i] - pressed[i]);
      const bool slow = round >= 100 && change <= 1e-11 * k_[at(s)] * reach;
      if (change > 1e-10 * scale && !slow) done = false;
      pressed[i] = N_[i];
    }
  }
  if (!done) {
    response_.mechanism = "no equilibrium: rigid contacts with gaps contradict one another";
    return false;
  }

  // A contact that presses nothing holds nothing: with all of them open, is anything free?
  // (A stiff contact's force carries the rounding of the displacements, k times 1e-16 of them.)
  const double largest = N_.maxCoeff();
  const double moved = freedoms_of(raw_).lpNorm<Eigen::Infinity>();
  std::vector<int> idle;
  for (int i = 0; i < contacts_; ++i) {
    response_.something_lifts = response_.something_lifts || opened_[i] > 0.0;
    const double k = k_[at(contact_[at(i)])];
    const double none = std::max(touching * largest, 1e-15 * k * moved);
    if (N_[i] <= none && k > 0.0) idle.push_back(i);
  }
  problem.q = VectorXd::Zero(contacts_);
  if (idle != open) {  // the block of `open` is known to be regular
    const VectorXd d = null_vector(problem, idle);
    if (d.size() > 0) {
      response_ = mechanism(opening_motion(d), lifted);
      return false;
    }
  }
  // A structure that has all but tipped answers with displacements so large that their rounding seems
  // to press. Were such contacts open, would anything be free, and do the loads work on that motion?
  // By virtual work the forces that hold it sum to that work: if it is none, they are none.
  std::vector<int> weak;
  for (int i = 0; i < contacts_; ++i) {
    const double k = k_[at(contact_[at(i)])];
    if (k > 0.0 && N_[i] <= std::max(doubtful * largest, 1e-12 * k * moved)) weak.push_back(i);
  }
  if (weak != idle) {
    const VectorXd d = null_vector(problem, weak);
    if (d.size() > 0) {
      const VectorXd motion = opening_motion(d);
      if (std::abs(loads_.dot(motion)) <= no_work * most_work(motion)) {
        response_ = mechanism(motion, lifted);
        return false;
      }
    }
  }

  // u = K'^-1 (f + c k g - c (lambda + n)): n takes the place of the augmented gap.
  VectorXd correction = VectorXd::Zero(raw_.size());
  bool any = false;
  for (int i = 0; i < contacts_; ++i) {
    const double force = opened_[i] + (rigid_[at(contact_[at(i)])] != 0 ? pressed[i] : 0.0);
    if (force == 0.0) continue;
    any = true;
    correction += force * column(contact_[at(i)]);
  }
  if (any) raw_ -= corrected(correction);
  return true;
}

}  // namespace underprop::solver

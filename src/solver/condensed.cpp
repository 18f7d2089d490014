#include "solver/condensed.hpp"
#include "index.hpp"

#include "group_bounds.hpp"
#include "solver/contact_memory.hpp"
#include "solver/responses.hpp"
#include "solver/validation.hpp"
#include "state_reading.hpp"
#include "weighted_sum.hpp"

#include <Eigen/LU>
#include <algorithm>
#include <cmath>
#include <limits>

namespace underprop::solver {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

namespace {

/// What one unit response says.
struct UnitResponse {
  VectorXd stretch;  ///< c'u of every spring
  /// Mi, Vi per member of the first set (uniform loads only: the other end follows from statics), then
  /// Mi, Mj, Vi, Vj per member of the second.
  VectorXd ends;
  VectorXd bounds;  ///< see GroupBounds
  VectorXd w;       ///< of every node
};

/// A response times a factor, in the sum that makes a state.
struct ScaledResponse {
  double factor;
  const UnitResponse* reading;
};

/// The structure with some supports changed.
struct Variant {
  std::vector<SupportChange> changes;
  std::vector<int> changed;  ///< springs
  VectorXd k, gap;           ///< per spring
  VectorXd root_k;           ///< per contact
  MatrixXd woodbury;
  UnitResponse gaps;     ///< response to the forces of the gaps, not corrected
  bool in_full = false;  ///< always put to Analysis::solve
  std::vector<std::unique_ptr<UnitResponse>> columns;  ///< of the contacts, corrected
  std::vector<std::unique_ptr<VectorXd>> complement;   ///< columns of the complementarity matrix
  ContactMemory memory;
};

/// A load case, read.
struct CaseResponse {
  UnitResponse reading;
  VectorXd spans, free;  ///< see State
  bool has_spans = false, has_free = false;
  bool idle = false;    ///< a moment that nothing resists
  bool uneven = false;  ///< a load that is not uniform on a member of the first set
};

}  // namespace

struct Condensed::Impl {
  /// Memory that one state leaves to the next.
  struct Scratch {
    std::vector<ScaledResponse> terms;
    std::vector<WeightedColumn> columns;
    VectorXd stretch, bounds, ends;
  };

  /// What does not depend on the loads.
  struct Shared {
    std::vector<int> members;
    std::size_t first = 0;
    std::vector<int> support_spring, link_spring;
    std::vector<std::unique_ptr<UnitResponse>> columns;  ///< of changeable springs
    std::vector<std::unique_ptr<Variant>> variants;      ///< [0]: no change
    std::vector<double> length;
    std::optional<GroupBounds> groups;
    bool any_rigid = false;
    std::size_t in_full = 0;
    Scratch scratch;
  };

  std::shared_ptr<Shared> shared;
  const Analysis* analysis = nullptr;
  std::vector<std::unique_ptr<CaseResponse>> cases;

  [[nodiscard]] const Structure& structure() const { return analysis->responses().structure(); }

  /// Rows of UnitResponse::ends.
  [[nodiscard]] Index rows(bool with_second) const {
    const auto first = static_cast<Index>(shared->first);
    const auto all = static_cast<Index>(shared->members.size());
    return 2 * first + (with_second ? 4 * (all - first) : 0);
  }
  [[nodiscard]] UnitResponse read(const VectorXd& u, const CaseLoads* loads) const;
  const CaseResponse& unit(int load_case);
  const UnitResponse& column(int spring);
  const UnitResponse& contact_column(Variant& v, int contact);
  const VectorXd& complement_column(Variant& v, int contact);
  void set_up(Variant& v);
  /// What the changes of supports do to a state with these stretches: terms, and their stretches.
  void correct(const Variant& v, VectorXd& stretch, std::vector<ScaledResponse>& terms);
  bool close(Variant& v, State& state, VectorXd& stretch, std::vector<ScaledResponse>& terms,
             int kind);
  void sum(bool with_second, const Limits* limits, State& state) const;
  void in_full(const Variant& v, std::span<const CaseFactor> combination, State& state);
};

UnitResponse Condensed::Impl::read(const VectorXd& u, const CaseLoads* loads) const {
  const Structure& s = structure();
  UnitResponse r;
  r.stretch.resize(static_cast<Index>(s.springs().size()));
  for (Index i = 0; i < r.stretch.size(); ++i) r.stretch[i] = s.springs()[at(i)].stretch(u);
  const auto& freedoms = s.freedoms();
  const auto& members = shared->members;
  r.ends.resize(rows(true));
  const auto value = [&](int row) {
    const FreedomTerm& t = freedoms.row(row);
    return t.freedom < 0 ? 0.0 : t.factor * u[t.freedom];
  };
  for (std::size_t m = 0; m < members.size(); ++m) {
    const Member& member = s.frame().members[at(members[m])];
    EndVector d;
    for (int e = 0; e < 3; ++e) {
      d[at(e)] = value(3 * member.i + e);
      d[at(e + 3)] = value(3 * member.j + e);
    }
    LoadEffect effect;
    if (loads != nullptr) loads->add(members[m], 1.0, effect, nullptr);
    const EndForces f = end_forces(s.elements()[at(members[m])], d, effect);
    if (m < shared->first) {
      const auto row = 2 * static_cast<Index>(m);
      r.ends[row] = f.Mi;
      r.ends[row + 1] = f.Vi;
      continue;
    }
    const auto row = rows(false) + 4 * static_cast<Index>(m - shared->first);
    r.ends[row] = f.Mi;
    r.ends[row + 1] = f.Mj;
    r.ends[row + 2] = f.Vi;
    r.ends[row + 3] = f.Vj;
  }
  r.w.resize(static_cast<Index>(s.frame().nodes.size()));
  for (Index n = 0; n < r.w.size(); ++n) r.w[n] = value(3 * static_cast<int>(n));
  if (loads == nullptr) r.bounds = shared->groups->of(r.ends.data(), nullptr);
  return r;
}

const CaseResponse& Condensed::Impl::unit(int load_case) {
  auto& kept = cases[at(load_case)];
  if (kept) return *kept;
  const Structure& s = structure();
  const CaseLoads& loads = analysis->responses().loads()[at(load_case)];
  const VectorXd nodal = loads.nodal(s);
  kept = std::make_unique<CaseResponse>();
  kept->reading = read(s.solve_once(s.freedoms().reduce(nodal)), &loads);
  kept->idle = !s.freedoms().idle_moments(nodal).empty();
  const auto n = static_cast<Index>(shared->members.size());
  kept->spans = VectorXd::Zero(n);
  kept->free = VectorXd::Zero(n);
  for (Index m = 0; m < n; ++m) {
    const Between on = between(loads, shared->members[at(m)], shared->length[at(m)]);
    if (!on.any) continue;
    kept->spans[m] = on.q;
    kept->free[m] = on.most;
    kept->has_spans = kept->has_spans || on.uniform;
    kept->has_free = kept->has_free || !on.uniform;
    kept->uneven = kept->uneven || (!on.uniform && at(m) < shared->first);
  }
  kept->reading.bounds = shared->groups->of(kept->reading.ends.data(), kept->spans.data());
  return *kept;
}

const UnitResponse& Condensed::Impl::column(int spring) {
  auto& kept = shared->columns[at(spring)];
  if (!kept) {
    const Structure& s = structure();
    VectorXd f = VectorXd::Zero(s.freedoms().size());
    for (const auto& [freedom, c] : s.springs()[at(spring)].c) f[freedom] += c;
    kept = std::make_unique<UnitResponse>(read(s.solve_once(f), nullptr));
  }
  return *kept;
}

void Condensed::Impl::correct(const Variant& v, VectorXd& stretch,
                              std::vector<ScaledResponse>& terms) {
  if (v.changed.empty()) return;
  VectorXd s(static_cast<Index>(v.changed.size()));
  for (std::size_t j = 0; j < v.changed.size(); ++j)
    s[static_cast<Index>(j)] = stretch[v.changed[j]];
  const VectorXd w = v.woodbury * s;
  for (std::size_t j = 0; j < v.changed.size(); ++j) {
    const UnitResponse& c = column(v.changed[j]);
    stretch -= w[static_cast<Index>(j)] * c.stretch;
    terms.push_back({-w[static_cast<Index>(j)], &c});
  }
}

const UnitResponse& Condensed::Impl::contact_column(Variant& v, int contact) {
  if (v.changed.empty()) return column(contact);
  auto& kept = v.columns[at(contact)];
  if (!kept) {
    kept = std::make_unique<UnitResponse>(column(contact));
    std::vector<ScaledResponse> terms;
    correct(v, kept->stretch, terms);
    for (const ScaledResponse& term : terms) {
      kept->ends.noalias() += term.factor * term.reading->ends;
      kept->w.noalias() += term.factor * term.reading->w;
    }
    kept->bounds = shared->groups->of(kept->ends.data(), nullptr);
  }
  return *kept;
}

const VectorXd& Condensed::Impl::complement_column(Variant& v, int contact) {
  auto& kept = v.complement[at(contact)];
  if (!kept) {
    const Index n = v.root_k.size();
    kept = std::make_unique<VectorXd>(
        -v.root_k[contact] * v.root_k.cwiseProduct(contact_column(v, contact).stretch.head(n)));
    (*kept)[contact] += 1.0;
  }
  return *kept;
}

void Condensed::Impl::set_up(Variant& v) {
  const Structure& s = structure();
  const auto springs = static_cast<Index>(s.springs().size());
  v.k.resize(springs);
  v.gap.resize(springs);
  for (Index i = 0; i < springs; ++i) {
    v.k[i] = s.springs()[at(i)].k;
    v.gap[i] = s.springs()[at(i)].gap;
  }
  v.columns.resize(at(s.contacts()));
  v.complement.resize(at(s.contacts()));
  v.in_full = s.loose().has_value() || shared->any_rigid;
  if (v.in_full) return;
  v.gaps.stretch = VectorXd::Zero(springs);
  v.gaps.ends = VectorXd::Zero(rows(true));
  v.gaps.w = VectorXd::Zero(static_cast<Index>(s.frame().nodes.size()));
  for (int i = 0; i < s.contacts(); ++i) {
    const Spring& spring = s.springs()[at(i)];
    if (spring.gap == 0.0) continue;
    v.gaps.stretch += spring.k * spring.gap * column(i).stretch;
    v.gaps.ends += spring.k * spring.gap * column(i).ends;
    v.gaps.w += spring.k * spring.gap * column(i).w;
  }
  for (const SupportChange& c : v.changes) {
    const int i = s.spring_of_support(c.support);
    if (i < 0) {
      v.in_full = true;
      return;
    }
    const double gap = c.gap.value_or(v.gap[i]);
    if (c.k_w == v.k[i] && gap == v.gap[i]) continue;
    const double moved = c.k_w * gap - v.k[i] * v.gap[i];
    if (moved != 0.0) {
      v.gaps.stretch += moved * column(i).stretch;
      v.gaps.ends += moved * column(i).ends;
      v.gaps.w += moved * column(i).w;
    }
    v.changed.push_back(i);
    v.k[i] = c.k_w;
    v.gap[i] = gap;
  }
  v.gaps.bounds = shared->groups->of(v.gaps.ends.data(), nullptr);
  v.root_k = v.k.head(s.contacts()).cwiseSqrt();
  if (v.changed.empty()) return;
  const auto p = static_cast<Index>(v.changed.size());
  MatrixXd flexibility(p, p);
  VectorXd delta(p);
  for (Index j = 0; j < p; ++j) {
    const int i = v.changed[at(j)];
    for (Index r = 0; r < p; ++r) flexibility(r, j) = column(i).stretch[v.changed[at(r)]];
    delta[j] = v.k[i] - s.springs()[at(i)].k;
  }
  const MatrixXd system = MatrixXd::Identity(p, p) + flexibility * delta.asDiagonal();
  const Eigen::FullPivLU<MatrixXd> lu(system);
  const VectorXd pivots = lu.matrixLU().diagonal().cwiseAbs();
  if (!(pivots.minCoeff() > 1e-8 * std::max(1.0, pivots.maxCoeff()))) {
    v.in_full = true;  // loose without these supports, or nearly so
    return;
  }
  v.woodbury = delta.asDiagonal() * lu.inverse();
}

void Condensed::Impl::in_full(const Variant& v, std::span<const CaseFactor> combination,
                              State& state) {
  ++shared->in_full;
  take(state, analysis->solve(combination, v.changes), *analysis, combination,
       structure().springs(), shared->members, shared->groups->size());
}

/// Finds the contact state; adds its terms and their stretches. False: to be asked in full.
bool Condensed::Impl::close(Variant& v, State& state, VectorXd& stretch,
                            std::vector<ScaledResponse>& terms, int kind) {
  const auto n = static_cast<Index>(structure().contacts());
  state.springs = v.k.cwiseProduct(stretch - v.gap);
  if (n == 0) return true;
  const double largest = state.springs.head(n).cwiseAbs().maxCoeff();
  const auto idle = [&](const std::vector<int>& open) {
    // A contact outside the open set that presses nothing: degenerate, to be looked at with care.
    const double most = state.springs.head(n).maxCoeff();
    std::size_t next = 0;
    for (int i = 0; i < static_cast<int>(n); ++i) {
      if (next < open.size() && open[next] == i) {
        ++next;
        continue;
      }
      if (v.k[i] > 0.0 && !(state.springs[i] > 10.0 * touching * most)) return true;
    }
    return false;
  };
  if (state.springs.head(n).minCoeff() >= -touching * largest) {
    state.springs.head(n) = state.springs.head(n).cwiseMax(0.0);
    return !idle({});
  }
  ContactProblem problem;
  problem.q.resize(n);
  for (Index i = 0; i < n; ++i) problem.q[i] = v.root_k[i] * (stretch[i] - v.gap[i]);
  problem.column = [&](int i) -> const VectorXd& { return complement_column(v, i); };
  ContactMemory::Found found;
  if (!v.memory.solve(problem, kind, found)) return false;
  for (const int i : found.open) {
    const double opened = v.root_k[i] * found.lambda[i];
    if (opened == 0.0) continue;
    const UnitResponse& c = contact_column(v, i);
    stretch.noalias() -= opened * c.stretch;
    terms.push_back({-opened, &c});
  }
  state.springs = v.k.cwiseProduct(stretch - v.gap);
  const double most = std::max(state.springs.head(n).maxCoeff(), 0.0);
  // Complementarity, verified from the displacements: pressing where closed, apart where open.
  for (int i = 0; i < static_cast<int>(n); ++i) {
    if (!(state.springs[i] >= -1e-9 * most)) {
      if (!std::binary_search(found.open.begin(), found.open.end(), i)) return false;
    }
    if (std::abs(std::max(0.0, state.springs[i]) - v.root_k[i] * found.force[i]) > 1e-8 * most)
      return false;
  }
  state.springs.head(n) = state.springs.head(n).cwiseMax(0.0);
  return !idle(found.open);
}

void Condensed::Impl::sum(bool with_second, const Limits* limits, State& state) const {
  const auto first = static_cast<Index>(shared->first);
  const GroupBounds& groups = *shared->groups;
  auto& [terms, columns, stretch, bounds, ends] = shared->scratch;
  state.read.assign(groups.size(), 1);
  if (limits != nullptr) {
    bounds.setZero(3 * static_cast<Index>(groups.size()));
    for (const ScaledResponse& term : terms) groups.add(bounds, term.factor, term.reading->bounds);
    groups.choose(bounds, *limits, state.read);
  }
  ends.setZero(2 * first);
  columns.clear();
  for (const ScaledResponse& term : terms)
    columns.push_back({term.factor, term.reading->ends.data()});
  tell_what_is_read(groups, first, state, [&](Index from, Index to) {
    add_weighted(columns, 2 * from, 2 * (to - from), ends.data() + 2 * from);
    for (Index m = from; m < to; ++m)
      expand(&ends[2 * m], shared->length[at(m)], state.spans[m], &state.ends[4 * m]);
  });
  if (state.with_deflections) {
    state.w.setZero(static_cast<Index>(structure().frame().nodes.size()));
    for (const ScaledResponse& term : terms) state.w.noalias() += term.factor * term.reading->w;
  }
  if (!with_second) return;
  auto second = state.ends.tail(state.ends.size() - 4 * first);
  second.setZero();
  add_weighted(columns, 2 * first, second.size(), second.data());
}

Condensed::Condensed(const Analysis& analysis, std::vector<int> first, std::vector<int> second,
                     std::vector<Group> groups)
    : impl_(std::make_unique<Impl>()) {
  impl_->analysis = &analysis;
  impl_->shared = std::make_shared<Impl::Shared>();
  Impl::Shared& shared = *impl_->shared;
  const Structure& s = impl_->structure();
  shared.first = first.size();
  shared.members = std::move(first);
  shared.members.insert(shared.members.end(), second.begin(), second.end());
  for (const int m : shared.members) {
    if (m < 0 || at(m) >= s.frame().members.size())
      throw InvalidFrame("end forces were asked of a member that does not exist");
    shared.length.push_back(s.elements()[at(m)].L);
  }
  std::vector<Group> ascending = std::move(groups);
  if (!ascending.empty() && ascending.back().last > static_cast<int>(shared.first))
    throw InvalidFrame("a group has members that are not read always");
  shared.groups.emplace(std::move(ascending), shared.length);
  shared.support_spring.assign(s.frame().supports.size(), -1);
  shared.link_spring.assign(s.frame().links.size(), -1);
  for (std::size_t i = 0; i < s.springs().size(); ++i) {
    const Spring& spring = s.springs()[i];
    if (spring.support >= 0) shared.support_spring[at(spring.support)] = static_cast<int>(i);
    if (spring.link >= 0) shared.link_spring[at(spring.link)] = static_cast<int>(i);
    shared.any_rigid = shared.any_rigid || (static_cast<int>(i) < s.contacts() && spring.rigid);
  }
  shared.columns.resize(at(s.changeable()));
  impl_->cases.resize(analysis.cases().size());
}

Condensed::Condensed(const Condensed& other, const Analysis& analysis)
    : impl_(std::make_unique<Impl>()) {
  if (&other.impl_->structure() != &analysis.responses().structure())
    throw InvalidFrame("a condensed reading was shared with the analysis of another frame");
  impl_->analysis = &analysis;
  impl_->shared = other.impl_->shared;
  impl_->cases.resize(analysis.cases().size());
}

Condensed::~Condensed() = default;
Condensed::Condensed(Condensed&&) noexcept = default;
Condensed& Condensed::operator=(Condensed&&) noexcept = default;

int Condensed::prepare(std::span<const SupportChange> changes) const {
  validate(impl_->structure().frame(), changes);
  Impl::Shared& shared = *impl_->shared;
  if (shared.variants.empty()) {
    shared.variants.push_back(std::make_unique<Variant>());
    impl_->set_up(*shared.variants.front());
  }
  if (changes.empty()) return -1;
  const auto same = [&](const Variant& v) {
    return std::equal(v.changes.begin(), v.changes.end(), changes.begin(), changes.end(),
                      [](const SupportChange& a, const SupportChange& b) {
                        return a.support == b.support && a.k_w == b.k_w && a.gap == b.gap;
                      });
  };
  for (std::size_t k = 1; k < shared.variants.size(); ++k) {
    if (same(*shared.variants[k])) return static_cast<int>(k);
  }
  auto v = std::make_unique<Variant>();
  v->changes.assign(changes.begin(), changes.end());
  impl_->set_up(*v);
  shared.variants.push_back(std::move(v));
  return static_cast<int>(shared.variants.size()) - 1;
}

void Condensed::solve(std::span<const CaseFactor> combination, int change, bool with_others,
                      State& state, const Limits* limits, int kind) const {
  validate(impl_->analysis->cases(), combination);
  Impl::Shared& shared = *impl_->shared;
  if (shared.variants.empty()) static_cast<void>(prepare({}));
  const std::size_t index = change < 0 ? 0 : at(change);
  if (index >= shared.variants.size()) throw InvalidFrame("a change of supports was not prepared");
  Variant& v = *shared.variants[index];
  const auto members = static_cast<Index>(with_others ? shared.members.size() : shared.first);
  begin(state, v.k.size(), members);
  bool in_full = v.in_full;
  auto& terms = shared.scratch.terms;
  VectorXd& stretch = shared.scratch.stretch;
  terms.clear();
  if (!in_full) {
    stretch = v.gaps.stretch;
    terms.push_back({1.0, &v.gaps});
  }
  for (const CaseFactor& c : combination) {
    if (in_full && impl_->structure().loose()) break;
    const CaseResponse& unit = impl_->unit(c.load_case);
    in_full = in_full || unit.idle || unit.uneven;
    if (unit.has_spans) state.spans += c.factor * unit.spans.head(members);
    if (unit.has_free) state.free += std::abs(c.factor) * unit.free.head(members);
    if (in_full) continue;
    stretch.noalias() += c.factor * unit.reading.stretch;
    terms.push_back({c.factor, &unit.reading});
  }
  if (!in_full) {
    impl_->correct(v, stretch, terms);
    in_full = !impl_->close(v, state, stretch, terms, kind);
  }
  if (in_full) {
    impl_->in_full(v, combination, state);
  } else {
    impl_->sum(with_others, limits, state);
  }
}

int Condensed::of_support(int support) const { return impl_->shared->support_spring[at(support)]; }
int Condensed::of_link(int link) const { return impl_->shared->link_spring[at(link)]; }
const std::vector<int>& Condensed::members() const { return impl_->shared->members; }
double Condensed::length(int position) const { return impl_->shared->length[at(position)]; }
int Condensed::read_always() const { return static_cast<int>(impl_->shared->first); }
const Analysis& Condensed::whole() const { return *impl_->analysis; }
std::size_t Condensed::asked_in_full() const { return impl_->shared->in_full; }

}  // namespace underprop::solver

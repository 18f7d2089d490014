#include "index.hpp"
#include "plate_bed.hpp"
#include "solver/validation.hpp"
#include "state_reading.hpp"
#include "weighted_sum.hpp"

#include <algorithm>
#include <cmath>

namespace underprop::solver {

namespace {

/// The balance of a plate, relative to its contacts.
constexpr double balanced = 1e-9;

/// A response times a factor, in the sum that makes a state.
struct ScaledColumn {
  double factor;
  const BedColumn* reading;
};

/// The one support that differs in a state.
struct ChangedSupport {
  int spring = -1;  ///< -1: none
  double k = 0.0;   ///< its stiffness now
  ChangedContact contact;
  bool in_full = false;  ///< no border of the contact problem can say what differs
};

/// A load case without its plates' loads, read.
struct PlatedResponse {
  BedColumn reading;
  VectorXd plates;       ///< Fz, Mx, My per plate
  VectorXd contacts;     ///< f0, then s0 + S f0: see plated.hpp
  VectorXd fixed;        ///< Mi, Mj, Vi, Vj per board read, of loads between its ends
  VectorXd spans, free;  ///< as in State
  bool idle = false, uneven = false, has_fixed = false, has_spans = false, has_free = false;
};

}  // namespace

struct Plated::Impl {
  const PlateBed::Impl* bed = nullptr;
  std::vector<Plate> plates;
  std::vector<LoadCase> cases;  ///< with the loads on plates
  std::vector<int> boards;
  std::unique_ptr<Analysis> loads;  ///< the bed's frame under the cases, plates apart
  std::unique_ptr<Analysis> whole;
  std::vector<std::unique_ptr<PlatedResponse>> read;
  std::vector<double> length;
  std::vector<std::pair<Index, Index>> board_rows;  ///< rows of the bed that the boards need
  bool always_in_full = false;
  std::size_t in_full_count = 0;
  std::vector<std::vector<SupportChange>> changes;  ///< prepared

  /// Memory that one state leaves to the next.
  struct Scratch {
    std::vector<ScaledColumn> terms;  ///< their sum is the state
    std::vector<WeightedColumn> columns;
    ContactProblem problem;
    ContactMemory::Found found;
    VectorXd P;      ///< loads of the plates
    VectorXd fixed;  ///< as in PlatedResponse; empty: nothing
    VectorXd f;      ///< forces of the plates' contacts
    VectorXd sum, bounds;
  } scratch;

  // The contacts of all plates, one after the other.
  std::vector<int> top;
  std::vector<std::size_t> first_contact;  ///< per plate
  VectorXd k, gap;
  std::shared_ptr<Stance> stance;  ///< found when first asked

  const PlatedResponse& unit(int load_case);
  /// Steps of a state. False, or in_full: to be put to Analysis::solve.
  [[nodiscard]] ChangedSupport border(std::span<const SupportChange> changed) const;
  bool superpose(std::span<const CaseFactor> combination, bool with_boards, State& state);
  bool find_contacts(int kind, const ChangedSupport& own);
  bool plates_balance();
  bool take_springs(const ChangedSupport& own, State& state);
  void remember(int kind);
  void tell(bool with_boards, const Limits* limits, State& state);
  void tell_boards(State& state);
  void add_rows(Index from, Index count);

  void in_full(std::span<const CaseFactor> combination, std::span<const SupportChange> changed,
               State& state);
  const Analysis& in_matrix();
};

const PlatedResponse& Plated::Impl::unit(int load_case) {
  auto& kept = read[at(load_case)];
  if (kept) return *kept;
  kept = std::make_unique<PlatedResponse>();
  const Structure& s = bed->structure();
  const CaseLoads& on_frame = loads->responses().loads()[at(load_case)];
  const VectorXd nodal = on_frame.nodal(s);
  kept->idle = !s.freedoms().idle_moments(nodal).empty();
  if (nodal.cwiseAbs().maxCoeff() > 0.0) {
    kept->reading.rows = bed->read(s.solve_once(s.freedoms().reduce(nodal)), &on_frame);
  } else {
    kept->reading.rows = VectorXd::Zero(bed->rows());
  }
  kept->plates = VectorXd::Zero(stance->B.cols());
  for (const NodalLoad& load : cases[at(load_case)].nodal) {
    if (load.plate < 0) continue;
    // About the reference of the stance.
    const Plate& plate = plates[at(load.plate)];
    const auto& [x, y] = stance->reference[at(load.plate)];
    kept->plates[3 * load.plate] += load.Fz;
    kept->plates[3 * load.plate + 1] += load.Mx + (plate.y - y) * load.Fz;
    kept->plates[3 * load.plate + 2] += load.My - (plate.x - x) * load.Fz;
  }
  const std::size_t first = bed->members.size();
  const auto all = static_cast<Index>(first + boards.size());
  kept->spans = VectorXd::Zero(all);
  kept->free = VectorXd::Zero(all);
  kept->fixed = VectorXd::Zero(4 * static_cast<Index>(boards.size()));
  for (Index p = 0; p < all; ++p) {
    const int member = at(p) < first ? bed->members[at(p)] : boards[at(p) - first];
    const Between on = between(on_frame, member, length[at(p)]);
    if (!on.any) continue;
    kept->spans[p] = on.q;
    kept->free[p] = on.most;
    kept->has_spans = kept->has_spans || on.uniform;
    kept->has_free = kept->has_free || !on.uniform;
    kept->uneven = kept->uneven || (!on.uniform && at(p) < first);
    if (at(p) < first) continue;
    const EndForces f = end_forces(s.elements()[at(member)], EndVector{}, on.effect);
    kept->fixed.segment<4>(4 * (p - static_cast<Index>(first))) << f.Mi, f.Mj, f.Vi, f.Vj;
    kept->has_fixed = true;
  }
  const VectorXd& rows = kept->reading.rows;
  kept->reading.bounds = bed->groups->of(rows.data() + bed->springs(), kept->spans.data());
  VectorXd w(k.size());
  for (Index i = 0; i < w.size(); ++i) w[i] = rows[bed->first_top() + top[at(i)]];
  kept->contacts = stance->contacts(rows, w, kept->plates);
  return *kept;
}

const Analysis& Plated::Impl::in_matrix() {
  if (!whole) {
    Frame frame = bed->structure().frame();
    frame.plates = plates;
    whole = std::make_unique<Analysis>(std::move(frame), cases);
  }
  return *whole;
}

void Plated::Impl::in_full(std::span<const CaseFactor> combination,
                           std::span<const SupportChange> changed, State& state) {
  ++in_full_count;
  const Analysis& analysis = in_matrix();
  std::vector<int> members = bed->members;
  members.insert(members.end(), boards.begin(), boards.end());
  take(state, analysis.solve(combination, changed), analysis, combination,
       bed->structure().springs(), members, bed->groups->size());
}

Plated::Plated(const PlateBed& bed, std::vector<Plate> plates, std::vector<LoadCase> cases,
               std::vector<int> boards)
    : impl_(std::make_unique<Impl>()) {
  Impl& p = *impl_;
  p.bed = bed.impl_.get();
  const Structure& s = p.bed->structure();
  const Frame& frame = s.frame();
  p.plates = std::move(plates);
  p.cases = std::move(cases);
  p.boards = std::move(boards);
  std::vector<LoadCase> on_frame = p.cases;
  for (LoadCase& load_case : on_frame) {
    for (const NodalLoad& load : load_case.nodal) {
      if (load.plate >= static_cast<int>(p.plates.size()))
        throw InvalidFrame("a load stands on a plate that does not exist");
    }
    std::erase_if(load_case.nodal, [](const NodalLoad& load) { return load.plate >= 0; });
  }
  p.loads = std::make_unique<Analysis>(*p.bed->analysis, std::move(on_frame));
  p.read.resize(p.cases.size());
  for (const int m : p.bed->members) p.length.push_back(s.elements()[at(m)].L);
  const auto row_of = [&](int node) { return static_cast<Index>(p.bed->top_of[at(node)]); };
  for (const int m : p.boards) {
    if (m < 0 || at(m) >= frame.members.size() || p.bed->top_of[at(frame.members[at(m)].i)] < 0 ||
        p.bed->top_of[at(frame.members[at(m)].j)] < 0)
      throw InvalidFrame("a board was asked for that is not of the bed");
    p.length.push_back(s.elements()[at(m)].L);
    for (const int node : {frame.members[at(m)].i, frame.members[at(m)].j}) {
      const Index row = row_of(node);
      auto& rows = p.board_rows;
      if (!rows.empty() && row < rows.back().first + rows.back().second && row >= rows.back().first)
        continue;
      if (!rows.empty() && row == rows.back().first + rows.back().second)
        ++rows.back().second;
      else
        rows.emplace_back(row, 1);
    }
  }
  std::size_t n = 0;
  for (const Plate& plate : p.plates) n += plate.contacts.size();
  p.k.resize(static_cast<Index>(n));
  p.gap.resize(static_cast<Index>(n));
  Index c = 0;
  for (std::size_t q = 0; q < p.plates.size(); ++q) {
    const Plate& plate = p.plates[q];
    p.first_contact.push_back(static_cast<std::size_t>(c));
    for (const PlateContact& contact : plate.contacts) {
      if (contact.node < 0 || at(contact.node) >= frame.nodes.size() ||
          p.bed->top_of[at(contact.node)] < 0 || !std::isfinite(contact.k_w) || contact.k_w <= 0.0)
        throw InvalidFrame("a plate stands on a node that is not of the bed, or rigidly");
      p.top.push_back(p.bed->top_of[at(contact.node)]);
      p.k[c] = contact.k_w;
      p.gap[c] = contact.gap;
      ++c;
    }
  }
  p.always_in_full = s.loose().has_value() || p.bed->rigid_contacts || n == 0;
}

Plated::~Plated() = default;
Plated::Plated(Plated&&) noexcept = default;
Plated& Plated::operator=(Plated&&) noexcept = default;

int Plated::prepare(std::span<const SupportChange> changes) const {
  validate(impl_->bed->structure().frame(), changes);
  if (changes.empty()) return -1;
  impl_->changes.emplace_back(changes.begin(), changes.end());
  return static_cast<int>(impl_->changes.size()) - 1;
}

ChangedSupport Plated::Impl::border(std::span<const SupportChange> changed) const {
  ChangedSupport own;
  for (const SupportChange& change : changed) {
    const int spring = bed->structure().spring_of_support(change.support);
    const bool same = spring >= 0 && change.k_w == bed->k[spring] &&
                      change.gap.value_or(bed->gap[spring]) == bed->gap[spring];
    if (same) continue;
    if (own.spring >= 0 || spring < 0 || spring >= stance->S.rows() || bed->k[spring] <= 0.0 ||
        change.gap.value_or(bed->gap[spring]) != bed->gap[spring]) {
      own.in_full = true;
      return own;
    }
    own.spring = spring;
    own.k = change.k_w;
    const double more = own.k - bed->k[spring];
    own.contact = {static_cast<int>(k.size()) + spring, own.k / more, more > 0.0 ? 1.0 : -1.0,
                   own.k == 0.0};
  }
  return own;
}

/// The loads' own terms, and the contact problem that they pose.
bool Plated::Impl::superpose(std::span<const CaseFactor> combination, bool with_boards,
                             State& state) {
  const Index members = state.spans.size();
  auto& [terms, columns, problem, found, P, fixed, f, sum, bounds] = scratch;
  P.setZero(stance->B.cols());
  fixed.resize(0);
  terms.assign(1, {1.0, &bed->gap_response()});
  problem.q = stance->gap_contacts;
  problem.start.clear();
  bool ordinary = true;
  for (const CaseFactor& c : combination) {
    const PlatedResponse& one = unit(c.load_case);
    ordinary = ordinary && !one.idle && !one.uneven;
    if (one.has_spans) state.spans += c.factor * one.spans.head(members);
    if (one.has_free) state.free += std::abs(c.factor) * one.free.head(members);
    terms.push_back({c.factor, &one.reading});
    problem.q.noalias() += c.factor * one.contacts;
    P += c.factor * one.plates;
    if (with_boards && one.has_fixed) {
      if (fixed.size() == 0) fixed.setZero(one.fixed.size());
      fixed += c.factor * one.fixed;
    }
  }
  return ordinary;
}

/// What presses and what lifts, and the terms of both.
bool Plated::Impl::find_contacts(int kind, const ChangedSupport& own) {
  auto& [terms, columns, problem, found, P, fixed, f, sum, bounds] = scratch;
  const Index n = k.size();
  problem.q = problem.q.cwiseProduct(stance->scale);
  problem.column = [this](int i) -> const VectorXd& { return stance->column(*bed, i); };
  if (const auto before = bed->last.find(kind); before != bed->last.end()) {
    for (Index i = 0; i < n; ++i) {
      if (before->second.lifted[at(top[at(i)])] != 0) problem.start.push_back(static_cast<int>(i));
    }
    for (const int j : before->second.contacts) problem.start.push_back(static_cast<int>(n) + j);
  }
  if (!stance->memory.solve(problem, kind, found, own.spring >= 0 ? &own.contact : nullptr))
    return false;
  f = found.force.head(n).cwiseMax(0.0).cwiseQuotient(stance->scale.head(n));
  for (Index i = 0; i < n; ++i) {
    if (f[i] > 0.0) terms.push_back({f[i], &bed->node_column(top[at(i)])});
  }
  for (const int c : found.open) {
    if (c < n || c == own.contact.index) continue;
    const double x = stance->scale[c] * found.lambda[c];
    if (x > 0.0) terms.push_back({-x, &bed->contact_column(c - static_cast<int>(n))});
  }
  return true;
}

/// What presses without force holds nothing, and a plate must balance.
bool Plated::Impl::plates_balance() {
  const VectorXd& f = scratch.f;
  const std::vector<int>& open = scratch.found.open;
  const double most_pressed = f.maxCoeff();
  std::size_t next = 0;
  for (Index i = 0; i < f.size(); ++i) {
    if (next < open.size() && open[next] == static_cast<int>(i))
      ++next;
    else if (!(f[i] > 10.0 * touching * most_pressed))
      return false;
  }
  for (Index q = 0; q < scratch.P.size(); ++q) {
    if (!(std::abs(stance->B.col(q).dot(f) + scratch.P[q]) <=
          balanced * stance->B.col(q).cwiseAbs().dot(f)))
      return false;
  }
  return true;
}

void Plated::Impl::add_rows(Index from, Index count) {
  scratch.sum.segment(from, count).setZero();
  add_weighted(scratch.columns, from, count, scratch.sum.data() + from);
}

/// The springs' forces, verified against what the contact problem says of them.
bool Plated::Impl::take_springs(const ChangedSupport& own, State& state) {
  auto& [terms, columns, problem, found, P, fixed, f, sum, bounds] = scratch;
  const Index n = k.size(), m = stance->S.rows(), springs = bed->springs();
  const double own_short =
      own.spring >= 0 ? stance->scale[own.contact.index] * found.lambda[own.contact.index] : 0.0;
  if (own.spring >= 0) terms.push_back({-own_short, &bed->contact_column(own.spring)});
  sum.resize(bed->rows());
  columns.clear();
  for (const ScaledColumn& term : terms)
    columns.push_back({term.factor, term.reading->rows.data()});
  add_rows(0, springs);
  state.springs = bed->k.cwiseProduct(sum.head(springs) - bed->gap);
  if (own.spring >= 0) {
    // What it really carries; while it presses that is what the matrix has of it and what it is short of.
    double& force = state.springs[own.spring];
    const double has = force + own_short;
    force = own.k * (sum[own.spring] - bed->gap[own.spring]);
    const bool presses =
        !std::binary_search(found.open.begin(), found.open.end(), own.contact.index);
    if (presses && std::abs(force - has) > 1e-8 * (std::abs(own_short) + std::abs(has)))
      return false;
    if (own.contact.absent) force = 0.0;
  }
  const double most = m > 0 ? std::max(0.0, state.springs.head(m).maxCoeff()) : 0.0;
  auto open = std::lower_bound(found.open.begin(), found.open.end(), static_cast<int>(n));
  for (Index j = 0; j < m; ++j) {
    const double force = found.force[n + j] * stance->scale[n + j];
    if (open != found.open.end() && *open == static_cast<int>(n + j)) {
      ++open;
      if (state.springs[j] > 1e-8 * most) return false;
    } else if ((bed->k[j] > 0.0 && !(state.springs[j] > 10.0 * touching * most)) ||
               (j != own.spring && std::abs(state.springs[j] - force) > 1e-8 * most)) {
      return false;
    }
  }
  state.springs.head(m) = state.springs.head(m).cwiseMax(0.0);
  return true;
}

void Plated::Impl::remember(int kind) {
  const auto n = static_cast<int>(k.size());
  PlateBed::Impl::Open& last = bed->last[kind];
  last.lifted.assign(bed->tops.size(), 0);
  last.contacts.clear();
  for (const int c : scratch.found.open) {
    if (c < n)
      last.lifted[at(top[at(c)])] = 1;
    else
      last.contacts.push_back(c - n);
  }
}

void Plated::Impl::tell(bool with_boards, const Limits* limits, State& state) {
  const GroupBounds& groups = *bed->groups;
  state.read.assign(groups.size(), 1);
  if (limits != nullptr) {
    scratch.bounds.setZero(3 * static_cast<Index>(groups.size()));
    for (const ScaledColumn& term : scratch.terms)
      groups.add(scratch.bounds, term.factor, term.reading->bounds);
    groups.choose(scratch.bounds, *limits, state.read);
  }
  const Index springs = bed->springs();
  tell_what_is_read(
      groups, static_cast<Index>(bed->members.size()), state, [&](Index from, Index to) {
        add_rows(springs + 2 * from, 2 * (to - from));
        for (Index i = from; i < to; ++i)
          expand(&scratch.sum[springs + 2 * i], length[at(i)], state.spans[i], &state.ends[4 * i]);
      });
  if (with_boards) tell_boards(state);
}

void Plated::Impl::tell_boards(State& state) {
  const auto tops = static_cast<Index>(bed->tops.size());
  const auto first = static_cast<Index>(bed->members.size());
  const Index main = bed->first_top();
  for (const auto& [row, count] : board_rows) {
    add_rows(main + row, count);
    add_rows(main + tops + row, count);
  }
  const Structure& structure = bed->structure();
  const VectorXd& fixed = scratch.fixed;
  for (std::size_t b = 0; b < boards.size(); ++b) {
    const Member& member = structure.frame().members[at(boards[b])];
    EndVector d{};
    for (std::size_t e = 0; e < 2; ++e) {
      const int node = bed->top_of[at(e == 0 ? member.i : member.j)];
      const auto& place = bed->tops[at(node)];
      const double turn = scratch.sum[main + tops + node];
      d[3 * e] = scratch.sum[main + node];
      d[3 * e + 1] = place.cy * turn;
      d[3 * e + 2] = -place.cx * turn;
    }
    const EndForces forces = end_forces(structure.elements()[at(boards[b])], d, {});
    const Index row = 4 * (first + static_cast<Index>(b));
    state.ends.segment<4>(row) << forces.Mi, forces.Mj, forces.Vi, forces.Vj;
    if (fixed.size() > 0) state.ends.segment<4>(row) += fixed.segment<4>(4 * static_cast<Index>(b));
  }
}

void Plated::solve(std::span<const CaseFactor> combination, int change, bool with_others,
                   State& state, const Limits* limits, int kind) const {
  Impl& p = *impl_;
  validate(p.cases, combination);
  if (change >= static_cast<int>(p.changes.size()))
    throw InvalidFrame("a change of supports was not prepared");
  const std::span<const SupportChange> changed =
      change < 0 ? std::span<const SupportChange>{} : p.changes[at(change)];
  const std::size_t members = p.bed->members.size() + (with_others ? p.boards.size() : 0);
  begin(state, p.bed->springs(), static_cast<Index>(members));
  if (p.always_in_full || state.with_deflections) return p.in_full(combination, changed, state);
  if (!p.stance) p.stance = p.bed->stance(p.top, p.first_contact, p.k, p.gap);
  if (p.stance->rocks) return p.in_full(combination, changed, state);
  const ChangedSupport own = p.border(changed);
  if (own.in_full || !p.superpose(combination, with_others, state) || !p.find_contacts(kind, own) ||
      !p.plates_balance() || !p.take_springs(own, state))
    return p.in_full(combination, changed, state);
  if (own.spring < 0) p.remember(kind);
  p.tell(with_others, limits, state);
}

int Plated::of_support(int support) const { return impl_->bed->support_spring[at(support)]; }
int Plated::of_link(int link) const { return impl_->bed->link_spring[at(link)]; }
double Plated::length(int position) const { return impl_->length[at(position)]; }
int Plated::read_always() const { return static_cast<int>(impl_->bed->members.size()); }
std::size_t Plated::asked_in_full() const { return impl_->in_full_count; }
const Analysis& Plated::whole() const { return impl_->in_matrix(); }

}  // namespace underprop::solver

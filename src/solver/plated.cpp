#include "index.hpp"
#include "plate_bed.hpp"
#include "underprop/solver/validation.hpp"
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

/// A load case without its plates' loads, read.
struct PlatedResponse {
  BedColumn reading;
  VectorXd plates;       ///< Fz, Mx, My per plate
  VectorXd contacts;     ///< f0, then s0 + S f0: see plated.hpp
  VectorXd fixed;        ///< Mi, Mj, Vi, Vj per board read, of loads between its ends
  VectorXd spans, free;  ///< as in CondensedState
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

  // The contacts of all plates, one after the other.
  std::vector<int> top;
  std::vector<std::size_t> first_contact;  ///< per plate
  VectorXd k, gap;
  std::shared_ptr<Stance> stance;  ///< found when first asked

  const PlatedResponse& unit(int load_case);
  void in_full(std::span<const CaseFactor> combination, std::span<const SupportChange> changes,
               CondensedState& state);
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
  SpanLoads on;
  for (Index p = 0; p < all; ++p) {
    on.line.clear();
    on.point.clear();
    LoadEffect effect;
    const int member = at(p) < first ? bed->members[at(p)] : boards[at(p) - first];
    on_frame.add(member, 1.0, effect, &on);
    if (on.line.empty() && on.point.empty()) continue;
    const double L = length[at(p)];
    const bool uniform =
        on.point.empty() && std::all_of(on.line.begin(), on.line.end(), [&](const LineLoad& q) {
          return q.q1 == q.q2 && q.a <= 1e-9 * L && q.b >= L * (1.0 - 1e-9);
        });
    if (uniform) {
      for (const LineLoad& q : on.line) kept->spans[p] += q.q1;
      kept->has_spans = true;
    } else {
      const EndForces simple{0.0, 0.0, -effect.F_i, effect.F_j, 0.0};
      kept->free[p] = extremes(L, simple, on).M;
      kept->has_free = true;
      kept->uneven = kept->uneven || at(p) < first;
    }
    if (at(p) < first) continue;
    const EndForces f = end_forces(s.elements()[at(member)], EndVector{}, effect);
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
                           std::span<const SupportChange> changes, CondensedState& state) {
  ++in_full_count;
  const Analysis& analysis = in_matrix();
  const Response response = analysis.solve(combination, changes);
  state.asked_in_full = true;
  state.read.assign(bed->groups->size(), 1);
  state.mechanism = response.mechanism;
  if (response.mechanism) return;
  const auto& springs = bed->structure().springs();
  for (Index i = 0; i < bed->springs(); ++i) {
    const Spring& spring = springs[at(i)];
    state.springs[i] =
        spring.link >= 0 ? response.links[at(spring.link)] : response.supports[at(spring.support)];
  }
  std::vector<int> members = bed->members;
  members.insert(members.end(), boards.begin(), boards.end());
  members.resize(at(state.ends.size() / 4));
  const auto forces = analysis.member_forces(response, combination, members);
  for (Index m = 0; m < state.ends.size() / 4; ++m) {
    state.ends.segment<4>(4 * m) << forces[at(m)].Mi, forces[at(m)].Mj, forces[at(m)].Vi,
        forces[at(m)].Vj;
  }
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

void Plated::solve(std::span<const CaseFactor> combination, std::span<const SupportChange> changes,
                   bool with_boards, CondensedState& state, const Limits* limits, int kind) const {
  Impl& p = *impl_;
  const PlateBed::Impl& bed = *p.bed;
  validate(p.cases, combination);
  const Structure& structure = bed.structure();
  validate(structure.frame(), changes);
  const auto first = static_cast<Index>(bed.members.size());
  const auto members = first + (with_boards ? static_cast<Index>(p.boards.size()) : 0);
  state.mechanism.reset();
  state.asked_in_full = false;
  state.springs.resize(bed.springs());
  state.ends.resize(4 * members);
  state.spans.setZero(members);
  state.free.setZero(members);
  if (p.always_in_full) return p.in_full(combination, changes, state);
  if (!p.stance) p.stance = bed.stance(p.top, p.first_contact, p.k, p.gap);
  Stance& stance = *p.stance;
  if (stance.rocks) return p.in_full(combination, changes, state);
  const Index n = p.k.size(), m = stance.S.rows();
  // The changed spring, its stiffness now.
  int own = -1;
  double own_k = 0.0;
  ChangedContact changed;
  for (const SupportChange& change : changes) {
    const int spring = structure.spring_of_support(change.support);
    const bool same = spring >= 0 && change.k_w == bed.k[spring] &&
                      change.gap.value_or(bed.gap[spring]) == bed.gap[spring];
    if (same) continue;
    if (own >= 0 || spring < 0 || spring >= m || bed.k[spring] <= 0.0 ||
        change.gap.value_or(bed.gap[spring]) != bed.gap[spring])
      return p.in_full(combination, changes, state);
    own = spring;
    own_k = change.k_w;
    const double more = own_k - bed.k[spring];
    changed = {static_cast<int>(n) + spring, own_k / more, more > 0.0 ? 1.0 : -1.0, own_k == 0.0};
  }
  VectorXd P = VectorXd::Zero(stance.B.cols());
  VectorXd fixed;
  std::vector<ScaledColumn> terms{{1.0, &bed.gap_response()}};
  ContactProblem problem;
  problem.q = stance.gap_contacts;
  bool in_full = false;
  for (const CaseFactor& c : combination) {
    const PlatedResponse& unit = p.unit(c.load_case);
    in_full = in_full || unit.idle || unit.uneven;
    if (unit.has_spans) state.spans += c.factor * unit.spans.head(members);
    if (unit.has_free) state.free += std::abs(c.factor) * unit.free.head(members);
    terms.push_back({c.factor, &unit.reading});
    problem.q.noalias() += c.factor * unit.contacts;
    P += c.factor * unit.plates;
    if (with_boards && unit.has_fixed) {
      if (fixed.size() == 0) fixed.setZero(unit.fixed.size());
      fixed += c.factor * unit.fixed;
    }
  }
  if (in_full) return p.in_full(combination, changes, state);
  problem.q = problem.q.cwiseProduct(stance.scale);
  problem.column = [&](int i) -> const VectorXd& { return stance.column(bed, i); };
  if (const auto before = bed.last.find(kind); before != bed.last.end()) {
    for (Index i = 0; i < n; ++i) {
      if (before->second.lifted[at(p.top[at(i)])] != 0)
        problem.start.push_back(static_cast<int>(i));
    }
    for (const int j : before->second.contacts) problem.start.push_back(static_cast<int>(n) + j);
  }
  ContactMemory::Found found;
  if (!stance.memory.solve(problem, kind, found, own >= 0 ? &changed : nullptr))
    return p.in_full(combination, changes, state);

  // What presses without force holds nothing, and a plate must balance: else with care.
  const VectorXd f = found.force.head(n).cwiseMax(0.0).cwiseQuotient(stance.scale.head(n));
  const double most_pressed = f.maxCoeff();
  bool careful = false;
  std::size_t next = 0;
  for (Index i = 0; i < n; ++i) {
    if (next < found.open.size() && found.open[next] == static_cast<int>(i))
      ++next;
    else
      careful = careful || !(f[i] > 10.0 * touching * most_pressed);
  }
  const std::size_t frame_open = next;
  for (Index q = 0; q < P.size(); ++q) {
    careful = careful || !(std::abs(stance.B.col(q).dot(f) + P[q]) <=
                           balanced * stance.B.col(q).cwiseAbs().dot(f));
  }
  const Index springs = bed.springs(), main = bed.first_top();
  for (Index i = 0; i < n; ++i) {
    if (f[i] > 0.0) terms.push_back({f[i], &bed.node_column(p.top[at(i)])});
  }
  for (std::size_t j = frame_open; j < found.open.size(); ++j) {
    const int c = found.open[j];
    if (c == changed.index) continue;
    const double x = stance.scale[c] * found.lambda[c];
    if (x > 0.0) terms.push_back({-x, &bed.contact_column(c - static_cast<int>(n))});
  }
  const double own_short =
      own >= 0 ? stance.scale[changed.index] * found.lambda[changed.index] : 0.0;
  if (own >= 0) terms.push_back({-own_short, &bed.contact_column(own)});
  VectorXd sum(bed.rows());
  std::vector<WeightedColumn> columns;
  columns.reserve(terms.size());
  for (const ScaledColumn& term : terms)
    columns.push_back({term.factor, term.reading->rows.data()});
  const auto take = [&](Index from, Index count) {
    sum.segment(from, count).setZero();
    add_weighted(columns, from, count, sum.data() + from);
  };
  take(0, springs);
  state.springs = bed.k.cwiseProduct(sum.head(springs) - bed.gap);
  if (own >= 0) {
    // What it really carries; while it presses that is what the matrix has of it and what it is short of.
    const double has = state.springs[own] + own_short;
    state.springs[own] = own_k * (sum[own] - bed.gap[own]);
    const bool presses = !std::binary_search(found.open.begin(), found.open.end(), changed.index);
    const double size = std::abs(own_short) + std::abs(has);
    careful = careful || (presses && std::abs(state.springs[own] - has) > 1e-8 * size);
    if (changed.absent) state.springs[own] = 0.0;
  }
  const double most = m > 0 ? std::max(0.0, state.springs.head(m).maxCoeff()) : 0.0;
  next = frame_open;
  for (Index j = 0; j < m; ++j) {
    const double force = found.force[n + j] * stance.scale[n + j];
    if (next < found.open.size() && found.open[next] == static_cast<int>(n + j)) {
      ++next;
      careful = careful || state.springs[j] > 1e-8 * most;
    } else {
      careful = careful || (bed.k[j] > 0.0 && !(state.springs[j] > 10.0 * touching * most)) ||
                (j != own && std::abs(state.springs[j] - force) > 1e-8 * most);
    }
  }
  if (careful) return p.in_full(combination, changes, state);
  state.springs.head(m) = state.springs.head(m).cwiseMax(0.0);
  if (own < 0) {
    PlateBed::Impl::Open& last = bed.last[kind];
    last.lifted.assign(bed.tops.size(), 0);
    last.contacts.clear();
    for (const int c : found.open) {
      if (c < n)
        last.lifted[at(p.top[at(c)])] = 1;
      else
        last.contacts.push_back(c - static_cast<int>(n));
    }
  }

  const GroupBounds& groups = *bed.groups;
  state.read.assign(groups.size(), 1);
  if (limits != nullptr) {
    VectorXd bounds = VectorXd::Zero(3 * static_cast<Index>(groups.size()));
    for (const ScaledColumn& term : terms) groups.add(bounds, term.factor, term.reading->bounds);
    groups.choose(bounds, *limits, state.read);
  }
  Index done = 0;
  const auto tell = [&](Index from, Index to) {
    if (from == to) return;
    take(springs + 2 * from, 2 * (to - from));
    for (Index i = from; i < to; ++i)
      expand(&sum[springs + 2 * i], p.length[at(i)], state.spans[i], &state.ends[4 * i]);
  };
  for (std::size_t g = 0; g < groups.size(); ++g) {
    if (state.read[g] != 0) continue;
    tell(done, groups[g].first);
    state.ends.segment(4 * groups[g].first, 4 * (groups[g].last - groups[g].first)).setZero();
    done = groups[g].last;
  }
  tell(done, first);
  if (!with_boards) return;
  const auto tops = static_cast<Index>(bed.tops.size());
  for (const auto& [row, count] : p.board_rows) {
    take(main + row, count);
    take(main + tops + row, count);
  }
  const auto& elements = structure.elements();
  for (std::size_t b = 0; b < p.boards.size(); ++b) {
    const Member& member = structure.frame().members[at(p.boards[b])];
    const BeamElement& element = elements[at(p.boards[b])];
    EndVector d{};
    for (std::size_t e = 0; e < 2; ++e) {
      const int top = bed.top_of[at(e == 0 ? member.i : member.j)];
      const auto& place = bed.tops[at(top)];
      const double turn = sum[main + tops + top];
      d[3 * e] = sum[main + top];
      d[3 * e + 1] = place.cy * turn;
      d[3 * e + 2] = -place.cx * turn;
    }
    const EndForces forces = end_forces(element, d, {});
    const Index row = 4 * (first + static_cast<Index>(b));
    state.ends.segment<4>(row) << forces.Mi, forces.Mj, forces.Vi, forces.Vj;
    if (fixed.size() > 0) state.ends.segment<4>(row) += fixed.segment<4>(4 * static_cast<Index>(b));
  }
}

int Plated::of_support(int support) const { return impl_->bed->support_spring[at(support)]; }
int Plated::of_link(int link) const { return impl_->bed->link_spring[at(link)]; }
double Plated::length(int position) const { return impl_->length[at(position)]; }
std::size_t Plated::asked_in_full() const { return impl_->in_full_count; }
const Analysis& Plated::whole() const { return impl_->in_matrix(); }

}  // namespace underprop::solver

#include "underprop/solver/plated.hpp"

#include "underprop/solver/responses.hpp"
#include "underprop/solver/validation.hpp"

#include <Eigen/Cholesky>
#include <Eigen/LU>
#include <algorithm>
#include <cmath>

namespace underprop::solver {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

namespace {

std::size_t at(int i) { return static_cast<std::size_t>(i); }
std::size_t at(Index i) { return static_cast<std::size_t>(i); }

/// A contact force below this share of the largest presses nothing (as in condensed.cpp).
constexpr double touching = 1e-11;
/// Infeasibilities below this share of the largest value are rounding.
constexpr double feasibility = 1e-11;
/// Block pivoting: steps in all, and steps without fewer infeasible contacts.
constexpr int most_steps = 60;
constexpr int most_stalled = 10;
/// Contact sets remembered per place, and how many of the latest are tried before pivoting.
constexpr std::size_t most_sets = 24;
constexpr std::size_t tried_sets = 3;
/// The balance of a plate, relative to its contacts.
constexpr double balanced = 1e-9;

/// A uniform load makes two of a member's four end forces follow from the others.
void expand(const double* read, double L, double q, double* ends) {
  const double Mi = read[0], Vi = read[1];
  ends[0] = Mi;
  ends[1] = Mi + L * (Vi + 0.5 * q * L);
  ends[2] = Vi;
  ends[3] = Vi + q * L;
}

}  // namespace

/// Rows of a reading: the stretch of every spring; Mi, Vi of every member; w and the rotation along the
/// board of every node of the bed.
struct PlateBed::Impl {
  const Analysis* analysis = nullptr;
  std::vector<int> members, boards;
  std::vector<int> support_spring, link_spring;
  std::vector<int> top_of;  ///< per node; -1: not of the bed
  struct Top {
    int node;
    double cx, cy;  ///< direction of its board
  };
  std::vector<Top> tops;
  bool rigid_contacts = false;
  VectorXd k, gap;  ///< per spring
  mutable std::vector<std::unique_ptr<VectorXd>> contact_columns, node_columns;
  mutable std::unique_ptr<VectorXd> gaps;
  /// What the last state pressed and opened: where the next place starts.
  mutable std::vector<char> pressed;
  mutable std::vector<int> open;

  [[nodiscard]] const Structure& structure() const { return analysis->responses().structure(); }
  [[nodiscard]] Index springs() const { return k.size(); }
  [[nodiscard]] Index first_top() const {
    return springs() + 2 * static_cast<Index>(members.size());
  }
  [[nodiscard]] Index rows() const { return first_top() + 2 * static_cast<Index>(tops.size()); }

  [[nodiscard]] VectorXd read(const VectorXd& u, const CaseLoads* loads) const;
  [[nodiscard]] const VectorXd& contact_column(int contact) const;
  [[nodiscard]] const VectorXd& node_column(int top) const;
  [[nodiscard]] const VectorXd& gap_response() const;
};

VectorXd PlateBed::Impl::read(const VectorXd& u, const CaseLoads* loads) const {
  const Structure& s = structure();
  VectorXd r(rows());
  for (Index i = 0; i < springs(); ++i) r[i] = s.springs()[at(i)].stretch(u);
  const auto& freedoms = s.freedoms();
  const auto value = [&](int row) {
    const FreedomTerm& t = freedoms.row(row);
    return t.freedom < 0 ? 0.0 : t.factor * u[t.freedom];
  };
  Index row = springs();
  for (const int m : members) {
    const Member& member = s.frame().members[at(m)];
    EndVector d;
    for (int e = 0; e < 3; ++e) {
      d[at(e)] = value(3 * member.i + e);
      d[at(e + 3)] = value(3 * member.j + e);
    }
    LoadEffect effect;
    if (loads != nullptr) loads->add(m, 1.0, effect, nullptr);
    const EndForces f = end_forces(s.elements()[at(m)], d, effect);
    r[row++] = f.Mi;
    r[row++] = f.Vi;
  }
  for (const Top& top : tops) {
    r[row++] = value(3 * top.node);
    r[row++] = top.cy * value(3 * top.node + 1) - top.cx * value(3 * top.node + 2);
  }
  return r;
}

const VectorXd& PlateBed::Impl::contact_column(int contact) const {
  auto& kept = contact_columns[at(contact)];
  if (!kept) {
    const Structure& s = structure();
    VectorXd f = VectorXd::Zero(s.freedoms().size());
    for (const auto& [freedom, c] : s.springs()[at(contact)].c) f[freedom] += c;
    kept = std::make_unique<VectorXd>(read(s.solve_once(f), nullptr));
  }
  return *kept;
}

/// Response to 1 N downwards on a node of the bed.
const VectorXd& PlateBed::Impl::node_column(int top) const {
  auto& kept = node_columns[at(top)];
  if (!kept) {
    const Structure& s = structure();
    VectorXd f = VectorXd::Zero(s.freedoms().size());
    const FreedomTerm& t = s.freedoms().row(3 * tops[at(top)].node);
    if (t.freedom >= 0) f[t.freedom] = -t.factor;
    kept = std::make_unique<VectorXd>(read(s.solve_once(f), nullptr));
  }
  return *kept;
}

const VectorXd& PlateBed::Impl::gap_response() const {
  if (!gaps) {
    gaps = std::make_unique<VectorXd>(VectorXd::Zero(rows()));
    for (int i = 0; i < structure().contacts(); ++i) {
      if (gap[i] != 0.0) *gaps += k[i] * gap[i] * contact_column(i);
    }
  }
  return *gaps;
}

PlateBed::PlateBed(const Analysis& analysis, std::vector<int> members, std::vector<int> boards)
    : impl_(std::make_unique<Impl>()) {
  impl_->analysis = &analysis;
  const Structure& s = impl_->structure();
  const Frame& frame = s.frame();
  if (!frame.plates.empty()) throw InvalidFrame("a bed for plates has plates in its matrix");
  for (const std::vector<int>* list : {&members, &boards}) {
    for (const int m : *list) {
      if (m < 0 || at(m) >= frame.members.size())
        throw InvalidFrame("end forces were asked of a member that does not exist");
    }
  }
  impl_->members = std::move(members);
  impl_->boards = std::move(boards);
  impl_->top_of.assign(frame.nodes.size(), -1);
  for (const int m : impl_->boards) {
    const Member& member = frame.members[at(m)];
    const BeamElement& element = s.elements()[at(m)];
    if (member.GJ != 0.0) throw InvalidFrame("a board of the bed has torsional stiffness");
    for (const int node : {member.i, member.j}) {
      int& top = impl_->top_of[at(node)];
      if (top < 0) {
        top = static_cast<int>(impl_->tops.size());
        impl_->tops.push_back({node, element.cx, element.cy});
      } else {
        const Impl::Top& known = impl_->tops[at(top)];
        if (std::abs(known.cx * element.cy - known.cy * element.cx) > 1e-6)
          throw InvalidFrame("a board of the bed is not straight");
      }
    }
  }
  impl_->support_spring.assign(frame.supports.size(), -1);
  impl_->link_spring.assign(frame.links.size(), -1);
  const auto n = static_cast<Index>(s.springs().size());
  impl_->k.resize(n);
  impl_->gap.resize(n);
  for (Index i = 0; i < n; ++i) {
    const Spring& spring = s.springs()[at(i)];
    impl_->k[i] = spring.k;
    impl_->gap[i] = spring.gap;
    if (spring.support >= 0) impl_->support_spring[at(spring.support)] = static_cast<int>(i);
    if (spring.link >= 0) impl_->link_spring[at(spring.link)] = static_cast<int>(i);
    impl_->rigid_contacts = impl_->rigid_contacts || (i < s.contacts() && spring.rigid);
  }
  impl_->contact_columns.resize(at(s.contacts()));
  impl_->node_columns.resize(impl_->tops.size());
  impl_->pressed.assign(impl_->tops.size(), 1);
}

PlateBed::~PlateBed() = default;

namespace {

/// A load case without its plates' loads, read.
struct CaseReading {
  VectorXd rows;
  VectorXd plates;       ///< Fz, Mx, My per plate
  VectorXd fixed;        ///< Mi, Mj, Vi, Vj per board read, of loads between its ends
  VectorXd spans, free;  ///< as in CondensedState
  bool idle = false, uneven = false, has_fixed = false, has_spans = false, has_free = false;
};

/// Which contacts of the plates press and which of the frame are open, with the factor of that state.
struct ContactSet {
  std::vector<int> pressed, open;  ///< ascending
  Eigen::LLT<MatrixXd> factor;     ///< of (A + 1/k) over the pressed ones
  MatrixXd border;                 ///< L^-1 [-S', B]
  Eigen::PartialPivLU<MatrixXd> schur;
  bool regular = false;
  std::size_t used = 0;
};

struct ContactState {
  VectorXd f;           ///< per contact of the plates
  VectorXd x;           ///< per open contact of the frame, in order
  VectorXd penetrates;  ///< per contact of the plates, mm
  VectorXd s;           ///< stretch per contact of the frame
};

}  // namespace

struct Plated::Impl {
  const PlateBed::Impl* bed = nullptr;
  std::vector<Plate> plates;
  std::vector<LoadCase> cases;  ///< with the loads on plates
  std::vector<int> boards;
  std::unique_ptr<Analysis> loads;  ///< the bed's frame under the cases, plates apart
  std::unique_ptr<Analysis> whole;
  std::vector<std::unique_ptr<CaseReading>> read;
  std::vector<double> length;
  std::vector<std::pair<Index, Index>> board_rows;  ///< rows of the bed that the boards need
  bool always_in_full = false;
  std::size_t in_full_count = 0;

  // The contacts of all plates, one after the other.
  std::vector<int> top;
  VectorXd k, gap;
  MatrixXd B;  ///< contacts x 3 per plate
  MatrixXd A;  ///< flexibility, contacts x contacts
  MatrixXd S;  ///< contacts of the frame x contacts of the plates
  std::vector<ContactSet> sets;
  std::size_t clock = 0;

  void gather();
  const CaseReading& unit(int load_case);
  ContactSet make(std::vector<int> pressed, std::vector<int> open) const;
  bool solve(const ContactSet& set, const VectorXd& w, const VectorXd& s, const VectorXd& P,
             ContactState& state) const;
  int flip(const ContactSet& set, const ContactState& state, std::vector<int>& pressed,
           std::vector<int>& open) const;
  const ContactSet* find(const VectorXd& w, const VectorXd& s, const VectorXd& P,
                         ContactState& state);
  void in_full(std::span<const CaseFactor> combination, CondensedState& state);
  const Analysis& in_matrix();
};

void Plated::Impl::gather() {
  const auto n = static_cast<Index>(top.size());
  const Index m = bed->structure().contacts();
  A.resize(n, n);
  S.resize(m, n);
  for (Index c = 0; c < n; ++c) {
    const VectorXd& column = bed->node_column(top[at(c)]);
    S.col(c) = column.head(m);
    for (Index r = 0; r < n; ++r) A(r, c) = -column[bed->first_top() + 2 * top[at(r)]];
  }
}

const CaseReading& Plated::Impl::unit(int load_case) {
  auto& kept = read[at(load_case)];
  if (kept) return *kept;
  kept = std::make_unique<CaseReading>();
  const Structure& s = bed->structure();
  const CaseLoads& on_frame = loads->responses().loads()[at(load_case)];
  const VectorXd nodal = on_frame.nodal(s);
  kept->idle = !s.freedoms().idle_moments(nodal).empty();
  if (nodal.cwiseAbs().maxCoeff() > 0.0) {
    kept->rows = bed->read(s.solve_once(s.freedoms().reduce(nodal)), &on_frame);
  } else {
    kept->rows = VectorXd::Zero(bed->rows());
  }
  kept->plates = VectorXd::Zero(B.cols());
  for (const NodalLoad& load : cases[at(load_case)].nodal) {
    if (load.plate < 0) continue;
    kept->plates[3 * load.plate] += load.Fz;
    kept->plates[3 * load.plate + 1] += load.Mx;
    kept->plates[3 * load.plate + 2] += load.My;
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
  return *kept;
}

ContactSet Plated::Impl::make(std::vector<int> pressed, std::vector<int> open) const {
  ContactSet set;
  set.pressed = std::move(pressed);
  set.open = std::move(open);
  const auto z = static_cast<Index>(set.pressed.size()), o = static_cast<Index>(set.open.size());
  if (z < 3) return set;  // a plate on fewer points may rock
  MatrixXd K(z, z);
  for (Index c = 0; c < z; ++c) {
    const int pc = set.pressed[at(c)];
    for (Index r = c; r < z; ++r) K(r, c) = A(set.pressed[at(r)], pc);
    K(c, c) += 1.0 / k[pc];
  }
  set.factor.compute(K);
  if (set.factor.info() != Eigen::Success) return set;
  set.border.resize(z, o + B.cols());
  for (Index r = 0; r < z; ++r) {
    for (Index c = 0; c < o; ++c) set.border(r, c) = -S(set.open[at(c)], set.pressed[at(r)]);
    set.border.row(r).tail(B.cols()) = B.row(set.pressed[at(r)]);
  }
  set.factor.matrixL().solveInPlace(set.border);
  MatrixXd schur = -set.border.transpose() * set.border;
  for (Index c = 0; c < o; ++c) {
    const VectorXd& column = bed->contact_column(set.open[at(c)]);
    for (Index r = 0; r < o; ++r) schur(r, c) += column[set.open[at(r)]];
    schur(c, c) -= 1.0 / bed->k[set.open[at(c)]];
  }
  // Scaled by its diagonal, so that lengths and forces compare.
  const VectorXd scale = schur.diagonal().cwiseAbs().cwiseSqrt();
  if (!(scale.minCoeff() > 0.0)) return set;
  const MatrixXd scaled =
      scale.cwiseInverse().asDiagonal() * schur * scale.cwiseInverse().asDiagonal();
  const Eigen::FullPivLU<MatrixXd> rank(scaled);
  const VectorXd pivots = rank.matrixLU().diagonal().cwiseAbs();
  set.regular = pivots.minCoeff() > 1e-9 * pivots.maxCoeff();
  if (set.regular) set.schur.compute(schur);
  return set;
}

bool Plated::Impl::solve(const ContactSet& set, const VectorXd& w, const VectorXd& s,
                         const VectorXd& P, ContactState& state) const {
  if (!set.regular) return false;
  const auto z = static_cast<Index>(set.pressed.size()), o = static_cast<Index>(set.open.size());
  VectorXd r(z), below(o + B.cols());
  for (Index i = 0; i < z; ++i) r[i] = w[set.pressed[at(i)]] - gap[set.pressed[at(i)]];
  set.factor.matrixL().solveInPlace(r);
  for (Index i = 0; i < o; ++i) below[i] = s[set.open[at(i)]] - bed->gap[set.open[at(i)]];
  below.tail(B.cols()) = -P;
  below.noalias() -= set.border.transpose() * r;
  const VectorXd y = set.schur.solve(below);
  r.noalias() -= set.border * y;
  set.factor.matrixU().solveInPlace(r);
  state.f.setZero(w.size());
  state.x = y.head(o);
  state.penetrates = w - gap;
  state.penetrates.noalias() -= B * y.tail(B.cols());
  state.s = s;
  for (Index i = 0; i < z; ++i) {
    const int c = set.pressed[at(i)];
    state.f[c] = r[i];
    state.penetrates -= r[i] * A.col(c);
    state.s += r[i] * S.col(c);
  }
  for (Index i = 0; i < o; ++i) {
    const int c = set.open[at(i)];
    state.penetrates += state.x[i] * S.row(c).transpose();
    state.s -= state.x[i] * bed->contact_column(c).head(s.size());
  }
  return state.f.allFinite() && state.s.allFinite();
}

/// The sets with every infeasible contact turned over, and how many those are.
int Plated::Impl::flip(const ContactSet& set, const ContactState& state, std::vector<int>& pressed,
                       std::vector<int>& open) const {
  pressed.clear();
  open.clear();
  int flipped = 0;
  const double force = feasibility * state.f.cwiseAbs().maxCoeff();
  const double depth = feasibility * std::max(state.penetrates.cwiseAbs().maxCoeff(),
                                              1e-3 * state.s.cwiseAbs().maxCoeff());
  std::size_t next = 0;
  for (int i = 0; i < static_cast<int>(state.f.size()); ++i) {
    const bool was = next < set.pressed.size() && set.pressed[next] == i;
    if (was) ++next;
    const bool wrong = was ? state.f[i] < -force : state.penetrates[i] > depth;
    if (wrong) ++flipped;
    if (was != wrong) pressed.push_back(i);
  }
  double most = 0.0;
  for (Index j = 0; j < state.s.size(); ++j)
    most = std::max(most, std::abs(bed->k[j] * (state.s[j] - bed->gap[j])));
  next = 0;
  for (int j = 0; j < static_cast<int>(state.s.size()); ++j) {
    const bool was = next < set.open.size() && set.open[next] == j;
    const bool wrong = was ? state.x[static_cast<Index>(next)] < -feasibility * most
                           : bed->k[j] * (state.s[j] - bed->gap[j]) < -feasibility * most;
    if (was) ++next;
    if (wrong) ++flipped;
    if (was != wrong) open.push_back(j);
  }
  return flipped;
}

const ContactSet* Plated::Impl::find(const VectorXd& w, const VectorXd& s, const VectorXd& P,
                                     ContactState& state) {
  std::sort(sets.begin(), sets.end(),
            [](const ContactSet& a, const ContactSet& b) { return a.used > b.used; });
  std::vector<int> pressed, open;
  const auto keep = [&](ContactSet set) {
    if (sets.size() >= most_sets) sets.pop_back();
    set.used = ++clock;
    sets.push_back(std::move(set));
    return &sets.back();
  };
  for (std::size_t t = 0; t < std::min(tried_sets, sets.size()); ++t) {
    std::vector<int> next_pressed, next_open;
    if (!solve(sets[t], w, s, P, state)) continue;
    if (flip(sets[t], state, next_pressed, next_open) == 0) {
      sets[t].used = ++clock;
      return &sets[t];
    }
    if (t == 0) {
      pressed = std::move(next_pressed);
      open = std::move(next_open);
    }
  }
  if (pressed.empty()) {
    open = bed->open;
    for (std::size_t i = 0; i < top.size(); ++i) {
      if (bed->pressed[at(top[i])] != 0) pressed.push_back(static_cast<int>(i));
    }
  }
  int fewest = static_cast<int>(top.size()) + static_cast<int>(s.size()) + 1, stalled = 0;
  for (int step = 0; step < most_steps && stalled < most_stalled; ++step) {
    if (pressed.size() < 3) {  // nothing near: all are pressed
      pressed.resize(top.size());
      for (std::size_t i = 0; i < top.size(); ++i) pressed[i] = static_cast<int>(i);
    }
    ContactSet set = make(std::move(pressed), std::move(open));
    if (!solve(set, w, s, P, state)) return nullptr;
    const int wrong = flip(set, state, pressed, open);
    if (wrong == 0) {
      std::erase_if(sets, [&](const ContactSet& other) {
        return other.pressed == set.pressed && other.open == set.open;
      });
      return keep(std::move(set));
    }
    stalled = wrong < fewest ? 0 : stalled + 1;
    fewest = std::min(fewest, wrong);
  }
  return nullptr;
}

const Analysis& Plated::Impl::in_matrix() {
  if (!whole) {
    Frame frame = bed->structure().frame();
    frame.plates = plates;
    whole = std::make_unique<Analysis>(std::move(frame), cases);
  }
  return *whole;
}

void Plated::Impl::in_full(std::span<const CaseFactor> combination, CondensedState& state) {
  ++in_full_count;
  const Analysis& analysis = in_matrix();
  const Response response = analysis.solve(combination);
  state.asked_in_full = true;
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
  const auto row_of = [&](int node) { return p.bed->first_top() + 2 * p.bed->top_of[at(node)]; };
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
        rows.back().second += 2;
      else
        rows.emplace_back(row, 2);
    }
  }
  std::size_t n = 0;
  for (const Plate& plate : p.plates) n += plate.contacts.size();
  p.k.resize(static_cast<Index>(n));
  p.gap.resize(static_cast<Index>(n));
  p.B = MatrixXd::Zero(static_cast<Index>(n), 3 * static_cast<Index>(p.plates.size()));
  Index c = 0;
  for (std::size_t q = 0; q < p.plates.size(); ++q) {
    const Plate& plate = p.plates[q];
    for (const PlateContact& contact : plate.contacts) {
      if (contact.node < 0 || at(contact.node) >= frame.nodes.size() ||
          p.bed->top_of[at(contact.node)] < 0 || !std::isfinite(contact.k_w) || contact.k_w <= 0.0)
        throw InvalidFrame("a plate stands on a node that is not of the bed, or rigidly");
      const Node& node = frame.nodes[at(contact.node)];
      p.top.push_back(p.bed->top_of[at(contact.node)]);
      p.k[c] = contact.k_w;
      p.gap[c] = contact.gap;
      p.B.row(c).segment<3>(3 * static_cast<Index>(q)) << 1.0, node.y - plate.y,
          -(node.x - plate.x);
      ++c;
    }
  }
  p.always_in_full = s.loose().has_value() || p.bed->rigid_contacts || n == 0;
}

Plated::~Plated() = default;
Plated::Plated(Plated&&) noexcept = default;
Plated& Plated::operator=(Plated&&) noexcept = default;

void Plated::solve(std::span<const CaseFactor> combination, bool with_boards,
                   CondensedState& state) const {
  Impl& p = *impl_;
  const PlateBed::Impl& bed = *p.bed;
  validate(p.cases, combination);
  const Structure& structure = bed.structure();
  const auto first = static_cast<Index>(bed.members.size());
  const auto members = first + (with_boards ? static_cast<Index>(p.boards.size()) : 0);
  state.mechanism.reset();
  state.asked_in_full = false;
  state.springs.resize(bed.springs());
  state.ends.resize(4 * members);
  state.spans.setZero(members);
  state.free.setZero(members);
  if (p.always_in_full) return p.in_full(combination, state);
  if (p.A.size() == 0) p.gather();
  VectorXd sum = bed.gap_response();
  VectorXd P = VectorXd::Zero(p.B.cols());
  VectorXd fixed;
  bool in_full = false;
  for (const CaseFactor& c : combination) {
    const CaseReading& unit = p.unit(c.load_case);
    in_full = in_full || unit.idle || unit.uneven;
    if (unit.has_spans) state.spans += c.factor * unit.spans.head(members);
    if (unit.has_free) state.free += std::abs(c.factor) * unit.free.head(members);
    sum.noalias() += c.factor * unit.rows;
    P += c.factor * unit.plates;
    if (with_boards && unit.has_fixed) {
      if (fixed.size() == 0) fixed.setZero(unit.fixed.size());
      fixed += c.factor * unit.fixed;
    }
  }
  if (in_full) return p.in_full(combination, state);
  VectorXd w(static_cast<Index>(p.top.size()));
  for (Index i = 0; i < w.size(); ++i) w[i] = sum[bed.first_top() + 2 * p.top[at(i)]];
  const Index m = structure.contacts();
  ContactState contact;
  const ContactSet* set = p.find(w, sum.head(m), P, contact);
  if (set == nullptr) return p.in_full(combination, state);

  // What presses without force holds nothing, and a plate must balance: else with care.
  const double most_pressed = contact.f.maxCoeff();
  bool careful = false;
  for (const int i : set->pressed)
    careful = careful || !(contact.f[i] > 10.0 * touching * most_pressed);
  for (Index q = 0; q < P.size(); ++q) {
    const double left = (p.B.col(q).transpose() * contact.f + P.segment(q, 1))[0];
    careful =
        careful || !(std::abs(left) <= balanced * p.B.col(q).cwiseAbs().dot(contact.f.cwiseAbs()));
  }
  const Index main = bed.first_top();
  const auto take = [&](double factor, const VectorXd& column) {
    sum.head(main).noalias() += factor * column.head(main);
    if (!with_boards) return;
    for (const auto& [row, count] : p.board_rows)
      sum.segment(row, count).noalias() += factor * column.segment(row, count);
  };
  for (const int i : set->pressed) take(contact.f[i], bed.node_column(p.top[at(i)]));
  for (std::size_t j = 0; j < set->open.size(); ++j)
    take(-contact.x[static_cast<Index>(j)], bed.contact_column(set->open[j]));
  state.springs = bed.k.cwiseProduct(sum.head(bed.springs()) - bed.gap);
  const double most = m > 0 ? std::max(0.0, state.springs.head(m).maxCoeff()) : 0.0;
  std::size_t next = 0;
  for (Index j = 0; j < m; ++j) {
    const bool is_open = next < set->open.size() && set->open[next] == static_cast<int>(j);
    if (is_open) {
      ++next;
      careful = careful || state.springs[j] > 1e-8 * most;
    } else {
      careful = careful || (bed.k[j] > 0.0 && !(state.springs[j] > 10.0 * touching * most));
    }
  }
  if (careful) return p.in_full(combination, state);
  state.springs.head(m) = state.springs.head(m).cwiseMax(0.0);
  std::fill(bed.pressed.begin(), bed.pressed.end(), 1);
  for (const int t : p.top) bed.pressed[at(t)] = 0;
  for (const int i : set->pressed) bed.pressed[at(p.top[at(i)])] = 1;
  bed.open = set->open;

  for (Index i = 0; i < first; ++i)
    expand(&sum[bed.springs() + 2 * i], p.length[at(i)], state.spans[i], &state.ends[4 * i]);
  if (!with_boards) return;
  const auto& elements = structure.elements();
  for (std::size_t b = 0; b < p.boards.size(); ++b) {
    const Member& member = structure.frame().members[at(p.boards[b])];
    const BeamElement& element = elements[at(p.boards[b])];
    EndVector d{};
    for (std::size_t e = 0; e < 2; ++e) {
      const int top = bed.top_of[at(e == 0 ? member.i : member.j)];
      const auto& place = bed.tops[at(top)];
      const double turn = sum[main + 2 * top + 1];
      d[3 * e] = sum[main + 2 * top];
      d[3 * e + 1] = place.cy * turn;
      d[3 * e + 2] = -place.cx * turn;
    }
    const EndForces f = end_forces(element, d, {});
    const Index row = 4 * (first + static_cast<Index>(b));
    state.ends.segment<4>(row) << f.Mi, f.Mj, f.Vi, f.Vj;
    if (fixed.size() > 0) state.ends.segment<4>(row) += fixed.segment<4>(4 * static_cast<Index>(b));
  }
}

int Plated::of_support(int support) const { return impl_->bed->support_spring[at(support)]; }
int Plated::of_link(int link) const { return impl_->bed->link_spring[at(link)]; }
double Plated::length(int position) const { return impl_->length[at(position)]; }
std::size_t Plated::asked_in_full() const { return impl_->in_full_count; }
const Analysis& Plated::whole() const { return impl_->in_matrix(); }

}  // namespace underprop::solver

#include "plate_bed.hpp"
#include "index.hpp"

#include <algorithm>
#include <cmath>

namespace underprop::solver {

namespace {

/// Stances remembered.
constexpr std::size_t most_stances = 32;

}  // namespace

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
  for (const Top& top : tops) r[row++] = value(3 * top.node);
  for (const Top& top : tops)
    r[row++] = top.cy * value(3 * top.node + 1) - top.cx * value(3 * top.node + 2);
  return r;
}

BedColumn PlateBed::Impl::column(const VectorXd& forces) const {
  BedColumn r;
  r.rows = read(structure().solve_once(forces), nullptr);
  r.bounds = groups->of(r.rows.data() + springs(), nullptr);
  return r;
}

const BedColumn& PlateBed::Impl::contact_column(int contact) const {
  auto& kept = contact_columns[at(contact)];
  if (!kept) {
    const Structure& s = structure();
    VectorXd f = VectorXd::Zero(s.freedoms().size());
    for (const auto& [freedom, c] : s.springs()[at(contact)].c) f[freedom] += c;
    kept = std::make_unique<BedColumn>(column(f));
  }
  return *kept;
}

/// Response to 1 N downwards on a node of the bed.
const BedColumn& PlateBed::Impl::node_column(int top) const {
  auto& kept = node_columns[at(top)];
  if (!kept) {
    const Structure& s = structure();
    VectorXd f = VectorXd::Zero(s.freedoms().size());
    const FreedomTerm& t = s.freedoms().row(3 * tops[at(top)].node);
    if (t.freedom >= 0) f[t.freedom] = -t.factor;
    kept = std::make_unique<BedColumn>(column(f));
  }
  return *kept;
}

const BedColumn& PlateBed::Impl::gap_response() const {
  if (!gaps) {
    gaps = std::make_unique<BedColumn>();
    gaps->rows = VectorXd::Zero(rows());
    for (int i = 0; i < structure().contacts(); ++i) {
      if (gap[i] != 0.0) gaps->rows += k[i] * gap[i] * contact_column(i).rows;
    }
    gaps->bounds = groups->of(gaps->rows.data() + springs(), nullptr);
  }
  return *gaps;
}

PlateBed::PlateBed(const Analysis& analysis, std::vector<int> members, std::vector<int> boards,
                   std::vector<Group> groups)
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
  for (const int m : impl_->members) impl_->length.push_back(s.elements()[at(m)].L);
  impl_->groups.emplace(std::move(groups), impl_->length);
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
}

PlateBed::~PlateBed() = default;

std::shared_ptr<Stance> PlateBed::Impl::stance(const std::vector<int>& top,
                                               const std::vector<std::size_t>& first,
                                               const VectorXd& k_of, const VectorXd& gap_of) const {
  const auto known = std::find_if(stances.begin(), stances.end(), [&](const auto& s) {
    return s->top == top && s->first == first && s->k == k_of && s->gap == gap_of;
  });
  if (known != stances.end()) {
    std::rotate(known, known + 1, stances.end());
    return stances.back();
  }
  auto fresh = std::make_shared<Stance>();
  fresh->top = top;
  fresh->first = first;
  fresh->k = k_of;
  fresh->gap = gap_of;
  fresh->gather(*this);
  if (stances.size() >= most_stances) stances.erase(stances.begin());
  stances.push_back(fresh);
  return fresh;
}

void Stance::gather(const PlateBed::Impl& bed) {
  const auto n = static_cast<Index>(top.size());
  const Index m = bed.structure().contacts();
  const auto& nodes = bed.structure().frame().nodes;
  const auto place = [&](std::size_t contact) -> const Node& {
    return nodes[at(bed.tops[at(top[contact])].node)];
  };
  B = MatrixXd::Zero(n, 3 * static_cast<Index>(first.size()));
  for (std::size_t q = 0; q < first.size(); ++q) {
    const std::size_t last = q + 1 < first.size() ? first[q + 1] : top.size();
    double x = 0.0, y = 0.0;
    for (std::size_t c = first[q]; c < last; ++c) {
      x += place(c).x / static_cast<double>(last - first[q]);
      y += place(c).y / static_cast<double>(last - first[q]);
    }
    reference.push_back({x, y});
    for (std::size_t c = first[q]; c < last; ++c) {
      B.row(static_cast<Index>(c)).segment<3>(3 * static_cast<Index>(q)) << 1.0, place(c).y - y,
          -(place(c).x - x);
    }
  }
  MatrixXd A(n, n);
  S.resize(m, n);
  for (Index c = 0; c < n; ++c) {
    const VectorXd& column = bed.node_column(top[at(c)]).rows;
    S.col(c) = column.head(m);
    for (Index r = 0; r < n; ++r) A(r, c) = -column[bed.first_top() + top[at(r)]];
    A(c, c) += 1.0 / k[c];
  }
  rocks = true;
  stiffness.compute(A);
  if (stiffness.info() != Eigen::Success) return;
  border = B;
  stiffness.matrixL().solveInPlace(border);
  const MatrixXd Q = border.transpose() * border;
  const VectorXd size = Q.diagonal().cwiseSqrt();
  motion.compute(Q);
  if (motion.info() != Eigen::Success || !(size.minCoeff() > 0.0) ||
      !(motion.matrixLLT().diagonal().cwiseQuotient(size).minCoeff() > 1e-6))
    return;
  rocks = false;
  scale.resize(n + m);
  scale.head(n) = k.cwiseSqrt().cwiseInverse();
  scale.tail(m) = bed.k.head(m).cwiseSqrt();
  columns.resize(at(n + m));
  VectorXd w(n);
  const VectorXd& gaps = bed.gap_response().rows;
  for (Index i = 0; i < n; ++i) w[i] = gaps[bed.first_top() + top[at(i)]] - gap[i];
  gap_contacts = contacts(gaps, w, VectorXd::Zero(B.cols()));
  gap_contacts.tail(m) -= bed.gap.head(m);
}

VectorXd Stance::press(const VectorXd& v, const VectorXd& P) const {
  VectorXd z = v;
  stiffness.matrixL().solveInPlace(z);
  const VectorXd p = motion.solve(border.transpose() * z + P);
  z.noalias() -= border * p;
  stiffness.matrixU().solveInPlace(z);
  return z;
}

VectorXd Stance::contacts(const VectorXd& rows, const VectorXd& v, const VectorXd& P) const {
  const Index n = v.size(), m = S.rows();
  VectorXd result(n + m);
  result.head(n) = press(v, P);
  result.tail(m) = rows.head(m);
  result.tail(m).noalias() += S * result.head(n);
  return result;
}

const VectorXd& Stance::column(const PlateBed::Impl& bed, int contact) {
  auto& kept = columns[at(contact)];
  if (kept) return *kept;
  const Index n = k.size(), m = S.rows();
  VectorXd v = VectorXd::Zero(n);
  if (contact < n)
    v[contact] = 1.0;
  else
    v = S.row(contact - n).transpose();
  kept = std::make_unique<VectorXd>(n + m);
  kept->head(n) = press(v, VectorXd::Zero(B.cols()));
  kept->tail(m).noalias() = S * kept->head(n);
  if (contact >= n) {
    const Index j = contact - n;
    kept->tail(m) -= bed.contact_column(static_cast<int>(j)).rows.head(m);
    (*kept)[contact] += 1.0 / bed.k[j];
  }
  *kept = scale[contact] * kept->cwiseProduct(scale);
  return *kept;
}

}  // namespace underprop::solver

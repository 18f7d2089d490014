#include "underprop/solver/analysis.hpp"
#include "index.hpp"

#include "solver/question.hpp"
#include "solver/responses.hpp"
#include "solver/validation.hpp"

#include <algorithm>

namespace underprop::solver {

struct Analysis::Impl {
  Impl(Frame frame, std::vector<LoadCase> cases) : responses(std::move(frame), std::move(cases)) {}
  Impl(const Responses& other, std::vector<LoadCase> cases) : responses(other, std::move(cases)) {}
  Responses responses;
};

Analysis::Analysis(Frame frame, std::vector<LoadCase> cases) {
  validate(frame);
  for (LoadCase& c : cases) validate(frame, c);
  impl_ = std::make_unique<Impl>(std::move(frame), std::move(cases));
}

Analysis::Analysis(const Analysis& other, std::vector<LoadCase> cases) {
  for (LoadCase& c : cases) validate(other.frame(), c);
  impl_ = std::make_unique<Impl>(other.impl_->responses, std::move(cases));
}

Analysis::~Analysis() = default;
Analysis::Analysis(Analysis&&) noexcept = default;
Analysis& Analysis::operator=(Analysis&&) noexcept = default;

const Responses& Analysis::responses() const { return impl_->responses; }
const Frame& Analysis::frame() const { return impl_->responses.structure().frame(); }
const std::vector<LoadCase>& Analysis::cases() const { return impl_->responses.cases(); }

namespace {

/// The same question to a frame that is built with the changes and additions.
Response built_anew(const Frame& frame, const std::vector<LoadCase>& cases,
                    std::span<const CaseFactor> combination, std::span<const SupportChange> changes,
                    const Additions& additions) {
  Frame f = frame;
  for (const SupportChange& c : changes) {
    Support& s = f.supports[at(c.support)];
    s.k_w = c.k_w;
    s.gap = c.gap.value_or(s.gap);
  }
  for (const SupportAddition& s : additions.supports) {
    f.supports.push_back({"added support", s.node, s.k_w, 0.0, 0.0, s.compression_only, s.gap});
  }
  f.members.insert(f.members.end(), additions.members.begin(), additions.members.end());
  const Analysis analysis(std::move(f), cases);
  Response r = analysis.solve(combination);
  if (r.mechanism) return r;
  const auto first = static_cast<std::ptrdiff_t>(frame.supports.size());
  r.added_supports.assign(r.supports.begin() + first, r.supports.end());
  r.supports.resize(frame.supports.size());
  std::vector<int> members;
  for (std::size_t m = frame.members.size(); m < analysis.frame().members.size(); ++m) {
    members.push_back(static_cast<int>(m));
  }
  r.added_members = analysis.member_forces(r, combination, members);
  return r;
}

}  // namespace

Response Analysis::solve(std::span<const CaseFactor> combination,
                         std::span<const SupportChange> changes, const Additions& additions) const {
  validate(impl_->responses.cases(), combination);
  validate(frame(), changes);
  validate(frame(), additions);
  Question question(impl_->responses, combination, changes, additions);
  if (!additions.empty() && question.beyond_factored()) {
    return built_anew(frame(), cases(), combination, changes, additions);
  }
  return question.answer();
}

namespace {

/// One member of one response.
struct Inside {
  EndForces ends;
  SpanLoads loads;
};

void look_inside(const Responses& responses, const Response& response,
                 std::span<const CaseFactor> combination, int member, Inside& out) {
  const Structure& structure = responses.structure();
  if (member < 0 || at(member) >= structure.frame().members.size()) {
    throw InvalidFrame("member forces were asked of a member that does not exist");
  }
  if (response.mechanism || response.displacements.size() != structure.frame().nodes.size()) {
    throw InvalidFrame("member forces were asked of a response that has no displacements");
  }
  const Member& m = structure.frame().members[at(member)];
  const Displacement& i = response.displacements[at(m.i)];
  const Displacement& j = response.displacements[at(m.j)];
  LoadEffect effect;
  out.loads.line.clear();
  out.loads.point.clear();
  for (const CaseFactor& c : combination) {
    responses.loads()[at(c.load_case)].add(member, c.factor, effect, &out.loads);
  }
  out.ends =
      end_forces(structure.elements()[at(member)], {i.w, i.tx, i.ty, j.w, j.tx, j.ty}, effect);
}

}  // namespace

std::vector<MemberForces> Analysis::member_forces(const Response& response,
                                                  std::span<const CaseFactor> combination,
                                                  std::span<const int> members) const {
  validate(impl_->responses.cases(), combination);
  std::vector<MemberForces> out;
  out.reserve(members.size());
  Inside in;
  for (const int m : members) {
    look_inside(impl_->responses, response, combination, m, in);
    const Extremes e =
        extremes(impl_->responses.structure().elements()[at(m)].L, in.ends, in.loads);
    out.push_back({in.ends.Mi, in.ends.Mj, in.ends.Vi, in.ends.Vj, in.ends.T, e.M, e.V});
  }
  return out;
}

Analysis::Section Analysis::section(const Response& response,
                                    std::span<const CaseFactor> combination, int member,
                                    double where) const {
  validate(impl_->responses.cases(), combination);
  Inside in;
  look_inside(impl_->responses, response, combination, member, in);
  const double L = impl_->responses.structure().elements()[at(member)].L;
  if (!(where >= -1e-9 * L && where <= L * (1.0 + 1e-9))) {
    throw InvalidFrame("a section was asked for outside the member");
  }
  const SectionForces s = section_forces(in.ends, in.loads, std::clamp(where, 0.0, L));
  return {s.M, s.V};
}

double Analysis::deflection(const Response& response, std::span<const CaseFactor> combination,
                            int member, double where) const {
  validate(impl_->responses.cases(), combination);
  Inside in;
  look_inside(impl_->responses, response, combination, member, in);
  const BeamElement& b = impl_->responses.structure().elements()[at(member)];
  if (!(where >= -1e-9 * b.L && where <= b.L * (1.0 + 1e-9))) {
    throw InvalidFrame("a deflection was asked for outside the member");
  }
  const Member& m = frame().members[at(member)];
  return deflection_at(b, response.displacements[at(m.i)].w, response.displacements[at(m.j)].w,
                       in.ends, in.loads, std::clamp(where, 0.0, b.L));
}

}  // namespace underprop::solver

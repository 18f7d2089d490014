#include "figures.hpp"
#include "sway.hpp"

#include "catalog/table.hpp"
#include "underprop/base/format.hpp"
#include "underprop/base/geometry.hpp"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <cmath>
#include <limits>

namespace underprop::assessment {

namespace plane = solver::plane;
using standards::Check;

namespace {}  // namespace

void Sway::check_beam(Evaluation& e, const SwayFrame& frame, const FrameModel& m,
                      const plane::Answer& a) const {
  if (std::none_of(frame.braces.begin(), frame.braces.end(),
                   [](const PlacedBrace& b) { return b.knee || b.high_post < 0; }))
    return;  // no brace bends the beam
  double M = 0.0;
  for (const int member : m.beam)
    M = std::max(M, a.members[static_cast<std::size_t>(member)].M_largest);
  standards::BendingDemand demand;
  demand.ends_held = true;
  demand.edge_held = true;
  demand.moment = Moment(M);
  std::string id;
  if (frame.under_bearer) {
    const deck::Bearer& b = deck_.bearers[frame.beam];
    demand.timber = timbers_.bearers[frame.beam];
    demand.breadth = b.ply_breadth * static_cast<double>(b.plies);
    demand.depth = b.depth - b.softened;
    id = b.id;
  } else {
    const deck::Joist& j = deck_.joists[frame.beam];
    demand.timber = timbers_.joists[frame.beam];
    demand.breadth = j.breadth;
    demand.depth = j.depth - j.softened;
    id = j.id;
  }
  const double used = worst_found(loads_.found, id, "bending");
  if (used > 1.0) return;  // fails by itself, under its own name
  Check check = standard_.bending(demand, now_);
  check.steps.push_back({"u_0", "the same beam's worst bending without the push", used, "", {}});
  check.utilisation += used;
  e.ratios.push_back({"bending of " + id + " by its braces, with its own", std::move(check)});
}

bool Sway::runs_through(const SwayFrame& frame, double from, double over) const {
  if (!frame.under_bearer) {
    const deck::Joist& joist = deck_.joists[frame.beam];
    return frame.beam_bends && joist.continuous_recorded &&
           joist.over_bearers == record::OverBearers::continuous;
  }
  const double same = figure("line_of_posts_mm");
  const double low = std::min(from, over) - same, high = std::max(from, over) + same;
  const auto& splices = deck_.bearers[frame.beam].splices;
  return std::none_of(splices.begin(), splices.end(), [&](Length splice) {
    return splice.value() >= low && splice.value() <= high;
  });
}

double Sway::held_by_footing(std::size_t support, double holding) const {
  const deck::Support& s = deck_.supports[support];
  const deck::Footing& f = s.footing;
  // Nothing is known of how a pile resists being pulled.
  if (!s.post || s.post->held_down == record::FootHeld::nothing || !s.post->hold_down_capacity ||
      f.kind == record::FootingKind::screw_pile)
    return 0.0;
  standards::HoldDownDemand demand;
  demand.kind = standards::HoldDownKind::strapped;
  demand.stated_capacity = s.post->hold_down_capacity;
  demand.joist = demand.bearer = *timbers_.posts[support];
  demand.uplift = newtons(1.0);
  const double u = standard_.hold_down(demand, now_).utilisation;
  const double stated = u > 0.0 && std::isfinite(u) ? 1.0 / u : 0.0;
  // kN/m3 are 1e-6 N/mm3.
  const double weighs =
      figure("footing_kN_m3") * 1e-6 * f.width.value() * f.length.value() * f.thickness.value();
  return std::min(stated, holding * weighs);
}

void Sway::check_uplift(Evaluation& e, const SwayFrame& frame, const FrameModel& m, double share,
                        int sense, Axis push, const Push& whole) const {
  // What pulls: people who push, or 2.5 % of what is there without the water; what holds: the deck's
  // weight and part of the people who push.
  double without_contents = loads_.vertical.value() + self_weight_;
  for (const deck::Load& load : deck_.loads) without_contents -= weight(load.contents).value();
  const double above = whole.above *
                       std::max(people_push_, without_contents * values_.sway_share_of_vertical) /
                       push_;
  const double H = share * (above + whole.at_tops * without_contents / vertical_) / whole.whole();
  std::vector<plane::Load> loads;
  const double n = static_cast<double>(m.tops.size());
  for (const int top : m.tops) loads.push_back({top, sense * H / n, 0.0, 0.0});
  const plane::Answer a = plane::solve(m.frame, loads, plane::Order::first);
  if (a.mechanism) return;
  const auto uplift = standard_.combinations(standards::Purpose::uplift, {});
  const double holding = at(uplift.front().factors, loads::Nature::self_weight);
  for (std::size_t p = 0; p < frame.posts.size(); ++p) {
    const std::size_t s = frame.posts[p];
    const double pull = -a.reactions[p].Fz - couple_on(s, push, sense * above);
    if (!(pull > 0.0)) continue;
    // Lifting a foot turns the beam about the second support from there: where it runs through over the
    // first, half of that one's share helps.
    double over = tributary_[s];
    for (const int step : {-1, 1}) {
      const auto next = static_cast<std::ptrdiff_t>(p) + step, beyond = next + step;
      if (beyond < 0 || beyond >= static_cast<std::ptrdiff_t>(frame.posts.size())) continue;
      if (!runs_through(frame, frame.x[p], frame.x[static_cast<std::size_t>(next)])) continue;
      over += 0.5 * tributary_[frame.posts[static_cast<std::size_t>(next)]];
    }
    const double below = held_by_footing(s, holding);
    const double R =
        over * (holding * self_weight_ + figure("uplift_people_share") * loads_.people.value()) +
        below;
    Check check;
    check.demand = in_unit(pull);
    check.resistance = in_unit(R);
    check.unit = unit();
    check.utilisation = R > 0.0 ? pull / R : infinite;
    check.source = {"judgement",
                    "a foot must not lift; water never counts, its footing no more than the stated "
                    "resistance of what holds it down"};
    check.steps = {{"T", "pull at its foot by the push", check.demand, unit(), frame_source},
                   {"T_R",
                    "what stands over it, of " + format_decimals(holding, 2) + " G and " +
                        format_decimals(figure("uplift_people_share"), 2) + " of the people",
                    in_unit(R - below), unit(), check.source},
                   {"R_f",
                    "what it is fixed down to: the footing's weight x " +
                        format_decimals(holding, 2) + " or the stated resistance, the less",
                    in_unit(below), unit(), check.source}};
    e.ratios.push_back({"uplift of the foot of " + deck_.supports[s].id, std::move(check)});
  }
}

void Sway::check_frame(Evaluation& e, const SwayFrame& frame, Axis push, double share,
                       const Push& whole) const {
  // `share`: of the push, N; `whole`: the push.
  double leaning = 0.0, own = 0.0;
  for (std::size_t s = 0; s < deck_.supports.size(); ++s) {
    if (height(s) > 1.0) leaning += factored(s) / height(s);
  }
  for (const SwayFrame& other : frames_[index(push)]) {
    if (other.braces.empty() && !other.fixed) continue;
    for (const std::size_t s : other.posts) own += factored(s) / height(s);
  }
  const double h = height(frame.posts.front());
  const double P_leaning = std::min(1.0, share / whole.whole()) * std::max(0.0, leaning - own) * h;
  Check critical;
  critical.demand = figure("critical_load_factor");
  critical.resistance = infinite;
  for (const int sense : {1, -1}) {
    const FrameModel m = frame_model(frame, deck_, timbers_, standard_,
                                     frame.tension_only ? sense : 0, P_leaning > 0.0 ? h : 0.0);
    std::vector<plane::Load> loads;
    const double n = static_cast<double>(m.tops.size());
    for (std::size_t p = 0; p < m.tops.size(); ++p) {
      const double P =
          factored(frame.posts[p]) + couple_on(frame.posts[p], push, sense * whole.above);
      loads.push_back({m.tops[p], sense * share / n, -std::max(0.0, P), 0.0});
    }
    if (m.leaning >= 0) loads.push_back({m.leaning, 0.0, -P_leaning, 0.0});
    const plane::Critical c = plane::critical_factor(m.frame, loads);
    critical.resistance = std::min(critical.resistance, c.mechanism ? 0.0 : c.factor);
    const plane::Answer a = plane::solve(m.frame, loads, plane::Order::second);
    if (a.mechanism || a.unstable) continue;  // the critical factor says so
    for (const auto& [b, member] : m.bars) {
      const PlacedBrace& placed = frame.braces[static_cast<std::size_t>(b)];
      const record::Brace& record = deck_.braces[placed.record];
      const double N = a.members[static_cast<std::size_t>(member)].N;
      Check bolts = placed.bolt;
      bolts.demand = in_unit(std::abs(N));
      bolts.resistance = in_unit(placed.capacity);
      bolts.unit = unit();
      bolts.utilisation = std::abs(N) / placed.capacity;
      bolts.steps.push_back(
          {"N", "force of the brace, second order", in_unit(N), unit(), frame_source});
      bolts.steps.push_back({"n R", format_decimals(record.bolts, 0) + " x resistance of one bolt",
                             bolts.resistance, unit(), bolts.source});
      e.ratios.push_back({"bolts of the brace at " + record.at, std::move(bolts)});
      if (N < 0.0 && !(frame.tension_only && !placed.knee)) {
        standards::ColumnDemand demand;
        demand.timber = brace_timber(timbers_);
        demand.breadth = min(record.breadth, record.depth);
        demand.depth = max(record.breadth, record.depth);
        demand.height =
            mm(std::hypot(placed.x_high - frame.x[placed.low_post], placed.z_high - placed.z_low));
        demand.axial = newtons(-N);
        e.ratios.push_back(
            {"buckling of the brace at " + record.at, standard_.column(demand, now_)});
      }
    }
    for (std::size_t p = 0; p < frame.posts.size(); ++p) {
      const std::size_t s = frame.posts[p];
      const deck::Post& post = *deck_.supports[s].post;
      double N = 0.0, M = 0.0;
      for (const int member : m.posts[p]) {
        const plane::MemberForces& f = a.members[static_cast<std::size_t>(member)];
        N = std::max(N, -f.N);
        M = std::max(M, f.M_largest);
      }
      const double off = post.lean.value() + (frame.under_bearer ? 0.0 : beside_by(deck_, s));
      standards::ColumnDemand demand;
      demand.timber = *timbers_.posts[s];
      demand.breadth = min(post.breadth, post.depth);
      demand.depth = max(post.breadth, post.depth);
      demand.height = post.height;
      demand.axial = newtons(N);
      demand.moment = Moment(M + N * off);
      demand.base_fixed = post.base_fixed;
      demand.braced = !frame.braces.empty() || held_otherwise(push);
      Check check = standard_.column(demand, now_);
      check.steps.insert(check.steps.begin(),
                         {"M", "moment of the post by the push, second order, and its lean",
                          us_ ? in_pounds_force(Force(demand.moment.value() / 304.8))
                              : demand.moment.value() / 1e6,
                          us_ ? "lb ft" : "kNm", frame_source});
      e.ratios.push_back({"post " + deck_.supports[s].id + ", pressed and bent", std::move(check)});
    }
    check_beam(e, frame, m, a);
    const FrameModel alone =
        frame_model(frame, deck_, timbers_, standard_, frame.tension_only ? sense : 0, 0.0);
    check_uplift(e, frame, alone, share, sense, push, whole);
  }
  critical.utilisation =
      critical.resistance > 0.0 ? critical.demand / critical.resistance : infinite;
  critical.source = {"judgement", "critical load by eigenvalue, at least the stated factor"};
  critical.steps = {{"alpha_cr", "critical load of " + frame.name + " over its load",
                     std::isfinite(critical.resistance) ? critical.resistance : 1e9, "",
                     frame_source}};
  if (!std::isfinite(critical.resistance)) critical.resistance = 1e9;
  e.ratios.push_back({"critical load of " + frame.name, std::move(critical)});
}

}  // namespace underprop::assessment

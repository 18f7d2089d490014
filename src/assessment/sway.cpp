#include "sway.hpp"
#include "figures.hpp"

#include "catalog/table.hpp"
#include "underprop/base/format.hpp"
#include "underprop/base/geometry.hpp"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>

namespace underprop::assessment {

using standards::Check;

namespace {

constexpr double walls_stiffness = 1e6;  // N/mm: far above any frame of posts

const Citation statics{"judgement", "statics: the load's line leaves the line of its post"};

bool between_walls_by(const record::Brace& brace, Axis push) {
  return brace.kind == record::BraceKind::wall_contact && brace.direction == push &&
         brace.walls_on == record::WallsOn::both_sides && brace.from && brace.to;
}

}  // namespace

/// The strength combination with most of the people: they cause the sway.
standards::Combination swaying(const standards::Standard& standard) {
  const auto all = standard.combinations(standards::Purpose::strength, {});
  return *std::max_element(all.begin(), all.end(), [](const auto& a, const auto& b) {
    return at(a.factors, loads::Nature::imposed) < at(b.factors, loads::Nature::imposed);
  });
}

double worst_found(const std::vector<Finding>& found, const std::string& piece,
                   const std::string& check) {
  double u = 0.0;
  for (const Finding& f : found) {
    if (f.piece == piece && f.check.check == check && f.kind != Kind::service)
      u = std::max(u, f.check.utilisation);
  }
  return u;
}

Left left_beside(double u_v, double u_t, bool linear) {
  const double v = std::clamp(u_v, 0.0, 1.0), t = std::clamp(u_t, 0.0, 1.0);
  if (linear)
    return {std::sqrt(std::max(0.0, (1.0 - t) * (1.0 - t) - v * v)), std::max(0.0, 1.0 - v - t)};
  return {std::sqrt(std::max(0.0, 1.0 - v * v - t * t)), std::max(0.0, std::sqrt(1.0 - v * v) - t)};
}

namespace {

/// Pull over its resistance for each unit of the use down the wall, by the couple of the joists.
double pulled_by_couple(const deck::Deck& deck, const standards::Standard& standard,
                        const standards::Combination& now, standards::LedgerFixingDemand demand,
                        std::size_t l, double one, double pulled) {
  demand.shear = newtons(1.0);
  demand.pull = newtons(0.0);
  demand.couple_arm = ledger_arm(deck, l);
  if (!(demand.couple_arm.value() > 0.0)) return 0.0;
  demand.couple_lever = ledger_lever(deck.ledgers[l]);
  // Values tested with joists hung on the ledger hold the couple as well.
  if (!(standard.ledger_pull_off(demand, now).utilisation > 0.0)) return 0.0;
  return demand.couple_arm / demand.couple_lever * pulled / one;
}

}  // namespace

std::vector<HoldingLedger> holding_ledgers(const deck::Deck& deck, const Timbers& timbers,
                                           const standards::Standard& standard,
                                           const standards::Combination& now,
                                           const std::vector<Finding>& found,
                                           const std::map<std::string, std::vector<double>>& used) {
  std::vector<HoldingLedger> list;
  for (std::size_t l = 0; l < deck.ledgers.size(); ++l) {
    standards::LedgerFixingDemand demand = ledger_demand(deck, timbers, l);
    if (!standard.ledger_fixing_counts(demand)) continue;
    demand.shear = newtons(1.0);
    const double one = standard.ledger_fixing(demand, now).utilisation;
    const deck::Ledger& ledger = deck.ledgers[l];
    // Fixings that fail fail the deck by their own finding; what is left is the mean of what each has left,
    // and never nothing, so that what else is wrong can still be read.
    if (!(one > 0.0) || !std::isfinite(one)) continue;
    // Away from the house the fixings are pulled, not sheared.
    demand.shear = newtons(0.0);
    demand.pull = newtons(1.0);
    const double pulled = standard.ledger_pull_off(demand, now).utilisation;
    const bool holds = pulled > 0.0 && std::isfinite(pulled);
    const double u_t_by_u_v = pulled_by_couple(deck, standard, now, demand, l, one, pulled);
    const double down = worst_found(found, ledger.id, "ledger fixing");
    const bool fails = down > 1.0 || worst_found(found, ledger.id, "ledger fixing, pulled") > 1.0;
    HoldingLedger h;
    h.ledger = l;
    h.count = std::max(
        2.0, std::floor((ledger.to - ledger.from).value() / ledger.fixing_spacing.value()));
    // What is stated, down or out of the wall, is judged by adding the shares.
    const bool linear = demand.stated_capacity || demand.stated_pull_out;
    h.shares_add = linear || u_t_by_u_v > 0.0;
    const auto each = used.find(ledger.id);
    const std::vector<double> uses =
        each != used.end() ? each->second : std::vector<double>{std::min(0.99, down)};
    Left left;
    for (const double u_v : uses) {
      const Left one_has = left_beside(u_v, u_v > 0.0 ? u_v * u_t_by_u_v : 0.0, linear);
      left.shear += one_has.shear / static_cast<double>(uses.size());
      left.pull += one_has.pull / static_cast<double>(uses.size());
    }
    const double little = std::sqrt(1.0 - 0.99 * 0.99);
    if (fails) left = {std::max(left.shear, little), std::max(left.pull, little)};
    h.capacity = left.shear / one;
    if (!(h.capacity > 0.0)) continue;
    if (holds) h.pull_capacity = left.pull / pulled;
    h.k = figure("slip_for_strength") *
          standard.bolt_slip(ledger.fixing_diameter, timbers.ledgers[l]).value();
    double fixed = 0.0, ends = 0.0;
    for (const deck::Meeting& m : deck.meetings) {
      if (m.kind != deck::MeetingKind::joist_on_ledger || m.carrier != l) continue;
      const deck::EndHold& hold = deck::hold_of(deck, m);
      ends += 1.0;
      if (hold.sound && hold.held != record::Hold::free && hold.held != record::Hold::resting)
        fixed += 1.0;
    }
    h.away = h.pull_capacity > 0.0 && ends > 0.0 && 2.0 * fixed >= ends;
    list.push_back(h);
  }
  return list;
}

bool between_walls(const deck::Deck& deck, Axis push) {
  return std::any_of(deck.braces.begin(), deck.braces.end(),
                     [&](const record::Brace& brace) { return between_walls_by(brace, push); });
}

double beside_by(const deck::Deck& deck, std::size_t support) {
  const deck::Support& s = deck.supports[support];
  if (!s.post || s.post->bearer_on_top || s.bearer < 0) return 0.0;
  const deck::Bearer& bearer = deck.bearers[static_cast<std::size_t>(s.bearer)];
  const Length side = bearer.direction == Axis::x ? s.post->depth : s.post->breadth;
  return (side + bearer.ply_breadth * static_cast<double>(bearer.plies)).value() / 2.0;
}

Sway::Sway(const deck::Deck& deck, const Timbers& timbers, const standards::Standard& standard,
           const StabilityLoads& loads, CountedFrom from)
    : deck_(deck),
      timbers_(timbers),
      standard_(standard),
      loads_(loads),
      from_(from),
      now_(swaying(standard)),
      values_(standard.loads(deck.height)),
      us_(standard.us_customary()) {
  ledgers_ = holding_ledgers(deck, timbers, standard, now_, loads.found, loads.ledger_used);
  for (const Axis push : {Axis::x, Axis::y}) {
    auto& frames = frames_[index(push)];
    std::vector<std::string> told;
    frames = sway_frames(deck, timbers, standard, now_, push, from, told);
    for (const record::Brace& brace : deck.braces) {
      if (brace.kind == record::BraceKind::wall_contact && brace.direction == push &&
          brace.walls_on == record::WallsOn::one_side) {
        told.push_back("Contact with \"" + brace.at +
                       "\" is recorded on one side only: it holds a push towards it, none away "
                       "from it, and counts for nothing.");
      }
    }
    for (const std::string& words : told) nothing_because_[index(push)] += " " + words;
    notes.insert(notes.end(), told.begin(), told.end());
    for (const SwayFrame& frame : frames)
      stiffness_[index(push)].push_back(sway_stiffness(frame, deck, timbers, standard));
  }
  for (std::size_t s = 0; s < deck.supports.size(); ++s) {
    if (!standing(deck, s).loose_stack) continue;
    const std::string told = deck.supports[s].id + ": loose blocks or slabs stacked higher than " +
                             format_decimals(figure("stack_of_width"), 1) +
                             " times their width hold nothing sideways.";
    for (std::string& because : nothing_because_) because += " " + told;
    notes.push_back(told);
    break;
  }
  weigh();
  stiffness_in_plan();
}

void Sway::weigh() {
  const double area = underprop::area(deck_.outline).value();
  const double g = standard_gravity_N_per_kg * values_.wet_timber.value();
  self_weight_ = g * area * deck_.boards.thickness.value();
  for (const deck::Joist& j : deck_.joists)
    self_weight_ += g * (j.to - j.from).value() * (j.breadth * j.depth).value();
  for (const deck::Bearer& b : deck_.bearers)
    self_weight_ += g * (b.to - b.from).value() * b.plies * (b.ply_breadth * b.depth).value();
  const double vertical = vertical_ = loads_.vertical.value() + self_weight_;
  people_push_ = loads_.people.value() * values_.sway_share_of_people;
  push_ = std::max(vertical * values_.sway_share_of_vertical, people_push_);
  factor_ = *std::max_element(now_.factors.begin(), now_.factors.end());
  double on_load = 0.0, x = 0.0, y = 0.0, centre = 0.0;
  for (const deck::Load& load : deck_.loads) {
    const double W =
        weight(load.dry_mass + load.contents + static_cast<double>(load.people) * values_.person)
            .value();
    on_load += W;
    x += W * load.centre.x.value();
    y += W * load.centre.y.value();
    centre = std::max(centre, load.centre_of_mass_height.value());
  }
  const Point middle = centroid(deck_.outline);
  const double rest = std::max(vertical - on_load, 0.0);
  at_ = {mm((x + rest * middle.x.value()) / (on_load + rest)),
         mm((y + rest * middle.y.value()) / (on_load + rest))};
  double tallest = 0.0;
  for (std::size_t s = 0; s < deck_.supports.size(); ++s) tallest = std::max(tallest, height(s));
  lever_ = centre + std::max(0.0, deck_.height.value() - tallest);
  // Shares of the plan by the nearest support, on a grid that is alike in every mirror.
  tributary_.assign(deck_.supports.size(), 0.0);
  on_walls_.assign(deck_.walls.size(), 0.0);
  const Interval ex = extent(deck_.outline, Axis::x);
  const Interval ey = extent(deck_.outline, Axis::y);
  constexpr int n = 24;
  double cells = 0.0;
  for (int i = 0; i < n; ++i) {
    for (int j = 0; j < n; ++j) {
      const Point p{ex.low + (ex.high - ex.low) * ((i + 0.5) / n),
                    ey.low + (ey.high - ey.low) * ((j + 0.5) / n)};
      if (!contains(deck_.outline, p)) continue;
      cells += 1.0;
      double best = infinite;
      for (const deck::Ledger& l : deck_.ledgers) {
        best = std::min(best, distance_to_segment(p, at_along(l.direction, l.from, l.position),
                                                  at_along(l.direction, l.to, l.position))
                                  .value());
      }
      std::vector<std::size_t> nearest, walls;
      for (std::size_t w = 0; w < deck_.walls.size(); ++w) {
        const double d = distance_to_segment(p, deck_.walls[w].a, deck_.walls[w].b).value();
        if (d < best - 1e-3) {
          best = d;
          walls = {w};
        } else if (d < best + 1e-3) {
          walls.push_back(w);
        }
      }
      for (std::size_t s = 0; s < deck_.supports.size(); ++s) {
        const double d = distance(p, deck_.supports[s].at).value();
        if (d < best - 1e-3) {
          best = d;
          nearest = {s};
          walls.clear();
        } else if (d < best + 1e-3) {
          nearest.push_back(s);
        }
      }
      const double each =
          1.0 / static_cast<double>(std::max<std::size_t>(1, nearest.size() + walls.size()));
      for (const std::size_t s : nearest) tributary_[s] += each;
      for (const std::size_t w : walls) on_walls_[w] += each;
    }
  }
  for (double& share : tributary_) share = cells > 0.0 ? share / cells : 0.0;
  for (double& share : on_walls_) share = cells > 0.0 ? share / cells : 0.0;
}

void Sway::stiffness_in_plan() {
  K_.setZero();
  G_.setZero();
  const auto add = [&](Eigen::Matrix3d& M, Axis axis, Point p, double k) {
    Eigen::Vector3d d;
    const double x = (p.x - at_.x).value() / scale_, y = (p.y - at_.y).value() / scale_;
    if (axis == Axis::x) {
      d << 1.0, 0.0, -y;
    } else {
      d << 0.0, 1.0, x;
    }
    M += k * d * d.transpose();
  };
  for (const Axis push : {Axis::x, Axis::y}) {
    for (std::size_t k = 0; k < frames_[index(push)].size(); ++k) {
      add(K_, push, at_along(push, along(at_, push), mm(frames_[index(push)][k].across)),
          stiffness_[index(push)][k]);
    }
    // Walls hold what pushes between the ends of their contact; along its length one of the two
    // presses at each place, so that it also holds against turning, as two springs at L/sqrt(12).
    const Axis across = other(push);
    const Interval deck = extent(deck_.outline, across);
    std::vector<std::pair<Length, Length>> contacts;
    double low = infinite, high = -infinite;
    for (const record::Brace& brace : deck_.braces) {
      if (!between_walls_by(brace, push)) continue;
      contacts.emplace_back(max(*brace.from, deck.low), min(*brace.to, deck.high));
      low = std::min(low, contacts.back().first.value());
      high = std::max(high, contacts.back().second.value());
    }
    const double here = along(at_, across).value();
    walled_[index(push)] = here >= low && here <= high;
    if (!walled_[index(push)] && !contacts.empty()) {
      const std::string told = std::string("The walls that the deck stands between along ") +
                               (push == Axis::x ? "x" : "y") +
                               " touch it beside the push, and count for nothing.";
      nothing_because_[index(push)] += " " + told;
      notes.push_back(told);
    }
    if (!walled_[index(push)]) continue;
    for (const auto& [from, to] : contacts) {
      const Length middle = (from + to) / 2.0, off = (to - from) / std::sqrt(12.0);
      for (const double side : {-1.0, 1.0}) {
        add(K_, push, at_along(push, along(at_, push), middle + side * off), 0.5 * walls_stiffness);
      }
    }
  }
  for (const HoldingLedger& h : ledgers_) {
    const deck::Ledger& l = deck_.ledgers[h.ledger];
    const Length middle = (l.from + l.to) / 2.0, off = (l.to - l.from) / std::sqrt(12.0);
    add(K_, l.direction, at_along(l.direction, middle, l.position), h.count * h.k);
    if (!h.away) continue;
    for (const double side : {-1.0, 1.0}) {
      add(K_, other(l.direction), at_along(l.direction, middle + side * off, l.position),
          0.5 * h.count * h.k);
    }
  }
  for (std::size_t s = 0; s < deck_.supports.size(); ++s) {
    if (height(s) <= 1.0) continue;
    for (const Axis push : {Axis::x, Axis::y})
      add(G_, push, deck_.supports[s].at, factored(s) / height(s));
  }
}

double Sway::couple_on(std::size_t support, Axis push, double H) const {
  double sum = 0.0, mean = 0.0, count = 0.0;
  std::vector<double> places;
  for (const deck::Support& s : deck_.supports) places.push_back(along(s.at, push).value());
  for (const deck::Ledger& l : deck_.ledgers) {
    const bool across = l.direction != push;
    places.push_back((across ? l.position : l.from).value());
    places.push_back((across ? l.position : l.to).value());
  }
  for (const double p : places) {
    mean += p;
    count += 1.0;
  }
  mean /= count;
  for (const double p : places) sum += (p - mean) * (p - mean);
  if (!(sum > 0.0)) return 0.0;
  return H * lever_ * (along(deck_.supports[support].at, push).value() - mean) / sum;
}

std::vector<double> Sway::pushed_by_posts(Axis push, double covered,
                                          const std::vector<double>& N) const {
  std::vector<double> at_tops(deck_.supports.size(), 0.0);
  for (std::size_t s = 0; s < deck_.supports.size(); ++s) {
    const double h = height(s);
    if (h <= 1.0) continue;
    const deck::Post& post = *deck_.supports[s].post;
    double share = std::max(0.0, post.lean.value() / h - covered);
    // Beside its post a bearer stands off across itself. A fixed foot takes the moment; of a post set in
    // concrete it turns the concrete, from a lever as much longer.
    const deck::Footing& footing = deck_.supports[s].footing;
    const double lever =
        footing.kind == record::FootingKind::post_in_concrete ? h + footing.thickness.value() : h;
    const double e = beside_by(deck_, s);
    if (e > 0.0 && !post.base_fixed &&
        deck_.bearers[static_cast<std::size_t>(deck_.supports[s].bearer)].direction != push)
      share += e / lever;
    at_tops[s] = std::max(0.0, N[s]) * share;
  }
  return at_tops;
}

Evaluation Sway::evaluate(Axis push, double tested) const {
  // The share of the vertical load contains posts out of plumb by the standards' own allowance; the
  // push of people does not.
  const double by_people = factor_ * (tested > 0.0 ? tested : people_push_);
  const double by_vertical =
      tested > 0.0 ? 0.0 : factor_ * vertical_ * values_.sway_share_of_vertical;
  std::vector<double> N(deck_.supports.size(), 0.0);
  for (std::size_t s = 0; s < N.size(); ++s) N[s] = factored(s);
  const auto beside_people = pushed_by_posts(push, 0.0, N);
  const auto beside_vertical = pushed_by_posts(push, figure("out_of_plumb_in_push"), N);
  const auto sum = [](const std::vector<double>& list) {
    return std::accumulate(list.begin(), list.end(), 0.0);
  };
  Evaluation e = under(push, std::max(by_people, by_vertical), {});
  const bool people = by_people + sum(beside_people) >= by_vertical + sum(beside_vertical);
  const auto& beside = people ? beside_people : beside_vertical;
  if (!(sum(beside) > 0.0)) return safest(std::move(e), push, tested);
  // All lean one way, or none: the less may turn the deck more.
  Evaluation more = under(push, people ? by_people : by_vertical, beside);
  return safest(more.worst() >= e.worst() ? std::move(more) : std::move(e), push, tested);
}

Evaluation Sway::under(Axis push, double above, const std::vector<double>& at_tops) const {
  Evaluation e;
  const std::size_t d = index(push);
  const Push whole{above, std::accumulate(at_tops.begin(), at_tops.end(), 0.0)};
  const double H = whole.whole();
  if (whole.at_tops > 0.0) {
    e.steps.push_back(
        {"H_N",
         "from posts that lean and bearers beside posts, all one way: sum of N (lean + e) / h",
         in_unit(whole.at_tops), unit(), statics});
  }
  if (walled_[d]) {
    e.steps.push_back({"R",
                       "walls that the deck stands between (more than can be asked of them)",
                       in_unit(H),
                       unit(),
                       {}});
  }
  // A direction in which nothing is stiff, and the turning that goes with an eccentric push.
  double along = walled_[d] ? walls_stiffness : 0.0;
  for (const double k : stiffness_[d]) along += k;
  bool by_ledger = false;
  for (const HoldingLedger& h : ledgers_) {
    if (deck_.ledgers[h.ledger].direction == push || h.away) {
      along += h.count * h.k;
      by_ledger = true;
    }
  }
  if (!(along > 0.0)) {
    e.nothing = "nothing named resists: the supports are a mechanism." + nothing_because_[d];
    if (nothing_because_[d].empty()) e.nothing.pop_back();
    return e;
  }
  // Scaled so that translation and turning compare. The other direction's own translation may be
  // loose: it is then held for this question, and fails under its own name.
  Eigen::Matrix3d K = K_;
  const std::size_t o = 1 - d;
  const auto di = static_cast<Eigen::Index>(d), oi = static_cast<Eigen::Index>(o);
  const double most = K.diagonal().maxCoeff();
  if (!(K(oi, oi) > 1e-9 * most)) K(oi, oi) = most;
  const Eigen::SelfAdjointEigenSolver<Eigen::Matrix3d> spread(K);
  if (!(spread.eigenvalues()[0] > 1e-7 * spread.eigenvalues()[2])) {
    e.nothing = "what resists stands in one line: nothing keeps the deck from turning in plan";
    return e;
  }
  Eigen::Vector3d f = Eigen::Vector3d::Zero();
  f[di] = H;
  for (std::size_t s = 0; s < at_tops.size(); ++s) {
    const Point p = deck_.supports[s].at;
    const double arm = push == Axis::x ? -(p.y - at_.y).value() : (p.x - at_.x).value();
    f[2] += at_tops[s] * arm / scale_;
  }
  const Eigen::Vector3d u = K.ldlt().solve(f);
  const auto moved = [&](Axis axis, Point p) {
    return axis == Axis::x ? u[0] - u[2] * (p.y - at_.y).value() / scale_
                           : u[1] + u[2] * (p.x - at_.x).value() / scale_;
  };
  // The deck on its resisting lines, everything leaning: pi^2/12 covers the bow of fixed posts.
  constexpr double bow = 0.8224670334241132;
  const Eigen::GeneralizedSelfAdjointEigenSolver<Eigen::Matrix3d> sway(G_, K);
  const double largest = sway.eigenvalues()[2];
  Check plan;
  plan.demand = figure("critical_load_factor");
  plan.resistance = largest > 1e-12 ? std::min(1e9, bow / largest) : 1e9;
  plan.utilisation = plan.demand / plan.resistance;
  plan.source = {"judgement", "critical load by eigenvalue, at least the stated factor"};
  plan.steps = {{"alpha_cr",
                 "pi^2/12 x least eigenvalue of the deck on its resisting lines, turning included",
                 plan.resistance, "", frame_source}};
  e.ratios.push_back({"critical load of the whole deck", std::move(plan)});
  const double turned = std::abs(u[2]) / scale_;
  e.steps.push_back({"turn", "of the deck in plan under the push", 1000.0 * turned, "mrad", {}});
  // Frames across the push are turned along too.
  for (const Axis axis : {push, other(push)}) {
    const std::size_t a = index(axis);
    for (std::size_t k = 0; k < frames_[a].size(); ++k) {
      if (!(stiffness_[a][k] > 0.0)) continue;
      const SwayFrame& frame = frames_[a][k];
      const Point p = at_along(axis, underprop::along(at_, axis), mm(frame.across));
      const double share = stiffness_[a][k] * std::abs(moved(axis, p));
      // Walls hold the frames along the push; it can only turn those across it.
      if (share < 1e-6 * H || (axis == push && walled_[d])) continue;
      e.steps.push_back({"H_i",
                         "share of " + frame.name + (axis == push ? "" : ", across the push"),
                         in_unit(share), unit(), frame_source});
      if (axis == push) {
        check_frame(e, frame, push, share, whole);
      } else {
        // Its own direction decides how it stands; here only what turning adds to its braces.
        for (const PlacedBrace& placed : frame.braces) {
          const double l =
              std::hypot(placed.x_high - frame.x[placed.low_post], placed.z_high - placed.z_low);
          const double run = std::abs(placed.x_high - frame.x[placed.low_post]);
          const double active =
              frame.tension_only
                  ? std::max(1.0, std::floor(0.5 * static_cast<double>(frame.braces.size())))
                  : static_cast<double>(frame.braces.size());
          const double N = share * l / run / active;
          Check bolts = placed.bolt;
          bolts.demand = in_unit(N);
          bolts.resistance = in_unit(placed.capacity);
          bolts.unit = unit();
          bolts.utilisation = N / placed.capacity;
          e.ratios.push_back(
              {"bolts of the brace at " + deck_.braces[placed.record].at + ", by turning",
               std::move(bolts)});
        }
      }
    }
  }
  if (!by_ledger) return e;
  for (const HoldingLedger& h : ledgers_) {
    const deck::Ledger& l = deck_.ledgers[h.ledger];
    double sheared = 0.0, pulled = 0.0, greatest = -1.0;
    for (const Length end : {l.from, l.to}) {
      const Point p = at_along(l.direction, end, l.position);
      const double V = h.k * std::abs(moved(l.direction, p));
      const double T = h.away ? h.k * std::abs(moved(other(l.direction), p)) : 0.0;
      const double of_shear = V / h.capacity, of_pull = h.away ? T / h.pull_capacity : 0.0;
      const double used = h.shares_add ? of_shear + of_pull : std::hypot(of_shear, of_pull);
      if (used > greatest) {
        greatest = used;
        sheared = V;
        pulled = T;
      }
    }
    Check check;
    check.demand = check.utilisation = greatest;
    check.resistance = 1.0;
    check.source = {"judgement",
                    h.shares_add
                        ? "beside what it carries down and what that pulls out, never more than "
                          "pull and shear together leave"
                        : "pull and shear of one fixing add by squares, as EN 1995-1-1 8.7.3 adds "
                          "them, with what it carries down"};
    check.steps = {
        {"n", "fixings of ledger " + l.id, h.count, "", {}},
        {"V_i", "along the wall on the fixing at its end", in_unit(sheared), unit(), frame_source},
        {"R_i", "its resistance x the mean share left beside what each carries already",
         in_unit(h.capacity), unit(), check.source}};
    std::string squares = "sqrt((V_i / R_i)^2)";
    if (h.away) {
      check.steps.push_back({"T_i", "out of the wall on the fixing at its end", in_unit(pulled),
                             unit(), frame_source});
      check.steps.push_back({"R_ax,i", "its axial resistance x the mean share left, likewise",
                             in_unit(h.pull_capacity), unit(), check.source});
      squares =
          h.shares_add ? "V_i / R_i + T_i / R_ax,i" : "sqrt((V_i / R_i)^2 + (T_i / R_ax,i)^2)";
    }
    check.steps.push_back({"utilisation", squares, greatest, "", check.source, true});
    e.ratios.push_back({"fixings of ledger " + l.id, std::move(check)});
  }
  return e;
}

}  // namespace underprop::assessment

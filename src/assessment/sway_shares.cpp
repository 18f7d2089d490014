// A push shared among ductile lines by any distribution that is safe: static theorem of limit analysis.
#include "figures.hpp"
#include "sway.hpp"

#include "underprop/base/format.hpp"
#include "underprop/base/geometry.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace underprop::assessment {

using standards::Check;

namespace {

const Citation by_equilibrium{
    "statics", "static theorem: any shares in equilibrium and within every capacity are safe"};
const Citation by_weight{"statics",
                         "H = N b / (3 h): the resultant stays a sixth of the base within"};

}  // namespace

Sway::Case Sway::case_of(Axis push, bool people, double tested) const {
  Case c;
  const double crowd =
      factor_ * (tested > 0.0 ? tested / values_.sway_share_of_people : loads_.people.value());
  const double held = figure("stabilising_share") * self_weight_;
  // Water that stands there pushes with its share and stands on its supports meanwhile.
  double on_load = 0.0, told = 0.0;
  if (!people) {
    on_load = factor_ * std::max(0.0, vertical_ - self_weight_ - loads_.people.value());
    for (std::size_t s = 0; s < deck_.supports.size(); ++s) told += std::max(0.0, factored(s));
  }
  c.above = people ? factor_ * (tested > 0.0 ? tested : people_push_)
                   : factor_ * vertical_ * values_.sway_share_of_vertical;
  const double reach = told > 0.0 ? std::min(1.0, told / (factor_ * vertical_)) / told : 0.0;
  for (std::size_t s = 0; s < deck_.supports.size(); ++s) {
    c.on_supports.push_back(tributary_[s] * (held + crowd) +
                            on_load * reach * std::max(0.0, factored(s)));
  }
  for (const double share : on_walls_) c.on_walls.push_back(share * (held + crowd + on_load));
  c.at_tops = pushed_by_posts(push, people ? 0.0 : figure("out_of_plumb_in_push"), c.on_supports);
  return c;
}

double Sway::frame_holds(const SwayFrame& frame, Axis axis, double most, const Push& whole) const {
  const auto passes = [&](double share) {
    Evaluation e;
    check_frame(e, frame, axis, share, whole);
    return e.worst() <= 1.0;
  };
  if (passes(most)) return most;
  double low = 0.0, high = most;
  constexpr int halvings = 7;  // to 1 % of the push, from below
  for (int k = 0; k < halvings; ++k) {
    const double middle = 0.5 * (low + high);
    (passes(middle) ? low : high) = middle;
  }
  return low;
}

double Sway::withstands(const Case& c, Axis push, bool named,
                        std::vector<standards::Step>* steps) const {
  const Push whole{c.above, std::accumulate(c.at_tops.begin(), c.at_tops.end(), 0.0)};
  const double H = whole.whole();
  Point through = at_;
  if (H > 0.0) {
    Length across = c.above / H * along(at_, other(push));
    for (std::size_t s = 0; s < c.at_tops.size(); ++s)
      across += c.at_tops[s] / H * along(deck_.supports[s].at, other(push));
    through = at_along(push, along(at_, push), across);
  }
  std::vector<ResistingLine> lines;
  std::vector<bool> in_frame[2];
  double by_weight_alone = 0.0;
  for (const Axis axis : {Axis::x, Axis::y}) {
    std::vector<double> own(deck_.supports.size(), 0.0);
    for (std::size_t s = 0; s < own.size(); ++s) {
      // A foot that is proved fixed is judged with its post, below.
      if (deck_.supports[s].post && deck_.supports[s].post->base_fixed) continue;
      own[s] = holds_by_itself(standing(deck_, s), c.on_supports[s], axis);
    }
    if (named) {
      const std::size_t a = index(axis);
      for (std::size_t k = 0; k < frames_[a].size(); ++k) {
        const SwayFrame& frame = frames_[a][k];
        if (!(stiffness_[a][k] > 0.0) || !(H > 0.0)) continue;
        double rights = 0.0;
        for (const std::size_t s : frame.posts) rights += own[s];
        // Its posts bend by their braces or stand on their edges, not both.
        const double holds = frame_holds(frame, axis, H, whole);
        if (holds <= rights) continue;
        for (const std::size_t s : frame.posts) own[s] = 0.0;
        lines.push_back({axis, at_along(axis, along(at_, axis), mm(frame.across)), holds});
        if (steps != nullptr && axis == push) {
          steps->push_back({"H_i",
                            "what " + frame.name + " hold by every check of theirs, at most H",
                            in_unit(holds), unit(), frame_source});
        }
      }
    }
    for (std::size_t s = 0; s < own.size(); ++s) {
      lines.push_back({axis, deck_.supports[s].at, own[s]});
      if (axis == push) by_weight_alone += own[s];
    }
    for (std::size_t w = 0; w < deck_.walls.size(); ++w) {
      const deck::Wall& wall = deck_.walls[w];
      const double R = holds_by_itself(standing(deck_, wall), c.on_walls[w], axis);
      lines.push_back({axis, {(wall.a.x + wall.b.x) / 2.0, (wall.a.y + wall.b.y) / 2.0}, R});
      if (axis == push) by_weight_alone += R;
    }
    if (named && walled_[index(axis)])
      lines.push_back({axis, axis == push ? through : at_, 1e3 * std::max(1.0, H)});
  }
  if (steps != nullptr) {
    steps->push_back({"H_N,R",
                      "what stands on its own base rights itself against: sum of N b / (3 h)",
                      in_unit(by_weight_alone), unit(), by_weight});
  }
  if (!named || ledgers_.empty()) return largest_push(lines, push, through);
  // One fixing holds by shear along the wall and by pull away from it: a share of each, whichever is best.
  double best = 0.0;
  constexpr int parts = 10;
  for (int k = 0; k <= parts; ++k) {
    const double shear = static_cast<double>(k) / parts;
    std::vector<ResistingLine> all = lines;
    for (const HoldingLedger& h : ledgers_) {
      const deck::Ledger& l = deck_.ledgers[h.ledger];
      const double pull =
          h.shares_add ? 1.0 - shear : std::sqrt(std::max(0.0, 1.0 - shear * shear));
      const int n = static_cast<int>(h.count);
      for (int i = 0; i < n; ++i) {
        const Point at =
            at_along(l.direction, l.from + (i + 0.5) / n * (l.to - l.from), l.position);
        all.push_back({l.direction, at, (h.away ? shear : 1.0) * h.capacity});
        if (h.away) all.push_back({other(l.direction), at, pull * h.pull_capacity});
      }
    }
    best = std::max(best, largest_push(all, push, through));
  }
  return best;
}

void Sway::check_edge(Evaluation& e, const Case& c, Axis push, double used) const {
  std::optional<Ratio> worst;
  for (std::size_t s = 0; s < deck_.supports.size(); ++s) {
    const deck::Support& support = deck_.supports[s];
    if (!support.post || support.post->base_fixed || !(c.on_supports[s] > 0.0)) continue;
    const deck::Post& post = *support.post;
    const Length b = push == Axis::x ? post.breadth : post.depth;
    standards::ColumnDemand demand;
    demand.timber = *timbers_.posts[s];
    demand.breadth = min(post.breadth, post.depth);
    demand.depth = max(post.breadth, post.depth);
    demand.height = post.height;
    demand.axial = newtons(c.on_supports[s]);
    demand.moment = std::min(1.0, used) * demand.axial * (b / 3.0);
    demand.braced = true;
    Check check = standard_.column(demand, now_);
    if (!worst || check.utilisation > worst->check.utilisation)
      worst = Ratio{"post " + support.id + ", standing on the edge of its foot", std::move(check)};
  }
  if (worst) e.ratios.push_back(std::move(*worst));
}

double Sway::raised_by_load() const {
  double on_load = 0.0;
  for (const deck::Load& load : deck_.loads)
    on_load +=
        weight(load.dry_mass + load.contents + static_cast<double>(load.people) * values_.person)
            .value();
  const double rest = vertical_ - on_load;
  return rest > 0.0 ? on_load / rest : infinite;
}

Sway::Alone Sway::alone(Axis push) const {
  Alone worst;
  double centre = 0.0;
  for (const deck::Load& load : deck_.loads)
    centre = std::max(centre, load.centre_of_mass_height.value());
  for (const bool people : {true, false}) {
    const Case c = case_of(push, people, 0.0);
    const double all = std::accumulate(c.on_supports.begin(), c.on_supports.end(), 0.0);
    if (!(all > 0.0)) continue;
    const double leverage =
        people || !(deck_.height.value() > 0.0) ? 1.0 : 1.0 + centre / deck_.height.value();
    for (std::size_t s = 0; s < deck_.supports.size(); ++s) {
      Alone one;
      one.support = s;
      one.push = leverage * c.above * c.on_supports[s] / all + c.at_tops[s];
      one.holds = holds_by_itself(standing(deck_, s), c.on_supports[s], push);
      if (!(one.utilisation() > worst.utilisation() * (1.0 + 1e-9))) continue;
      one.steps = {
          {"N", "what stands on it meanwhile", in_unit(c.on_supports[s]), unit(), by_weight},
          {"H_1", "its share of the push, with the leverage of the load's height",
           in_unit(one.push), unit(), by_weight},
          {"H_R", "N b / (3 h), the least of its joints", in_unit(one.holds), unit(), by_weight}};
      worst = std::move(one);
    }
  }
  return worst;
}

Evaluation Sway::safest(Evaluation elastic, Axis push, double tested) const {
  std::vector<Case> cases{case_of(push, true, tested)};
  if (!(tested > 0.0)) cases.push_back(case_of(push, false, 0.0));
  const auto pushed = [](const Case& c) {
    return c.above + std::accumulate(c.at_tops.begin(), c.at_tops.end(), 0.0);
  };
  const auto used = [&](bool named, std::size_t* governing, std::vector<standards::Step>* steps) {
    double worst = 0.0;
    for (std::size_t k = 0; k < cases.size(); ++k) {
      const double H = pushed(cases[k]);
      std::vector<standards::Step> lines;
      const double R = withstands(cases[k], push, named, &lines);
      const double u = H <= 0.0 ? 0.0 : R > 0.0 ? H / R : infinite;
      if (u < worst || (k > 0 && u <= worst)) continue;
      worst = u;
      *governing = k;
      *steps = std::move(lines);
    }
    return worst;
  };
  const auto told = [&](const char* words, bool named, std::size_t governing, double u,
                        const Citation& source) {
    Check check;
    const double H = pushed(cases[governing]);
    check.demand = in_unit(H);
    check.resistance = in_unit(std::isfinite(u) && u > 0.0 ? H / u : 0.0);
    check.unit = unit();
    check.utilisation = u;
    check.source = source;
    check.steps.push_back({"H", "push, with what leans", check.demand, unit(), source});
    check.steps.push_back({"R", words, check.resistance, unit(), source});
    (void)named;
    return check;
  };
  std::size_t governing = 0;
  std::vector<standards::Step> lines;
  const double by_itself = used(false, &governing, &lines);
  const double by_stiffness = elastic.worst();
  Evaluation best = std::move(elastic);
  if (by_itself < by_stiffness) {
    Evaluation e;
    e.steps = lines;
    const std::string words =
        best.nothing.empty() ? "what stands on its own base rights itself"
                             : "nothing named resists; what stands on its own base rights itself";
    e.ratios.push_back({words, told("sum of N b / (3 h), no couple left", false, governing,
                                    by_itself, by_weight)});
    check_edge(e, cases[governing], push, by_itself);
    if (e.worst() < best.worst()) {
      // The deck on the lines that are named need not be stiff where its own weight rights it.
      if (by_itself <= 1.0 || !best.nothing.empty()) return e;
    }
  }
  if (!best.nothing.empty() || by_stiffness == 0.0) return best;
  const auto critical = std::ranges::find_if(
      best.ratios, [](const Ratio& r) { return r.words == "critical load of the whole deck"; });
  if (critical == best.ratios.end()) return best;
  const double together = used(true, &governing, &lines);
  if (std::max(together, critical->check.utilisation) >= by_stiffness) return best;
  Evaluation e;
  e.steps = lines;
  e.ratios.push_back({"shared so that every line keeps within its capacity",
                      told("largest push that all lines hold together", true, governing, together,
                           by_equilibrium)});
  e.ratios.push_back(*critical);
  return e;
}

}  // namespace underprop::assessment

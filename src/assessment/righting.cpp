#include "righting.hpp"

#include "figures.hpp"

#include <algorithm>
#include <cmath>

namespace underprop::assessment {

double righting_push(double N, double b, double h) { return N * b / (3.0 * h); }

namespace {

/// Underside of what the supports carry above the ground: the deck's surface less boards, joist, bearer.
double under_joists(const deck::Deck& deck) {
  double deepest = 0.0;
  for (const deck::Joist& joist : deck.joists) deepest = std::max(deepest, joist.depth.value());
  return deck.height.value() - deck.boards.thickness.value() - deepest;
}

double under_bearer(const deck::Deck& deck, const deck::Bearer& bearer) {
  const double above = bearer.flush ? 0.0 : bearer.depth.value();
  const double level = under_joists(deck) - above;
  return bearer.flush ? std::min(level, deck.height.value() - bearer.depth.value()) : level;
}

}  // namespace

Standing standing(const deck::Deck& deck, std::size_t s) {
  const deck::Support& support = deck.supports[s];
  const deck::Footing& footing = support.footing;
  const bool pile = footing.kind == record::FootingKind::screw_pile;
  const bool laid = footing.kind == record::FootingKind::laid_slab ||
                    footing.kind == record::FootingKind::deck_block;
  const bool in_concrete = footing.kind == record::FootingKind::post_in_concrete;
  Standing result;
  const double level =
      std::max(0.0, support.bearer >= 0
                        ? under_bearer(deck, deck.bearers[static_cast<std::size_t>(support.bearer)])
                        : under_joists(deck));
  result.head = support.post ? support.post->height.value() : level;
  const bool held = support.post && (support.post->base_fixed || in_concrete);
  if (support.post && !held) {
    result.joints.push_back({support.post->height.value(), support.post->breadth.value(),
                             support.post->depth.value(), 0.0});
  }
  if (pile) {
    // Its shaft in the ground is taken as a base of the shaft's width.
    const double shaft = figure("pile_shaft_mm");
    result.joints.push_back({std::max(level, result.head), shaft, shaft, 0.0});
    return result;
  }
  const double thick = footing.thickness.value();
  const double below = laid ? 0.0 : footing.depth.value();
  // A footing that stands out of the ground is as high as it is thick; one in the ground reaches down
  // from what stands on it.
  const double over_ground =
      support.post ? std::max(0.0, thick - below) : std::max(level, std::max(0.0, thick - below));
  const double h = support.post ? result.head + thick : over_ground + below;
  // kN/m3 are 1e-6 N/mm3.
  const double weighs = figure("stabilising_share") * figure("footing_kN_m3") * 1e-6 *
                        footing.width.value() * footing.length.value() * thick;
  const double least = std::min(footing.width.value(), footing.length.value());
  result.loose_stack = laid && over_ground > figure("stack_of_width") * least;
  result.joints.push_back({h, footing.width.value(), footing.length.value(), weighs});
  return result;
}

Standing standing(const deck::Deck& deck, const deck::Wall& wall) {
  Standing result;
  result.head = std::max(0.0, under_joists(deck));
  const bool along_x = abs(wall.a.y - wall.b.y) <= abs(wall.a.x - wall.b.x);
  const double t = wall.width.value();
  result.joints.push_back({result.head, along_x ? infinite : t, along_x ? t : infinite, 0.0});
  return result;
}

double holds_by_itself(const Standing& standing, double N, Axis push) {
  if (standing.loose_stack || !(N > 0.0)) return 0.0;
  double least = figure("friction") * N;
  for (const Joint& joint : standing.joints) {
    if (!(joint.height > 1.0)) continue;
    const double b = push == Axis::x ? joint.base_x : joint.base_y;
    if (std::isfinite(b)) least = std::min(least, righting_push(N + joint.weight, b, joint.height));
  }
  return least;
}

bool heads_linked(const deck::Deck& deck) {
  std::vector<bool> tied(deck.joists.size(), false);
  for (const deck::Meeting& m : deck.meetings) {
    if (m.kind != deck::MeetingKind::bearer_on_support &&
        m.kind != deck::MeetingKind::joist_on_support)
      tied[m.piece] = true;
  }
  for (std::size_t j = 0; j < deck.joists.size(); ++j) {
    const int group = deck.joists[j].group;
    const bool framed =
        std::ranges::any_of(deck.rims, [&](const deck::Rim& r) { return r.group == group; }) ||
        std::ranges::any_of(deck.blocking,
                            [&](const deck::Blocking& b) { return b.group == group; });
    if (!framed && !tied[j]) return false;
  }
  return true;
}

double largest_push(const std::vector<ResistingLine>& lines, Axis push, Point through) {
  struct Arm {
    double capacity, at;
  };
  std::vector<Arm> along, across;
  for (const ResistingLine& line : lines) {
    if (!(line.capacity > 0.0)) continue;
    if (line.axis == push) {
      along.push_back({line.capacity, (underprop::along(line.at, other(push)) -
                                       underprop::along(through, other(push)))
                                          .value()});
    } else {
      across.push_back({line.capacity, underprop::along(line.at, push).value()});
    }
  }
  // What the lines across take of a turn of 1, about the middle that costs least.
  double C = 0.0;
  if (!across.empty()) {
    std::ranges::sort(across, {}, &Arm::at);
    double half = 0.0, sum = 0.0;
    for (const Arm& arm : across) half += arm.capacity / 2.0;
    double middle = across.back().at;
    for (const Arm& arm : across) {
      sum += arm.capacity;
      if (sum >= half) {
        middle = arm.at;
        break;
      }
    }
    for (const Arm& arm : across) C += arm.capacity * std::abs(arm.at - middle);
  }
  const auto work = [&](double turn) {
    double W = std::abs(turn) * C;
    for (const Arm& arm : along) W += arm.capacity * std::abs(1.0 + turn * arm.at);
    return W;
  };
  double least = work(0.0);
  for (const Arm& arm : along) {
    if (std::abs(arm.at) > 1e-6) least = std::min(least, work(-1.0 / arm.at));
  }
  return least;
}

}  // namespace underprop::assessment

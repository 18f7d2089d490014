#include "crossing.hpp"

#include "underprop/base/geometry.hpp"
#include "underprop/record/facts.hpp"

namespace underprop::deck {

bool crosses(const Joist& joist, const Bearer& bearer) {
  const Length half = 0.5 * bearer.plies * bearer.ply_breadth;
  return bearer.direction != joist.direction && bearer.from - half <= joist.position &&
         joist.position <= bearer.to + half && joist.from - half <= bearer.position &&
         bearer.position <= joist.to + half;
}

bool carried_within(const Deck& deck, const Joist& joist, Length from, Length to) {
  const Length low = joist.from + from, high = joist.from + to;
  const auto hits = [&](Length u, Length half) { return low <= u + half && u - half <= high; };
  const Length reach = mm(record::resolving_rule("softening/fixing_reach").number);
  if (is_fastened(joist.start.held) && hits(joist.from, reach)) return true;
  if (is_fastened(joist.end.held) && hits(joist.to, reach)) return true;
  for (const Bearer& b : deck.bearers) {
    if (crosses(joist, b) && hits(b.position, 0.5 * b.plies * b.ply_breadth)) return true;
  }
  for (const Support& s : deck.supports) {
    if (s.joist < 0 || deck.joists[static_cast<std::size_t>(s.joist)].id != joist.id) continue;
    const Length footing = joist.direction == Axis::x ? s.footing.width : s.footing.length;
    if (hits(along(s.at, joist.direction), 0.5 * footing)) return true;
  }
  const Point a = at_along(joist.direction, low, joist.position);
  const Point b = at_along(joist.direction, high, joist.position);
  for (const Wall& w : deck.walls) {
    if (distance_between_segments(a, b, w.a, w.b) <= 0.5 * w.width) return true;
  }
  return false;
}

}  // namespace underprop::deck

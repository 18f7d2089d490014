// The map of places: where the centre of the load can stand.
#include "drawing.hpp"
#include "words.hpp"

#include <algorithm>
#include <cmath>

namespace underprop::report {

std::string placement_drawing(const deck::Deck& deck, const placement::Placement& placement,
                              double rotation_deg, const std::string& id, UnitSystem units) {
  const Box box = extent_of(deck);
  if (box.empty) return "";
  Svg svg(box, 720.0, 620.0, plan_margins());
  draw_patterns(svg, id);
  draw_ground(svg, deck, id);
  draw_pieces(svg, deck, [](const std::string&) { return Look{"old", ""}; });
  // A mark as large as the step between places, so that they tile the paper.
  double step = placement.step.value();
  for (const placement::Spot& a : placement.spots) {
    for (const placement::Spot& b : placement.spots) {
      if (a.rotation_deg != b.rotation_deg) continue;
      const double dx = std::abs((a.centre.x - b.centre.x).value());
      if (dx > 1.0 && a.centre.y == b.centre.y) step = std::min(step, std::max(dx, 20.0));
    }
    break;
  }
  const double half = std::max(0.5 * step * svg.scale(), 1.6);
  for (const placement::Spot& spot : placement.spots) {
    if (spot.rotation_deg != rotation_deg) continue;
    const double x = svg.x(spot.centre.x.value()), y = svg.y(spot.centre.y.value());
    if (spot.passes) {
      svg.rect(x - half, y - half, 2.0 * half, 2.0 * half, shade(spot.utilisation));
    } else {
      svg.circle(x, y, std::min(half, 1.4), "solid");
    }
  }
  draw_loads(svg, deck);
  const auto cross = [&](Point at, const char* word) {
    const double x = svg.x(at.x.value()), y = svg.y(at.y.value());
    svg.line(x - 6, y, x + 6, y, "mark");
    svg.line(x, y - 6, x, y + 6, "mark");
    svg.text(x + 8, y - 6, word, "halo");
  };
  const auto here = [&](const std::optional<placement::Spot>& spot) {
    return spot && spot->passes && spot->rotation_deg == rotation_deg;
  };
  if (here(placement.best)) cross(placement.best->centre, "best");
  if (here(placement.nearest_passing) && !placement.wanted.passes)
    cross(placement.nearest_passing->centre, "nearest");
  draw_dimensions(svg, deck, units, true);
  return svg.finish(
      id, "Places of the load's centre: squares where every check passes, dots where not");
}

}  // namespace underprop::report

// What the plan and the drawing of the works have in common.
#include "drawing.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>

namespace underprop::report {

using deck::Deck;

namespace {

constexpr double least_member_px = 3.5;

void strip(Svg& svg, Axis direction, double across, double from, double to, double breadth,
           const Look& look) {
  const double a = across - breadth / 2.0, b = across + breadth / 2.0;
  if (direction == Axis::y) {
    svg.plan_rect(a, from, b, to, look.css, look.extra, least_member_px);
  } else {
    svg.plan_rect(from, a, to, b, look.css, look.extra, least_member_px);
  }
}

void absences(Svg& svg, const deck::Piece& piece, Axis direction, double across, double from,
              double to, double breadth) {
  for (const deck::Stretch& stretch : piece.absent) {
    const double a = std::clamp(from + stretch.from.value(), from, to);
    const double b = std::clamp(from + stretch.to.value(), from, to);
    if (b > a) strip(svg, direction, across, a, b, breadth, {"absent", ""});
  }
}

/// Rims and blocking: pieces between neighbouring joists of a group.
void between_joists(Svg& svg, const Deck& deck, int group, double breadth, const Look& look,
                    const std::function<std::optional<double>(const deck::Joist&)>& along) {
  const deck::Joist* last = nullptr;
  for (const deck::Joist& joist : deck.joists) {
    if (joist.group != group || !along(joist)) continue;
    if (last && std::abs(*along(joist) - *along(*last)) < 1.0) {
      const Axis across = joist.direction == Axis::y ? Axis::x : Axis::y;
      strip(svg, across, *along(joist), last->position.value(), joist.position.value(), breadth,
            look);
    }
    last = &joist;
  }
}

void draw_boards(Svg& svg, const Deck& deck, const std::string& id) {
  const double pitch = (deck.boards.width + deck.boards.gap).value();
  const Box box = [&] {
    Box outline;
    for (const Point& p : deck.outline) outline.add(p);
    return outline;
  }();
  if (box.empty || !(pitch * svg.scale() > 2.5)) return;
  svg.raw("<g clip-path=\"url(#" + id + "-outline)\">\n");
  const bool along_x = deck.boards.direction == Axis::x;
  const double low = along_x ? box.min_y : box.min_x, high = along_x ? box.max_y : box.max_x;
  const int count = static_cast<int>(std::min((high - low) / pitch, 2000.0));
  for (int i = 1; i <= count; ++i) {
    const double at = low + i * pitch;
    if (along_x) {
      svg.line(svg.x(box.min_x), svg.y(at), svg.x(box.max_x), svg.y(at), "board");
    } else {
      svg.line(svg.x(at), svg.y(box.min_y), svg.x(at), svg.y(box.max_y), "board");
    }
  }
  svg.raw("</g>\n");
}

void draw_wall(Svg& svg, const deck::Wall& wall, const Look& look) {
  const double dx = (wall.b.x - wall.a.x).value(), dy = (wall.b.y - wall.a.y).value();
  const double length = std::hypot(dx, dy);
  if (!(length > 0.0)) return;
  const double half = std::max(wall.width.value(), 40.0) / 2.0;
  const Length nx = mm(-dy / length * half), ny = mm(dx / length * half);
  svg.polygon({{wall.a.x + nx, wall.a.y + ny},
               {wall.b.x + nx, wall.b.y + ny},
               {wall.b.x - nx, wall.b.y - ny},
               {wall.a.x - nx, wall.a.y - ny}},
              look.css == "u0" ? "wall" : look.css, look.extra);
}

void ground_lines(Svg& svg, const std::vector<deck::GroundLine>& lines, const char* kind) {
  for (const deck::GroundLine& line : lines) {
    const double end_x = svg.x(line.to.x.value()), end_y = svg.y(line.to.y.value());
    svg.line(svg.x(line.from.x.value()), svg.y(line.from.y.value()), end_x, end_y, "ground");
    // Named at its end, or at the paper's edge where it ends beyond it.
    svg.text(std::clamp(end_x, 90.0, svg.width() - 10.0) - 5,
             std::clamp(end_y, 24.0, svg.height() - 8.0) - 5, line.name.empty() ? kind : line.name,
             "small halo", "end");
  }
}

}  // namespace

Point on(Axis direction, Length across, Length along) {
  return direction == Axis::y ? Point{across, along} : Point{along, across};
}

Svg::Margins plan_margins() { return {100.0, 84.0, 52.0, 108.0}; }

Box extent_of(const Deck& deck) {
  Box box;
  for (const Point& p : deck.outline) box.add(p);
  for (const deck::Support& support : deck.supports) box.add(support.at);
  for (const deck::Load& load : deck.loads) {
    for (const Point& p : load.footprint) box.add(p);
  }
  for (const deck::Joist& joist : deck.joists) {
    box.add(on(joist.direction, joist.position, joist.from));
    box.add(on(joist.direction, joist.position, joist.to));
  }
  return box;
}

void draw_patterns(Svg& svg, const std::string& id) {
  svg.raw(fmt::format(
      "<defs>\n<pattern id=\"{0}-over\" width=\"5\" height=\"5\" patternUnits=\"userSpaceOnUse\" "
      "patternTransform=\"rotate(45)\"><rect width=\"5\" height=\"5\" fill=\"#fff\"/>"
      "<rect width=\"2.6\" height=\"5\" fill=\"#27346b\"/></pattern>\n"
      "<pattern id=\"{0}-zone\" width=\"9\" height=\"9\" patternUnits=\"userSpaceOnUse\" "
      "patternTransform=\"rotate(-45)\"><rect width=\"1\" height=\"9\" fill=\"#b9bfcb\"/>"
      "</pattern>\n</defs>\n",
      id));
}

void draw_ground(Svg& svg, const Deck& deck, const std::string& id) {
  std::string points;
  for (const Point& p : deck.outline) {
    points += (points.empty() ? "" : " ") + px(svg.x(p.x.value())) + "," + px(svg.y(p.y.value()));
  }
  // Lines on the ground may run far beyond the deck: cut at the paper's edge.
  svg.raw(
      fmt::format("<clipPath id=\"{}-paper\"><rect width=\"{}\" height=\"{}\"/></clipPath>\n"
                  "<g clip-path=\"url(#{}-paper)\">\n",
                  id, px(svg.width()), px(svg.height()), id));
  ground_lines(svg, deck.site.retaining_walls, "retaining wall");
  ground_lines(svg, deck.site.house_walls, "house wall");
  ground_lines(svg, deck.site.drains, "drain");
  ground_lines(svg, deck.site.ponds, "pond");
  svg.raw("</g>\n");
  svg.polygon(deck.outline, "outline");
  svg.raw("<clipPath id=\"" + id + "-outline\"><polygon points=\"" + points + "\"/></clipPath>\n");
  draw_boards(svg, deck, id);
  const std::string fill = fmt::format("fill=\"url(#{}-zone)\"", id);
  for (const auto* zones : {&deck.closed_zones, &deck.obstacles}) {
    for (const record::Zone& zone : *zones) {
      svg.polygon(zone.outline, "zone", fill);
      if (zone.outline.empty()) continue;
      Box around;
      for (const Point& p : zone.outline) around.add(p);
      svg.text(svg.x((around.min_x + around.max_x) / 2),
               svg.y((around.min_y + around.max_y) / 2) + 4, zone.name, "small halo", "middle");
    }
  }
}

void draw_pieces(Svg& svg, const Deck& deck, const Looks& looks) {
  for (const deck::Wall& wall : deck.walls) draw_wall(svg, wall, looks(wall.id));
  for (const deck::Support& support : deck.supports) {
    const double w = support.footing.width.value() / 2, l = support.footing.length.value() / 2;
    const double x = support.at.x.value(), y = support.at.y.value();
    const Look look = looks(support.id);
    svg.plan_rect(x - w, y - l, x + w, y + l, look.css, look.extra, 8.0);
  }
  for (const deck::Blocking& row : deck.blocking) {
    between_joists(svg, deck, row.group, 40.0, looks(row.id),
                   [&](const deck::Joist& joist) -> std::optional<double> {
                     if (row.position < joist.from || joist.to < row.position) return std::nullopt;
                     return row.position.value();
                   });
  }
  for (const deck::Bearer& bearer : deck.bearers) {
    const double breadth = bearer.plies * bearer.ply_breadth.value();
    strip(svg, bearer.direction, bearer.position.value(), bearer.from.value(), bearer.to.value(),
          breadth, looks(bearer.id));
    absences(svg, bearer, bearer.direction, bearer.position.value(), bearer.from.value(),
             bearer.to.value(), breadth);
  }
  for (const deck::Ledger& ledger : deck.ledgers) {
    strip(svg, ledger.direction, ledger.position.value(), ledger.from.value(), ledger.to.value(),
          ledger.breadth.value(), looks(ledger.id));
  }
  for (const deck::Rim& rim : deck.rims) {
    between_joists(svg, deck, rim.group, rim.breadth.value(), looks(rim.id),
                   [&](const deck::Joist& joist) -> std::optional<double> {
                     return (rim.at_start ? joist.from : joist.to).value();
                   });
  }
  for (const deck::Joist& joist : deck.joists) {
    const Look look = looks(joist.id);
    double beside = joist.position.value() + joist.breadth.value() / 2.0;
    for (const deck::Sister& sister : joist.sisters) {
      const double b = sister.breadth.value();
      strip(svg, joist.direction, beside + b / 2.0, joist.from.value(), joist.to.value(), b, look);
      beside += b;
    }
    strip(svg, joist.direction, joist.position.value(), joist.from.value(), joist.to.value(),
          joist.breadth.value(), look);
    absences(svg, joist, joist.direction, joist.position.value(), joist.from.value(),
             joist.to.value(), joist.breadth.value());
  }
}

void draw_loads(Svg& svg, const Deck& deck) {
  for (const deck::Load& load : deck.loads) {
    svg.polygon(load.footprint, "load");
    for (const auto& patch : load.patches) svg.polygon(patch, "patch");
    const double x = svg.x(load.centre.x.value()), y = svg.y(load.centre.y.value());
    svg.line(x - 6, y, x + 6, y, "axis");
    svg.line(x, y - 6, x, y + 6, "axis");
    svg.text(x, y - 11, load.name, "halo", "middle");
  }
}

void draw_dimensions(Svg& svg, const Deck& deck, UnitSystem units, bool loads) {
  Box box;
  for (const Point& p : deck.outline) box.add(p);
  if (box.empty) return;
  const double below = svg.bottom(), left = svg.x(box.min_x);
  if (loads && !deck.loads.empty()) {
    const Point centre = deck.loads.front().centre;
    svg.dimension_x(0.0, centre.x.value(), below + 32, format_length(centre.x, units));
    svg.dimension_y(0.0, centre.y.value(), left - 34, format_length(centre.y, units));
  }
  svg.dimension_x(box.min_x, box.max_x, below + 58,
                  format_length(mm(box.max_x - box.min_x), units));
  svg.dimension_y(box.min_y, box.max_y, left - 62, format_length(mm(box.max_y - box.min_y), units));

  const double ax = svg.x(0.0), ay = svg.y(0.0);
  svg.arrow(ax, ay, ax + 40, ay);
  svg.arrow(ax, ay, ax, ay - 40);
  svg.text(ax + 42, ay + 14, "x", "small halo", "middle");
  svg.text(ax - 9, ay - 40, "y", "small halo", "middle");
  svg.circle(ax, ay, 4, "solid");
  svg.text(ax - 13, ay + 15, "A", "halo", "middle");

  const bool metric = units == UnitSystem::metric;
  const double bar = (metric ? 1000.0 : 4.0 * 304.8) * svg.scale();
  const double end = svg.width() - 14.0, at = svg.height() - 12.0;
  svg.rect(end - bar, at - 4, bar / 2, 4, "solid");
  svg.rect(end - bar / 2, at - 4, bar / 2, 4, "outline");
  svg.text(end - bar, at - 9, "0", "small", "middle");
  svg.text(end, at - 9, metric ? "1 m" : "4 ft", "small", "end");
}

}  // namespace underprop::report

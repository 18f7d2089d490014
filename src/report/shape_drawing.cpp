#include "drawing.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace underprop::report {

using assessment::Shape;

namespace {

struct Panel {
  std::string name;
  bool along_x = false;
  std::vector<const Shape*> shapes;
};

bool runs_along_x(const Shape& shape) {
  const Point a = shape.at.front(), b = shape.at.back();
  return std::abs((b.x - a.x).value()) >= std::abs((b.y - a.y).value());
}

double coordinate(Point p, bool along_x) { return (along_x ? p.x : p.y).value(); }

std::string kind_of(const deck::Deck& deck, const std::string& piece) {
  for (const deck::Joist& joist : deck.joists) {
    if (joist.id == piece) return "Joists";
  }
  for (const deck::Bearer& bearer : deck.bearers) {
    if (bearer.id == piece) return "Bearers";
  }
  return "Other pieces";
}

std::vector<Panel> panels_of(const deck::Deck& deck, const std::vector<Shape>& shapes) {
  std::vector<Panel> panels;
  for (const Shape& shape : shapes) {
    if (shape.at.size() < 2 || shape.at.size() != shape.w_mm.size()) continue;
    const bool along_x = runs_along_x(shape);
    const std::string name = kind_of(deck, shape.piece);
    auto panel = std::find_if(panels.begin(), panels.end(), [&](const Panel& p) {
      return p.name == name && p.along_x == along_x;
    });
    if (panel == panels.end()) panel = panels.insert(panels.end(), {name, along_x, {}});
    panel->shapes.push_back(&shape);
  }
  return panels;
}

std::string exaggeration(double factor) {
  return factor >= 10.0 ? format_significant(factor, 2) : format_significant(factor, 1);
}

}  // namespace

std::string shape_drawing(const deck::Deck& deck, const std::vector<Shape>& shapes,
                          UnitSystem units) {
  constexpr double width = 900.0, left = 20.0, right = 120.0, depth = 84.0;
  std::string out;
  int number = 0;
  for (const Panel& panel : panels_of(deck, shapes)) {
    Box box;
    double deepest = 0.0;
    const Shape* worst = panel.shapes.front();
    std::size_t worst_at = 0;
    for (const Shape* shape : panel.shapes) {
      for (std::size_t i = 0; i < shape->at.size(); ++i) {
        box.add(coordinate(shape->at[i], panel.along_x), 0.0);
        if (std::isfinite(shape->w_mm[i]) && std::abs(shape->w_mm[i]) > deepest) {
          deepest = std::abs(shape->w_mm[i]);
          worst = shape;
          worst_at = i;
        }
      }
    }
    if (box.empty || !(deepest > 0.0)) continue;
    // The vertical scale is chosen by us: the box is one line at height 0.
    Svg svg(box, width, 200.0, {left, right, 34.0, depth + 26.0});
    const double per_mm = depth / deepest;
    const double zero = svg.y(0.0);
    svg.line(svg.x(box.min_x), zero, svg.x(box.max_x), zero, "base");
    const auto draw = [&](const Shape& shape, const char* css) {
      std::string d;
      for (std::size_t i = 0; i < shape.at.size(); ++i) {
        d += (i == 0 ? "M" : "L") + px(svg.x(coordinate(shape.at[i], panel.along_x))) + " " +
             px(zero + shape.w_mm[i] * per_mm);
      }
      svg.path(d, css);
    };
    for (const Shape* shape : panel.shapes) {
      if (shape != worst) draw(*shape, "sag");
    }
    draw(*worst, "sagworst");
    const double x = svg.x(coordinate(worst->at[worst_at], panel.along_x));
    const double tip = zero + worst->w_mm[worst_at] * per_mm;
    svg.line(x, zero, x, tip, "dim");
    const std::string words = worst->piece + "  " + format_length(mm(worst->w_mm[worst_at]), units);
    svg.text(x, tip + (tip >= zero ? 16 : -7), words, "halo", "middle");
    svg.text(left, 14,
             fmt::format("{} along {}, {} of them; heights {} times those of the lengths",
                         panel.name, panel.along_x ? "x" : "y", panel.shapes.size(),
                         exaggeration(per_mm / svg.scale())),
             "");
    svg.text(svg.x(box.max_x) + 8, zero + 4, "no load", "small");
    out += svg.finish(
        fmt::format("shape{}", ++number),
        fmt::format("Deflected shape of the {} along {}. The largest movement is {} at {}.",
                    panel.name == "Joists"    ? "joists"
                    : panel.name == "Bearers" ? "bearers"
                                              : "pieces",
                    panel.along_x ? "x" : "y", format_length(mm(worst->w_mm[worst_at]), units),
                    worst->piece));
  }
  return out;
}

}  // namespace underprop::report

#include "drawing.hpp"
#include "words.hpp"

#include <fmt/format.h>

#include <cmath>
#include <utility>
#include <vector>

namespace underprop::report {

using deck::Deck;
using works::Measure;
using works::Work;

namespace {

class Sheet {
public:
  Sheet(Svg& svg, const Deck& before, const Deck& after)
      : svg_(svg), before_(before), after_(after) {}

  void draw(const Work& work) {
    switch (work.measure) {
      case Measure::pad:
      case Measure::bigger_pad:
        pads(work, "newpad");
        break;
      case Measure::sleeper:
      case Measure::bearer_on_pads:
        pads(work, "newpad");
        member(work, std::max((work.plies * work.breadth).value(),
                              work.breadth.value() > 0.0 ? 0.0 : work.pad_width.value()));
        break;
      case Measure::added_joist:
      case Measure::blocking:
        member(work, work.breadth.value());
        break;
      case Measure::sister:
        sisters(work);
        break;
      case Measure::pack:
      case Measure::hangers:
      case Measure::ledger_bolts:
        marks(work);
        break;
      case Measure::move_load:
        moved(work);
        break;
      case Measure::brace:
        brace(work);
        break;
    }
  }

  void tag(const Work& work, int number) {
    std::vector<Point> at = places(work);
    if (work.measure == Measure::move_load) at = {work.load_at};
    if (work.to > work.from) at = {on(work.direction, work.position, work.to)};
    if (at.empty()) return;
    const double off = 11.0 + 0.5 * work.pad_width.value() * svg_.scale();
    double x = svg_.x(at.front().x.value()) + off, y = svg_.y(at.front().y.value()) - 14.0;
    for (std::size_t tries = 0; tries < 60; ++tries) {
      bool free = true;
      for (const auto& [tx, ty] : tags_) free = free && std::hypot(tx - x, ty - y) >= 18.0;
      if (free) break;
      x += 18.0;
      if (x > svg_.width() - 12.0) {
        x = svg_.x(at.front().x.value()) - 14.0;
        y += 18.0;
      }
    }
    tags_.emplace_back(x, y);
    svg_.tag(x, y, number);
  }

private:
  [[nodiscard]] const deck::Joist* joist(const std::string& id) const {
    for (const deck::Joist& candidate : before_.joists) {
      if (candidate.id == id) return &candidate;
    }
    return nullptr;
  }

  /// Where the works of a piece are shown when they have no places of their own.
  [[nodiscard]] std::vector<Point> places(const Work& work) const {
    if (!work.places.empty()) return work.places;
    std::vector<Point> found;
    for (const std::string& id : work.pieces) {
      for (const deck::Support& support : before_.supports) {
        if (support.id == id) found.push_back(support.at);
      }
      if (const deck::Joist* held = joist(id)) {
        found.push_back(on(held->direction, held->position, 0.5 * (held->from + held->to)));
      }
      for (const deck::Bearer& bearer : before_.bearers) {
        if (bearer.id == id) {
          found.push_back(on(bearer.direction, bearer.position, 0.5 * (bearer.from + bearer.to)));
        }
      }
    }
    return found;
  }

  void pads(const Work& work, const char* css) {
    const double w = work.pad_width.value() / 2.0, l = work.pad_length.value() / 2.0;
    for (const Point& p : places(work)) {
      const double x = p.x.value(), y = p.y.value();
      svg_.plan_rect(x - w, y - l, x + w, y + l, css, "", 8.0);
    }
  }

  void member(const Work& work, double breadth) {
    if (!(work.to > work.from)) return;
    const double a = work.position.value() - breadth / 2.0, b = a + breadth;
    if (work.direction == Axis::y) {
      svg_.plan_rect(a, work.from.value(), b, work.to.value(), "new", "", 4.0);
    } else {
      svg_.plan_rect(work.from.value(), a, work.to.value(), b, "new", "", 4.0);
    }
  }

  void sisters(const Work& work) {
    for (const std::string& id : work.pieces) {
      const deck::Joist* held = joist(id);
      if (!held) continue;
      const double a = held->position.value() + held->breadth.value() / 2.0;
      const double b = a + work.breadth.value();
      if (held->direction == Axis::y) {
        svg_.plan_rect(a, held->from.value(), b, held->to.value(), "new", "", 4.0);
      } else {
        svg_.plan_rect(held->from.value(), a, held->to.value(), b, "new", "", 4.0);
      }
    }
  }

  void marks(const Work& work) {
    for (const Point& p : places(work)) {
      const double x = svg_.x(p.x.value()), y = svg_.y(p.y.value());
      if (work.measure == Measure::pack) {
        svg_.path(fmt::format("M{} {}l7 7l-7 7l-7 -7Z", px(x), px(y - 7)), "new");
      } else {
        svg_.path(fmt::format("M{} {}v12h14v-12", px(x - 7), px(y - 6)), "mark");
      }
    }
  }

  void moved(const Work& work) {
    const auto index = static_cast<std::size_t>(std::max(work.load, 0));
    if (index >= before_.loads.size() || index >= after_.loads.size()) return;
    svg_.polygon(before_.loads[index].footprint, "patch");
    const Point a = before_.loads[index].centre, b = after_.loads[index].centre;
    const double dx = svg_.x(b.x.value()) - svg_.x(a.x.value());
    const double dy = svg_.y(b.y.value()) - svg_.y(a.y.value());
    if (std::hypot(dx, dy) > 12.0) {
      svg_.arrow(svg_.x(a.x.value()), svg_.y(a.y.value()), svg_.x(b.x.value()),
                 svg_.y(b.y.value()));
    }
  }

  void brace(const Work& work) {
    for (const Point& p : places(work)) {
      const double x = svg_.x(p.x.value()), y = svg_.y(p.y.value());
      if (work.direction == Axis::x) {
        svg_.path(
            fmt::format("M{} {}l34 -8M{} {}l34 8", px(x - 17), px(y + 4), px(x - 17), px(y - 4)),
            "mark");
      } else {
        svg_.path(
            fmt::format("M{} {}l-8 34M{} {}l8 34", px(x + 4), px(y - 17), px(x - 4), px(y - 17)),
            "mark");
      }
    }
  }

  Svg& svg_;
  const Deck& before_;
  const Deck& after_;
  std::vector<std::pair<double, double>> tags_;
};

}  // namespace

std::string works_drawing(const Deck& before, const Deck& after, const std::vector<Work>& works,
                          UnitSystem units) {
  Box box = extent_of(before);
  const Box wider = extent_of(after);
  if (box.empty) return "";
  box.add(wider.min_x, wider.min_y);
  box.add(wider.max_x, wider.max_y);
  Svg svg(box, 900.0, 760.0, plan_margins());
  draw_patterns(svg, "works");
  draw_ground(svg, before, "works");
  draw_pieces(svg, before, [](const std::string&) { return Look{"old", ""}; });
  draw_loads(svg, after);
  Sheet sheet(svg, before, after);
  int number = 0;
  for (const Work& work : works) sheet.draw(work);
  for (const Work& work : works) sheet.tag(work, ++number);
  // Names of the pieces the works speak of, at their ends.
  for (const deck::Joist& joist : before.joists) {
    const Point end = on(joist.direction, joist.position, joist.to);
    const bool upright = joist.direction == Axis::y;
    svg.text(svg.x(end.x.value()) + (upright ? 0 : 6), svg.y(end.y.value()) + (upright ? -6 : 4),
             joist.id, "small halo", upright ? "middle" : "start");
  }
  for (const deck::Bearer& bearer : before.bearers) {
    const Point end = on(bearer.direction, bearer.position, bearer.to);
    const bool upright = bearer.direction == Axis::y;
    svg.text(svg.x(end.x.value()) + (upright ? 0 : 6), svg.y(end.y.value()) + (upright ? -6 : 4),
             bearer.id, "small halo", upright ? "middle" : "start");
  }
  draw_dimensions(svg, after, units, false);
  return svg.finish("works",
                    fmt::format("Plan of the deck with the works, numbered as in the list: "
                                "{} works.",
                                works.size()));
}

}  // namespace underprop::report

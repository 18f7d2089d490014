#include "underprop/base/geometry.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

namespace underprop {
namespace {

using std::numbers::pi;

// Twice the signed area of the triangle a, b, c.
double cross(Point a, Point b, Point c) {
  return (b.x - a.x).value() * (c.y - a.y).value() - (b.y - a.y).value() * (c.x - a.x).value();
}

bool segments_touch(Point a, Point b, Point c, Point d) {
  const auto sign = [](double v) { return (v > 0) - (v < 0); };
  const auto between = [](Point p, Point q, Point r) {  // r on the line pq: within the segment?
    return min(p.x, q.x) <= r.x && r.x <= max(p.x, q.x) && min(p.y, q.y) <= r.y &&
           r.y <= max(p.y, q.y);
  };
  const int s1 = sign(cross(a, b, c)), s2 = sign(cross(a, b, d));
  const int s3 = sign(cross(c, d, a)), s4 = sign(cross(c, d, b));
  if (s1 != s2 && s3 != s4) return true;
  return (s1 == 0 && between(a, b, c)) || (s2 == 0 && between(a, b, d)) ||
         (s3 == 0 && between(c, d, a)) || (s4 == 0 && between(c, d, b));
}

// Sutherland-Hodgman: the part where inside(p) >= 0, a function linear in the plane.
template <class Side>
Polygon clip(const Polygon& polygon, Side&& side) {
  Polygon result;
  result.reserve(polygon.size() + 2);
  for (std::size_t i = 0; i < polygon.size(); ++i) {
    const Point a = polygon[i], b = polygon[(i + 1) % polygon.size()];
    const double da = side(a), db = side(b);
    if (da >= 0) result.push_back(a);
    if ((da > 0 && db < 0) || (da < 0 && db > 0)) {
      const double t = da / (da - db);
      result.push_back({a.x + t * (b.x - a.x), a.y + t * (b.y - a.y)});
    }
  }
  if (result.size() < 3) result.clear();
  return result;
}

// Crossings of the polygon's sides with the line at `position`, seen from just above it or just below.
std::vector<Interval> intervals_beside(const Polygon& polygon, Axis axis, Length position,
                                       bool above) {
  std::vector<Length> crossings;
  for (std::size_t i = 0; i < polygon.size(); ++i) {
    const Point a = polygon[i], b = polygon[(i + 1) % polygon.size()];
    const Length va = along(a, other(axis)), vb = along(b, other(axis));
    const bool crosses =
        above ? (va <= position) != (vb <= position) : (va < position) != (vb < position);
    if (!crosses) continue;
    const Length ua = along(a, axis), ub = along(b, axis);
    // At a corner exactly, so that sides meeting there give the same number.
    if (va == position) {
      crossings.push_back(ua);
    } else if (vb == position) {
      crossings.push_back(ub);
    } else {
      crossings.push_back(ua + ((position - va) / (vb - va)) * (ub - ua));
    }
  }
  std::sort(crossings.begin(), crossings.end());
  std::vector<Interval> result;
  for (std::size_t i = 0; i + 1 < crossings.size(); i += 2) {
    result.push_back({crossings[i], crossings[i + 1]});
  }
  return result;
}

}  // namespace

Length distance(Point a, Point b) {
  return Length(std::hypot((a.x - b.x).value(), (a.y - b.y).value()));
}

Length distance_to_segment(Point p, Point from, Point to) {
  const double dx = (to.x - from.x).value(), dy = (to.y - from.y).value();
  const double square = dx * dx + dy * dy;
  if (square == 0.0) return distance(p, from);
  const double t =
      std::clamp(((p.x - from.x).value() * dx + (p.y - from.y).value() * dy) / square, 0.0, 1.0);
  return distance(p, {from.x + Length(t * dx), from.y + Length(t * dy)});
}

Length distance_between_segments(Point a, Point b, Point c, Point d) {
  if (segments_touch(a, b, c, d)) return Length(0.0);
  return min(min(distance_to_segment(a, c, d), distance_to_segment(b, c, d)),
             min(distance_to_segment(c, a, b), distance_to_segment(d, a, b)));
}

Point rotate(Point p, double degrees) {
  double turn = std::fmod(degrees, 360.0);
  if (turn < 0) turn += 360.0;
  if (turn == 0.0 || turn == 360.0) return p;
  if (turn == 90.0) return {-p.y, p.x};
  if (turn == 180.0) return {-p.x, -p.y};
  if (turn == 270.0) return {p.y, -p.x};
  const double c = std::cos(turn * pi / 180.0), s = std::sin(turn * pi / 180.0);
  return {c * p.x - s * p.y, s * p.x + c * p.y};
}

Area signed_area(const Polygon& polygon) {
  if (polygon.size() < 3) return Area(0.0);
  double twice = 0.0;
  // From the first corner, so that far-away polygons lose no digits.
  for (std::size_t i = 1; i + 1 < polygon.size(); ++i) {
    twice += cross(polygon[0], polygon[i], polygon[i + 1]);
  }
  return Area(0.5 * twice);
}

Area area(const Polygon& polygon) { return abs(signed_area(polygon)); }

Point centroid(const Polygon& polygon) {
  if (polygon.empty()) return {};
  const Point first = polygon[0];
  double twice = 0.0, mx = 0.0, my = 0.0;
  for (std::size_t i = 1; i + 1 < polygon.size(); ++i) {
    const Point a = polygon[i], b = polygon[i + 1];
    const double w = cross(first, a, b);
    twice += w;
    mx += w * ((a.x - first.x) + (b.x - first.x)).value() / 3.0;
    my += w * ((a.y - first.y) + (b.y - first.y)).value() / 3.0;
  }
  if (twice != 0.0) return {first.x + Length(mx / twice), first.y + Length(my / twice)};
  Point sum{};
  for (const Point& p : polygon) sum = sum + p;
  const auto n = static_cast<double>(polygon.size());
  return {sum.x / n, sum.y / n};
}

Polygon counter_clockwise(Polygon polygon) {
  if (signed_area(polygon) < Area(0.0)) std::reverse(polygon.begin(), polygon.end());
  return polygon;
}

bool is_simple(const Polygon& polygon) {
  const std::size_t n = polygon.size();
  if (n < 3) return false;
  for (std::size_t i = 0; i < n; ++i) {
    const Point a = polygon[i], b = polygon[(i + 1) % n], c = polygon[(i + 2) % n];
    if (a == b) return false;
    // A side that folds back on its neighbour.
    const double ahead =
        (b.x - a.x).value() * (c.x - b.x).value() + (b.y - a.y).value() * (c.y - b.y).value();
    if (cross(a, b, c) == 0.0 && ahead < 0.0) return false;
    for (std::size_t j = i + 2; j < n; ++j) {
      if (i == 0 && j == n - 1) continue;  // neighbours round the end
      if (segments_touch(a, b, polygon[j], polygon[(j + 1) % n])) return false;
    }
  }
  return true;
}

bool contains(const Polygon& polygon, Point p) {
  if (polygon.size() < 3) return false;
  bool inside = false;
  for (std::size_t i = 0; i < polygon.size(); ++i) {
    const Point a = polygon[i], b = polygon[(i + 1) % polygon.size()];
    const double side = cross(a, b, p);
    if (side == 0.0 && min(a.x, b.x) <= p.x && p.x <= max(a.x, b.x) && min(a.y, b.y) <= p.y &&
        p.y <= max(a.y, b.y)) {
      return true;
    }
    if ((a.y <= p.y) != (b.y <= p.y) && (side > 0.0) == (b.y > a.y)) inside = !inside;
  }
  return inside;
}

Interval extent(const Polygon& polygon, Axis axis) {
  if (polygon.empty()) return {};
  Interval result{along(polygon[0], axis), along(polygon[0], axis)};
  for (const Point& p : polygon) {
    result.low = min(result.low, along(p, axis));
    result.high = max(result.high, along(p, axis));
  }
  return result;
}

Length distance(const Polygon& polygon, Point p) {
  if (contains(polygon, p)) return Length(0.0);
  Length least(std::numeric_limits<double>::infinity());
  for (std::size_t i = 0; i < polygon.size(); ++i) {
    least = min(least, distance_to_segment(p, polygon[i], polygon[(i + 1) % polygon.size()]));
  }
  return least;
}

Length distance_to_segment(const Polygon& polygon, Point from, Point to) {
  if (contains(polygon, from) || contains(polygon, to)) return Length(0.0);
  Length least(std::numeric_limits<double>::infinity());
  for (std::size_t i = 0; i < polygon.size(); ++i) {
    least = min(least,
                distance_between_segments(polygon[i], polygon[(i + 1) % polygon.size()], from, to));
  }
  return least;
}

Length distance(const Polygon& a, const Polygon& b) {
  Length least(std::numeric_limits<double>::infinity());
  if (!b.empty() && contains(a, b[0])) return Length(0.0);
  for (std::size_t i = 0; i < a.size(); ++i) {
    least = min(least, distance_to_segment(b, a[i], a[(i + 1) % a.size()]));
  }
  return least;
}

Polygon clip_half_plane(const Polygon& polygon, Axis axis, Length at, bool keep_above) {
  return clip(polygon, [=](Point p) {
    const double d = (along(p, axis) - at).value();
    return keep_above ? d : -d;
  });
}

Polygon clip_strip(const Polygon& polygon, Axis axis, Length low, Length high) {
  return clip_half_plane(clip_half_plane(polygon, axis, low, true), axis, high, false);
}

Polygon clip_convex(const Polygon& polygon, const Polygon& window) {
  if (window.size() < 3) return {};
  const double way = signed_area(window) < Area(0.0) ? -1.0 : 1.0;
  Polygon result = polygon;
  for (std::size_t i = 0; i < window.size() && !result.empty(); ++i) {
    const Point a = window[i], b = window[(i + 1) % window.size()];
    result = clip(result, [=](Point p) { return way * cross(a, b, p); });
  }
  return result;
}

std::vector<Interval> line_intervals(const Polygon& polygon, Axis axis, Length position) {
  // The closed polygon's section is the union of what is seen just beside the line on either hand.
  std::vector<Interval> all = intervals_beside(polygon, axis, position, true);
  for (const Interval& i : intervals_beside(polygon, axis, position, false)) all.push_back(i);
  std::sort(all.begin(), all.end(), [](const Interval& a, const Interval& b) {
    return a.low < b.low || (a.low == b.low && a.high < b.high);
  });
  std::vector<Interval> merged;
  for (const Interval& i : all) {
    if (!(i.low < i.high)) continue;
    if (!merged.empty() && i.low <= merged.back().high) {
      merged.back().high = max(merged.back().high, i.high);
    } else {
      merged.push_back(i);
    }
  }
  return merged;
}

Polygon rectangle(Length width_x, Length length_y) {
  const Length a = 0.5 * width_x, b = 0.5 * length_y;
  return {{-a, -b}, {a, -b}, {a, b}, {-a, b}};
}

Polygon circle(Length diameter) {
  constexpr int sides = 64;
  constexpr double step = 2.0 * pi / sides;
  // n/2 R^2 sin(2 pi/n) = pi d^2/4
  const double radius = 0.5 * diameter.value() * std::sqrt(step / std::sin(step));
  Polygon result;
  result.reserve(sides);
  for (int i = 0; i < sides; ++i) {
    // Corners half a step off the axes: the polygon has flat sides towards +-x and +-y.
    const double angle = (i + 0.5) * step;
    result.push_back({Length(radius * std::cos(angle)), Length(radius * std::sin(angle))});
  }
  return result;
}

Polygon place(const Polygon& polygon, double rotation_deg, Point at) {
  Polygon result;
  result.reserve(polygon.size());
  for (const Point& p : polygon) result.push_back(rotate(p, rotation_deg) + at);
  return result;
}

}  // namespace underprop

// Plane geometry of the plan: polygons, strips, lines.
//
// Plan coordinates: x and y from a corner of the deck, in mm, seen from above, turning counter-clockwise from x
// to y. A polygon is its corners in order, either way round, without the first repeated at the end;
// it includes its boundary. Fewer than three corners are an empty polygon: area 0, contains nothing.
// All functions are pure and throw nothing but std::bad_alloc unless they say so. The formulas are
// elementary geometry (shoelace sum; half-plane clipping, Sutherland and Hodgman 1974).
#pragma once

#include "underprop/base/quantity.hpp"

#include <vector>

namespace underprop {

struct Point {
  Length x, y;
  auto operator<=>(const Point&) const = default;
};

enum class Axis { x, y };

using Polygon = std::vector<Point>;

/// A closed stretch of a coordinate, low <= high.
struct Interval {
  Length low, high;
  bool operator==(const Interval&) const = default;
};

/// The coordinate of a point along x or y.
[[nodiscard]] constexpr Length along(Point p, Axis axis) { return axis == Axis::x ? p.x : p.y; }
[[nodiscard]] constexpr Axis other(Axis axis) { return axis == Axis::x ? Axis::y : Axis::x; }
/// The point at `u` along the axis and `v` across it.
[[nodiscard]] constexpr Point at_along(Axis axis, Length u, Length v) {
  return axis == Axis::x ? Point{u, v} : Point{v, u};
}
[[nodiscard]] constexpr Point operator+(Point a, Point b) { return {a.x + b.x, a.y + b.y}; }
[[nodiscard]] constexpr Point operator-(Point a, Point b) { return {a.x - b.x, a.y - b.y}; }

// --- points and segments ----------------------------------------------------------------------------

[[nodiscard]] Length distance(Point a, Point b);
/// To the nearest point of the segment; from == to is a point.
[[nodiscard]] Length distance_to_segment(Point p, Point from, Point to);
/// 0 if the segments cross or touch.
[[nodiscard]] Length distance_between_segments(Point a, Point b, Point c, Point d);

/// Turned about the origin, counter-clockwise. Quarter turns are exact.
[[nodiscard]] Point rotate(Point p, double degrees);

// --- polygons ---------------------------------------------------------------------------------------

/// Positive if the corners run counter-clockwise.
[[nodiscard]] Area signed_area(const Polygon& polygon);
[[nodiscard]] Area area(const Polygon& polygon);
/// Of the area; the mean of the corners if the area is 0; the origin if there are no corners.
[[nodiscard]] Point centroid(const Polygon& polygon);
/// The same polygon with its corners counter-clockwise.
[[nodiscard]] Polygon counter_clockwise(Polygon polygon);
/// True if no two sides cross or touch except neighbours at their common corner, and no side has
/// length 0. At least three corners.
[[nodiscard]] bool is_simple(const Polygon& polygon);
/// Inside or on the boundary.
[[nodiscard]] bool contains(const Polygon& polygon, Point p);
/// Extent along an axis; {0, 0} if there are no corners.
[[nodiscard]] Interval extent(const Polygon& polygon, Axis axis);
/// 0 inside.
[[nodiscard]] Length distance(const Polygon& polygon, Point p);
/// 0 if the segment touches the polygon or runs inside it.
[[nodiscard]] Length distance_to_segment(const Polygon& polygon, Point from, Point to);
/// 0 if they overlap or touch.
[[nodiscard]] Length distance(const Polygon& a, const Polygon& b);

/// The part where the coordinate along `axis` is at least `at` (keep_above) or at most `at`. Of a
/// polygon that is not convex the parts may hang together by sides of width 0; areas are right.
[[nodiscard]] Polygon clip_half_plane(const Polygon& polygon, Axis axis, Length at,
                                      bool keep_above);
/// The part with low <= coordinate along `axis` <= high.
[[nodiscard]] Polygon clip_strip(const Polygon& polygon, Axis axis, Length low, Length high);
/// The part of `polygon` inside the convex polygon `window` (either way round).
[[nodiscard]] Polygon clip_convex(const Polygon& polygon, const Polygon& window);

/// Where the line parallel to `axis`, at `position` across it, lies in the polygon: intervals of the
/// coordinate along it, in order, apart from each other. A line that runs along a side counts as inside
/// there; intervals of length 0 are left out.
[[nodiscard]] std::vector<Interval> line_intervals(const Polygon& polygon, Axis axis,
                                                   Length position);

// --- footprints -------------------------------------------------------------------------------------

/// Centred on the origin, counter-clockwise.
[[nodiscard]] Polygon rectangle(Length width_x, Length length_y);
/// A regular polygon of 64 sides that has the circle's area: its corners lie 0.08 % outside it.
[[nodiscard]] Polygon circle(Length diameter);
/// Turned about the origin, then moved so that the origin comes to `at`.
[[nodiscard]] Polygon place(const Polygon& polygon, double rotation_deg, Point at);

}  // namespace underprop

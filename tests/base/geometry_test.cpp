// Plan geometry against closed forms: elementary geometry, nothing published is needed.
#include "underprop/base/geometry.hpp"

#include "support/catch.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace underprop {
namespace geometry_test_file {
namespace {

Point at(double x, double y) { return {mm(x), mm(y)}; }

// 3000 x 3000 without its upper right 1000 x 2000.
Polygon l_shape() {
  return {at(0, 0), at(3000, 0), at(3000, 1000), at(2000, 1000), at(2000, 3000), at(0, 3000)};
}

TEST_CASE("Areas and centroids are those of the closed forms", "[geometry][closed-form]") {
  CHECK(signed_area(l_shape()).value() == Approx(7e6));
  Polygon reversed = l_shape();
  std::reverse(reversed.begin(), reversed.end());
  CHECK(signed_area(reversed).value() == Approx(-7e6));
  CHECK(signed_area(counter_clockwise(reversed)).value() == Approx(7e6));
  // L: (2000 x 3000 at (1000, 1500) + 1000 x 1000 at (2500, 500)) / 7e6
  const Point c = centroid(l_shape());
  CHECK(c.x.value() == Approx((6e6 * 1000 + 1e6 * 2500) / 7e6));
  CHECK(c.y.value() == Approx((6e6 * 1500 + 1e6 * 500) / 7e6));
  CHECK(area({at(0, 0), at(1, 1)}).value() == 0.0);
  CHECK(area(circle(mm(2000))).value() == Approx(std::numbers::pi * 1e6).epsilon(1e-12));
  CHECK(std::abs(centroid(circle(mm(2000))).x.value()) < 1e-9);
}

TEST_CASE("Clipping conserves area, convex or not", "[geometry][law]") {
  const Polygon turned = place(l_shape(), 27.0, at(123, -456));
  for (const Axis axis : {Axis::x, Axis::y}) {
    for (double cut = -2000; cut <= 4000; cut += 170) {
      const double above = area(clip_half_plane(turned, axis, mm(cut), true)).value();
      const double below = area(clip_half_plane(turned, axis, mm(cut), false)).value();
      CHECK(above + below == Approx(7e6).epsilon(1e-12));
    }
  }
  double sum = 0.0;
  for (double low = -3000; low < 5000; low += 145) {
    sum += area(clip_strip(turned, Axis::x, mm(low), mm(low + 145))).value();
  }
  CHECK(sum == Approx(7e6).epsilon(1e-12));
  CHECK(clip_strip(l_shape(), Axis::x, mm(4000), mm(5000)).empty());
}

TEST_CASE("Clipping by a convex window, either way round", "[geometry][closed-form]") {
  Polygon window{at(1000, 500), at(2500, 500), at(2500, 2000), at(1000, 2000)};
  // 1000 x 1500 of the upright limb and 500 x 500 of the foot
  CHECK(area(clip_convex(l_shape(), window)).value() == Approx(1.75e6));
  std::reverse(window.begin(), window.end());
  CHECK(area(clip_convex(l_shape(), window)).value() == Approx(1.75e6));
}

TEST_CASE("A line meets an L in one stretch or, turned, in two", "[geometry][closed-form]") {
  const Polygon u{at(0, 0),       at(3000, 0),    at(3000, 2000), at(2000, 2000),
                  at(2000, 1000), at(1000, 1000), at(1000, 2000), at(0, 2000)};
  const auto through = line_intervals(u, Axis::x, mm(1500));
  REQUIRE(through.size() == 2);
  CHECK(through[0] == Interval{mm(0), mm(1000)});
  CHECK(through[1] == Interval{mm(2000), mm(3000)});
  // Along the bottom of the notch the closed polygon has the whole width; along its top side two.
  CHECK(line_intervals(u, Axis::x, mm(1000)) == std::vector<Interval>{{mm(0), mm(3000)}});
  CHECK(line_intervals(u, Axis::x, mm(2000)).size() == 2);
  CHECK(line_intervals(u, Axis::x, mm(0)) == std::vector<Interval>{{mm(0), mm(3000)}});
  CHECK(line_intervals(u, Axis::y, mm(1500)) == std::vector<Interval>{{mm(0), mm(1000)}});
  CHECK(line_intervals(u, Axis::y, mm(3001)).empty());
  // A corner touched from outside is no stretch.
  CHECK(line_intervals({at(0, 0), at(1000, 1000), at(0, 2000)}, Axis::y, mm(1000)).empty());
}

TEST_CASE("Lengths of line stretches integrate to the area", "[geometry][law]") {
  const Polygon turned = place(l_shape(), 33.0, at(0, 0));
  double sum = 0.0;
  const double step = 0.5;
  for (double v = -4000; v < 4500; v += step) {
    for (const Interval& i : line_intervals(turned, Axis::y, mm(v + step / 2))) {
      sum += (i.high - i.low).value() * step;
    }
  }
  CHECK(sum == Approx(7e6).epsilon(1e-6));
}

TEST_CASE("Inside, on the boundary, outside", "[geometry][closed-form]") {
  const Polygon l = l_shape();
  CHECK(contains(l, at(1999, 2999)));
  CHECK(contains(l, at(2000, 2000)));
  CHECK(contains(l, at(3000, 1000)));
  CHECK_FALSE(contains(l, at(2001, 1001)));
  CHECK_FALSE(contains(l, at(-0.001, 0)));
  CHECK(distance(l, at(2500, 1400)).value() == Approx(400));
  CHECK(distance(l, at(500, 500)).value() == 0.0);
  CHECK(distance(l, at(-30, -40)).value() == Approx(50));
}

TEST_CASE("Distances to and between segments", "[geometry][closed-form]") {
  CHECK(distance_to_segment(at(5, 3), at(0, 0), at(10, 0)).value() == Approx(3));
  CHECK(distance_to_segment(at(13, 4), at(0, 0), at(10, 0)).value() == Approx(5));
  CHECK(distance_to_segment(at(3, 4), at(0, 0), at(0, 0)).value() == Approx(5));
  CHECK(distance_between_segments(at(0, 0), at(10, 0), at(5, -5), at(5, 5)).value() == 0.0);
  CHECK(distance_between_segments(at(0, 0), at(10, 0), at(2, 7), at(9, 7)).value() == Approx(7));
  CHECK(distance(rectangle(mm(100), mm(100)), place(rectangle(mm(100), mm(100)), 0, at(150, 0)))
            .value() == Approx(50));
  CHECK(distance(rectangle(mm(100), mm(100)), rectangle(mm(10), mm(10))).value() == 0.0);
  CHECK(distance_to_segment(rectangle(mm(100), mm(100)), at(0, 0), at(1, 1)).value() == 0.0);
}

TEST_CASE("Quarter turns are exact and four of them are none", "[geometry][law]") {
  const Point p = at(123.456, -78.9);
  CHECK(rotate(p, 90) == Point{mm(78.9), mm(123.456)});
  CHECK(rotate(rotate(rotate(rotate(p, 90), 90), 90), 90) == p);
  CHECK(rotate(p, -90) == rotate(p, 270));
  CHECK(rotate(p, 720) == p);
  const Point q = rotate(at(1000, 0), 30);
  CHECK(q.x.value() == Approx(1000 * std::sqrt(3.0) / 2));
  CHECK(q.y.value() == Approx(500));
}

TEST_CASE("Outlines that cross themselves are told from simple ones", "[geometry][closed-form]") {
  CHECK(is_simple(l_shape()));
  CHECK_FALSE(is_simple({at(0, 0), at(10, 10), at(10, 0), at(0, 10)}));
  CHECK_FALSE(is_simple({at(0, 0), at(10, 0), at(10, 0), at(0, 10)}));
  CHECK_FALSE(is_simple({at(0, 0), at(10, 0), at(5, 0)}));
  CHECK_FALSE(is_simple({at(0, 0), at(10, 0)}));
}

}  // namespace

}  // namespace geometry_test_file
}  // namespace underprop

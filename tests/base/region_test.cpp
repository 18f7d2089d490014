// Regions of straight sides and arcs. Closed forms: circle, segment of a circle, half and quarter disc,
// the spandrel left outside a round corner (J. M. Gere and B. J. Goodno, Mechanics of Materials, 8th
// ed. 2013, appendix E, cases 9 to 13). As a second way, Simpson's rule made finer until it settles,
// over the width of the shape written down anew.
#include "underprop/base/region.hpp"

#include "support/catch.hpp"

#include <cmath>
#include <functional>
#include <numbers>

namespace underprop {
namespace region_test_file {
namespace {

constexpr double pi = std::numbers::pi;

Point at(double x, double y) { return {mm(x), mm(y)}; }
Interval from_to(double low, double high) { return {mm(low), mm(high)}; }
constexpr double far = 1e9;

struct Sums {
  double area = 0.0, x = 0.0, y = 0.0;
};
Sums of(const AreaPart& part) {
  const double A = part.area.value();
  return {A, A * part.centroid.x.value(), A * part.centroid.y.value()};
}
/// The part of a region in a rectangle, summed over its pieces.
Sums in_cell(const Region& region, Axis axis, Interval along, Interval across) {
  Sums sums;
  for (const StripPiece& piece : strip_pieces(region, axis, across, {along.low, along.high})) {
    const Length middle = 0.5 * (piece.along.low + piece.along.high);
    if (middle < along.low || middle > along.high) continue;
    const Point c = at_along(axis, piece.centroid_along, piece.centroid_across);
    sums.area += piece.area.value();
    sums.x += piece.area.value() * c.x.value();
    sums.y += piece.area.value() * c.y.value();
  }
  return sums;
}

/// Adaptive Simpson (W. M. McKeeman, Algorithm 145, Communications of the ACM 5, 1962).
double simpson(const std::function<double(double)>& f, double a, double b, double whole, double fa,
               double fm, double fb, double tolerance, int depth) {
  const double m = 0.5 * (a + b), fl = f(0.5 * (a + m)), fr = f(0.5 * (m + b));
  const double left = (m - a) / 6.0 * (fa + 4.0 * fl + fm);
  const double right = (b - m) / 6.0 * (fm + 4.0 * fr + fb);
  if (depth == 0 || std::abs(left + right - whole) < 15.0 * tolerance)
    return left + right + (left + right - whole) / 15.0;
  return simpson(f, a, m, left, fa, fl, fm, 0.5 * tolerance, depth - 1) +
         simpson(f, m, b, right, fm, fr, fb, 0.5 * tolerance, depth - 1);
}
double integral(const std::function<double(double)>& f, double a, double b, double tolerance) {
  const double fa = f(a), fm = f(0.5 * (a + b)), fb = f(b);
  return simpson(f, a, b, (b - a) / 6.0 * (fa + 4.0 * fm + fb), fa, fm, fb, tolerance, 40);
}

TEST_CASE("A disc has the circle's area and its own centre", "[region][closed-form]") {
  for (const double turn : {0.0, 17.0, 90.0, 200.0}) {
    const AreaPart part = whole(place(disc(mm(2000)), turn, at(1234, -567)));
    CHECK(part.area.value() == Approx(pi * 1e6).epsilon(1e-13));
    CHECK(part.centroid.x.value() == Approx(1234).epsilon(1e-12));
    CHECK(part.centroid.y.value() == Approx(-567).epsilon(1e-12));
  }
  CHECK(extent(place(disc(mm(2000)), 33.0, at(50, 0)), Axis::x).high.value() == Approx(1050));
  CHECK(whole({}).area.value() == 0.0);
}

TEST_CASE("Half and quarter discs, however the cuts are turned", "[region][closed-form]") {
  const double R = 900.0;
  const Region tub = place(disc(mm(2 * R)), 0.0, at(2000, 1500));
  for (double turn = -45.0; turn < 330.0; turn += 12.5) {
    const Region half = cut(tub, at(2000, 1500), turn);
    const double c = std::cos(turn * pi / 180), s = std::sin(turn * pi / 180);
    // 4R/3pi from the middle
    const double off = 4.0 * R / (3.0 * pi);
    CHECK(whole(half).area.value() == Approx(0.5 * pi * R * R).epsilon(1e-12));
    CHECK(whole(half).centroid.x.value() == Approx(2000 + off * c).epsilon(1e-12));
    CHECK(whole(half).centroid.y.value() == Approx(1500 + off * s).epsilon(1e-12));
    const Region quarter = cut(half, at(2000, 1500), turn + 90.0);
    CHECK(whole(quarter).area.value() == Approx(0.25 * pi * R * R).epsilon(1e-12));
    CHECK(whole(quarter).centroid.x.value() == Approx(2000 + off * (c - s)).epsilon(1e-12));
    CHECK(whole(quarter).centroid.y.value() == Approx(1500 + off * (s + c)).epsilon(1e-12));
  }
}

TEST_CASE("A segment of a circle", "[region][closed-form]") {
  // Half angle a: area R^2 (a - sin a cos a), centroid 2R sin^3 a / 3(a - sin a cos a).
  const double R = 1000.0;
  for (const double chord : {-700.0, -1.0, 0.0, 250.0, 700.0, 990.0}) {
    const double a = std::acos(chord / R), net = a - std::sin(a) * std::cos(a);
    const double area = R * R * net,
                 moment = area * 2.0 * R * std::pow(std::sin(a), 3) / (3.0 * net);
    for (const Axis axis : {Axis::x, Axis::y}) {
      // as a strip without end, and as the end of a strip
      const Sums strip =
          in_cell(disc(mm(2 * R)), other(axis), from_to(-far, far), from_to(chord, far));
      const Sums end = in_cell(disc(mm(2 * R)), axis, from_to(chord, far), from_to(-far, far));
      for (const Sums& sums : {strip, end,
                               of(whole(cut(disc(mm(2 * R)), at_along(axis, mm(chord), mm(40)),
                                            axis == Axis::x ? 0.0 : 90.0)))}) {
        CHECK(sums.area == Approx(area).epsilon(1e-10));
        CHECK((axis == Axis::x ? sums.x : sums.y) == Approx(moment).epsilon(1e-10));
        CHECK(std::abs(axis == Axis::x ? sums.y : sums.x) < 1e-10 * area * R);
      }
    }
  }
}

TEST_CASE("A rectangle with round corners, and its half", "[region][closed-form]") {
  const double a = 1000.0, b = 850.0, r = 200.0;
  const Region tub = rounded_rectangle(mm(2 * a), mm(2 * b), mm(r));
  // Outside each corner a spandrel of (1 - pi/4) r^2, centroid (10 - 3 pi)/3(4 - pi) r from the sides.
  const double spandrel = (1.0 - pi / 4.0) * r * r;
  const double from_side = (10.0 - 3.0 * pi) / (3.0 * (4.0 - pi)) * r;
  CHECK(whole(tub).area.value() == Approx(4 * a * b - 4 * spandrel).epsilon(1e-13));
  CHECK(std::abs(whole(tub).centroid.x.value()) < 1e-9);
  const AreaPart half = whole(cut(tub, at(0, 0), 90.0));
  CHECK(half.area.value() == Approx(2 * a * b - 2 * spandrel).epsilon(1e-12));
  CHECK(half.area.value() * half.centroid.y.value() ==
        Approx(2 * a * b * (b / 2) - 2 * spandrel * (b - from_side)).epsilon(1e-12));
  // Sharp corners, and corners so round that it is a disc.
  CHECK(whole(rounded_rectangle(mm(2 * a), mm(2 * b), mm(0))).area.value() == Approx(4 * a * b));
  CHECK(whole(rounded_rectangle(mm(600), mm(600), mm(900))).area.value() ==
        Approx(pi * 9e4).epsilon(1e-13));
}

TEST_CASE("Cells of a disc against quadrature", "[region][oracle]") {
  const double R = 1000.0, cx = 130.0, cy = -40.0;
  const Region tub = place(disc(mm(2 * R)), 25.0, at(cx, cy));
  for (double l = -1100; l < 1000; l += 290) {
    const double h = l + 145.0;
    // Height of the strip inside the disc at x, and the middle of it.
    const auto stretch = [&](double x) {
      const double half = std::sqrt(std::max(0.0, R * R - (x - cx) * (x - cx)));
      const double low = std::max(l, cy - half), high = std::min(h, cy + half);
      return low < high ? std::pair(low, high) : std::pair(l, l);
    };
    for (double a = -1000; a < 1300; a += 410) {
      const double b = a + 405.0;
      const auto area = [&](double x) { return stretch(x).second - stretch(x).first; };
      const auto x_moment = [&](double x) { return x * area(x); };
      const auto y_moment = [&](double x) {
        return 0.5 * area(x) * (stretch(x).first + stretch(x).second);
      };
      const Sums exact = in_cell(tub, Axis::x, from_to(a, b), from_to(l, h));
      CHECK(exact.area == Approx(integral(area, a, b, 1e-6)).margin(1e-3));
      CHECK(exact.x == Approx(integral(x_moment, a, b, 1e-3)).margin(1.0));
      CHECK(exact.y == Approx(integral(y_moment, a, b, 1e-3)).margin(1.0));
      // The same cell seen along the other axis.
      const Sums across = in_cell(tub, Axis::y, from_to(l, h), from_to(a, b));
      CHECK(across.area == Approx(exact.area).margin(1e-6));
      CHECK(across.x == Approx(exact.x).margin(1e-3));
      CHECK(across.y == Approx(exact.y).margin(1e-3));
    }
  }
}

TEST_CASE("Strips and stations conserve area and moments of any region", "[region][law]") {
  const Polygon l_shape{at(0, 0),       at(3000, 0),    at(3000, 1000),
                        at(2000, 1000), at(2000, 3000), at(0, 3000)};
  const Region regions[] = {
      place(disc(mm(1900)), 0.0, at(700, 400)), region_of(l_shape),
      place(rounded_rectangle(mm(2100), mm(1500), mm(260)), 31.0, at(900, 1100)),
      place(region_of(l_shape), -17.0, at(-300, 250)),
      cut(place(region_of(l_shape), 40.0, at(0, 0)), at(0, 2000), -110.0)};
  for (const Region& region : regions) {
    const Sums all = of(whole(region));
    const double size = std::sqrt(all.area);
    for (const Axis axis : {Axis::x, Axis::y}) {
      std::vector<Length> stations;
      for (double s = -4000; s < 5000; s += 137) stations.push_back(mm(s));
      Sums sum;
      for (double low = -5001; low < 6000; low += 145) {
        for (const StripPiece& piece :
             strip_pieces(region, axis, from_to(low, low + 145), stations)) {
          const Point c = at_along(axis, piece.centroid_along, piece.centroid_across);
          sum.area += piece.area.value();
          sum.x += piece.area.value() * c.x.value();
          sum.y += piece.area.value() * c.y.value();
          // A linear load with this total and centroid presses down at both its ends: the centroid
          // lies in the middle third. Slivers are left to rounding.
          const Length third = (piece.along.high - piece.along.low) / 3.0;
          if (piece.area.value() < 1e-3) continue;
          CHECK(piece.centroid_along.value() > (piece.along.low + third).value() - 1e-3);
          CHECK(piece.centroid_along.value() < (piece.along.high - third).value() + 1e-3);
        }
      }
      CHECK(sum.area == Approx(all.area).epsilon(1e-11));
      CHECK(std::abs(sum.x - all.x) < 1e-11 * all.area * size);
      CHECK(std::abs(sum.y - all.y) < 1e-11 * all.area * size);
    }
  }
}

TEST_CASE("Polygons are what they were as polygons", "[region][law]") {
  const Polygon shape{at(0, 0),       at(3000, 0),    at(3000, 1000),
                      at(2000, 1000), at(2000, 3000), at(0, 3000)};
  for (const double turn : {0.0, 12.0, 90.0, 133.0}) {
    const Polygon polygon = place(shape, turn, at(10, 20));
    const Region region = region_of(polygon);
    CHECK(whole(region).area.value() == Approx(area(polygon).value()).epsilon(1e-13));
    CHECK(whole(region).centroid.x.value() == Approx(centroid(polygon).x.value()));
    for (double x = -3000; x < 4000; x += 431) {
      for (double y = -3000; y < 4000; y += 387)
        CHECK(contains(region, at(x, y)) == contains(polygon, at(x, y)));
    }
    CHECK(polygon_of(region, 5.0).size() == polygon.size());
  }
}

TEST_CASE("A point is in a disc by its distance from the middle", "[region][closed-form]") {
  const Region tub = place(disc(mm(2000)), 40.0, at(300, 200));
  const Region half = cut(tub, at(300, 200), 90.0);
  for (double angle = 0; angle < 2 * pi; angle += 0.1) {
    for (const double r : {0.5, 400.0, 999.0, 1000.0, 1001.0}) {
      const Point p = at(300 + r * std::cos(angle), 200 + r * std::sin(angle));
      CHECK(contains(tub, p) == (r <= 1000.0));
      if (std::abs(std::sin(angle)) > 0.01)
        CHECK(contains(half, p) == (r <= 1000.0 && std::sin(angle) > 0.0));
    }
  }
}

}  // namespace

}  // namespace region_test_file
}  // namespace underprop

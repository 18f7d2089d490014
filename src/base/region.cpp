#include "underprop/base/region.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace underprop {
namespace {

using std::numbers::pi;

/// A point this near to the boundary is on it, mm.
constexpr double on_boundary = 1e-6;
/// Ends of pieces nearer than this are one, mm: the same corner met from two sides.
constexpr double same_place = 1e-7;

/// A side in coordinates u along a strip and v across it; monotone in both.
struct Piece {
  double u0 = 0.0, v0 = 0.0, u1 = 0.0, v1 = 0.0;
  double cu = 0.0, cv = 0.0, r = 0.0;  ///< arc; r = 0: straight
  double t0 = 0.0, t1 = 0.0;           ///< arc: angles of its ends, at most a quarter apart
};

/// The part of a piece between the parameters 0 <= a < b <= 1 (of the line, or of the angle).
Piece part_of(const Piece& p, double a, double b) {
  Piece result = p;
  if (p.r == 0.0) {
    result.u0 = a == 0.0 ? p.u0 : p.u0 + a * (p.u1 - p.u0);
    result.v0 = a == 0.0 ? p.v0 : p.v0 + a * (p.v1 - p.v0);
    result.u1 = b == 1.0 ? p.u1 : p.u0 + b * (p.u1 - p.u0);
    result.v1 = b == 1.0 ? p.v1 : p.v0 + b * (p.v1 - p.v0);
    return result;
  }
  if (a > 0.0) {
    result.t0 = p.t0 + a * (p.t1 - p.t0);
    result.u0 = p.cu + p.r * std::cos(result.t0);
    result.v0 = p.cv + p.r * std::sin(result.t0);
  }
  if (b < 1.0) {
    result.t1 = p.t0 + b * (p.t1 - p.t0);
    result.u1 = p.cu + p.r * std::cos(result.t1);
    result.v1 = p.cv + p.r * std::sin(result.t1);
  }
  return result;
}

/// The parameter at which a monotone piece reaches u = at (or v = at); its ends enclose it.
double parameter_at(const Piece& p, bool u, double at) {
  const double from = u ? p.u0 : p.v0, to = u ? p.u1 : p.v1;
  if (p.r == 0.0) return std::clamp((at - from) / (to - from), 0.0, 1.0);
  const double ratio = std::clamp((at - (u ? p.cu : p.cv)) / p.r, -1.0, 1.0);
  // The one of the two angles, whole turns aside, that lies nearest to the piece.
  const double middle = 0.5 * (p.t0 + p.t1);
  const double first = u ? std::acos(ratio) : std::asin(ratio);
  const double second = u ? -first : pi - first;
  double best = middle, off = 1e300;
  for (const double angle : {first, second}) {
    const double near = angle + 2.0 * pi * std::round((middle - angle) / (2.0 * pi));
    if (std::abs(near - middle) < off) {
      off = std::abs(near - middle);
      best = near;
    }
  }
  return std::clamp((best - p.t0) / (p.t1 - p.t0), 0.0, 1.0);
}

/// The piece's part with low <= u <= high (or v), if it has any length.
bool trim(Piece& p, bool u, double low, double high) {
  const double from = u ? p.u0 : p.v0, to = u ? p.u1 : p.v1;
  if (std::max(from, to) <= low || std::min(from, to) >= high) return false;
  double a = 0.0, b = 1.0;
  for (const double limit : {low, high}) {
    if ((from < limit) == (to < limit)) continue;
    const double at = parameter_at(p, u, limit);
    // Entering or leaving the stretch at this limit.
    const bool leaves = (limit == high) == (to > from);
    (leaves ? b : a) = at;
  }
  if (!(a < b)) return false;
  p = part_of(p, a, b);
  return true;
}

void add_monotone(std::vector<Piece>& pieces, const Side& side, Axis axis) {
  const bool swap = axis == Axis::y;
  Piece whole;
  whole.u0 = along(side.from, axis).value();
  whole.v0 = along(side.from, other(axis)).value();
  whole.u1 = along(side.to, axis).value();
  whole.v1 = along(side.to, other(axis)).value();
  if (side.radius.value() == 0.0) {
    pieces.push_back(whole);
    return;
  }
  whole.r = side.radius.value();
  whole.cu = along(side.centre, axis).value();
  whole.cv = along(side.centre, other(axis)).value();
  // With u = y and v = x the angle is counted from +y towards +x.
  whole.t0 = swap ? 0.5 * pi - side.start : side.start;
  whole.t1 = whole.t0 + (swap ? -side.sweep : side.sweep);
  // At whole quarters of a turn.
  const double low = std::min(whole.t0, whole.t1), high = std::max(whole.t0, whole.t1);
  std::vector<double> at{0.0};
  for (double k = std::ceil(low / (0.5 * pi)); k * 0.5 * pi < high; k += 1.0) {
    const double f = (k * 0.5 * pi - whole.t0) / (whole.t1 - whole.t0);
    if (f > 1e-12 && f < 1.0 - 1e-12) at.push_back(f);
  }
  at.push_back(1.0);
  std::sort(at.begin(), at.end());
  for (std::size_t k = 0; k + 1 < at.size(); ++k)
    pieces.push_back(part_of(whole, at[k], at[k + 1]));
}

std::vector<Piece> monotone(const Region& region, Axis axis) {
  std::vector<Piece> pieces;
  pieces.reserve(region.size() + 8);
  for (const Side& side : region) add_monotone(pieces, side, axis);
  return pieces;
}

/// Area, and first moments about u = a and v = l; counter-clockwise in (u, v).
struct Integrals {
  double area = 0.0, u = 0.0, v = 0.0;
};

/// A piece to the right of b: g = b - a throughout.
void add_beyond(Integrals& sum, double v0, double v1, double width, double l) {
  const double dv = v1 - v0;
  sum.area += width * dv;
  sum.u += 0.5 * width * width * dv;
  sum.v += width * dv * (0.5 * (v0 + v1) - l);
}

/// A piece between a and b.
void add_between(Integrals& sum, const Piece& p, double a, double l) {
  if (p.r == 0.0) {
    const double g0 = p.u0 - a, g1 = p.u1 - a, w0 = p.v0 - l, w1 = p.v1 - l, dv = p.v1 - p.v0;
    sum.area += dv * (g0 + g1) / 2.0;
    sum.u += dv * (g0 * g0 + g0 * g1 + g1 * g1) / 6.0;
    sum.v += dv * ((g0 * w0 + g1 * w1) / 3.0 + (g0 * w1 + g1 * w0) / 6.0);
    return;
  }
  // g = P + r cos t, v - l = Q + r sin t, dv = r cos t dt.
  const double P = p.cu - a, Q = p.cv - l, r = p.r;
  const double s0 = std::sin(p.t0), s1 = std::sin(p.t1), c0 = std::cos(p.t0), c1 = std::cos(p.t1);
  const double cos1 = s1 - s0;                                      // int cos
  const double cos2 = 0.5 * ((p.t1 - p.t0) + (s1 * c1 - s0 * c0));  // int cos^2
  const double cos3 = cos1 - (s1 * s1 * s1 - s0 * s0 * s0) / 3.0;   // int cos^3
  const double sin_cos = 0.5 * (s1 * s1 - s0 * s0);                 // int sin cos
  const double sin_cos2 = -(c1 * c1 * c1 - c0 * c0 * c0) / 3.0;     // int sin cos^2
  sum.area += r * (P * cos1 + r * cos2);
  sum.u += 0.5 * r * (P * P * cos1 + 2.0 * P * r * cos2 + r * r * cos3);
  sum.v += r * (P * Q * cos1 + P * r * sin_cos + Q * r * cos2 + r * r * sin_cos2);
}

/// The cell a <= u <= b of what the pieces, all within the strip that begins at v = l, bound.
Integrals integrate(const std::vector<Piece>& pieces, double a, double b, double l) {
  Integrals sum;
  for (const Piece& p : pieces) {
    const double low = std::min(p.u0, p.u1), high = std::max(p.u0, p.u1);
    if (high <= a) continue;
    if (low >= b) {
      add_beyond(sum, p.v0, p.v1, b - a, l);
      continue;
    }
    Piece inside = p;
    if (low < a || high > b) {
      if (!trim(inside, true, a, b)) {
        // It only touches a or b, within rounding.
        if (0.5 * (p.u0 + p.u1) >= b) add_beyond(sum, p.v0, p.v1, b - a, l);
        continue;
      }
      if (high > b) {  // what lies beyond b, on its own side of the piece
        if (p.u1 > b) {
          add_beyond(sum, inside.v1, p.v1, b - a, l);
        } else {
          add_beyond(sum, p.v0, inside.v0, b - a, l);
        }
      }
    }
    add_between(sum, inside, a, l);
  }
  return sum;
}

/// (u, v) is (x, y) or (y, x): in the second the boundary runs clockwise.
double orientation(Axis axis) { return axis == Axis::x ? 1.0 : -1.0; }

double signed_offset(Point p, Point through, double nx, double ny) {
  return (p.x - through.x).value() * nx + (p.y - through.y).value() * ny;
}

Point on_arc(const Side& side, double angle) {
  return {side.centre.x + std::cos(angle) * side.radius,
          side.centre.y + std::sin(angle) * side.radius};
}

Side sub_side(const Side& side, double a, double b) {
  Side result = side;
  if (side.radius.value() == 0.0) {
    const auto at = [&](double f) {
      return Point{side.from.x + f * (side.to.x - side.from.x),
                   side.from.y + f * (side.to.y - side.from.y)};
    };
    if (a > 0.0) result.from = at(a);
    if (b < 1.0) result.to = at(b);
    return result;
  }
  result.start = side.start + a * side.sweep;
  result.sweep = (b - a) * side.sweep;
  if (a > 0.0) result.from = on_arc(side, result.start);
  if (b < 1.0) result.to = on_arc(side, side.start + b * side.sweep);
  return result;
}

/// Where a side crosses the line, as fractions of it, in order.
std::vector<double> crossings(const Side& side, Point through, double nx, double ny) {
  std::vector<double> at;
  if (side.radius.value() == 0.0) {
    const double d0 = signed_offset(side.from, through, nx, ny);
    const double d1 = signed_offset(side.to, through, nx, ny);
    if ((d0 > 0.0 && d1 < 0.0) || (d0 < 0.0 && d1 > 0.0)) at.push_back(d0 / (d0 - d1));
    return at;
  }
  // n.(c - through) + r cos(t - angle of n) = 0
  const double ratio = -signed_offset(side.centre, through, nx, ny) / side.radius.value();
  if (std::abs(ratio) >= 1.0) return at;
  const double normal = std::atan2(ny, nx), half = std::acos(ratio);
  for (const double angle : {normal - half, normal + half}) {
    // The first turn of this angle that is not before the side's lower end.
    const double low = std::min(side.start, side.start + side.sweep);
    double t = angle + 2.0 * pi * std::ceil((low - angle) / (2.0 * pi));
    for (; t < low + std::abs(side.sweep); t += 2.0 * pi) {
      const double f = (t - side.start) / side.sweep;
      if (f > 0.0 && f < 1.0) at.push_back(f);
    }
  }
  std::sort(at.begin(), at.end());
  return at;
}

Length distance_to(const Side& side, Point p) {
  if (side.radius.value() == 0.0) return distance_to_segment(p, side.from, side.to);
  const double angle = std::atan2((p.y - side.centre.y).value(), (p.x - side.centre.x).value());
  const double low = std::min(side.start, side.start + side.sweep);
  const double t = angle + 2.0 * pi * std::ceil((low - angle) / (2.0 * pi));
  if (t <= low + std::abs(side.sweep)) return abs(distance(p, side.centre) - side.radius);
  return min(distance(p, side.from), distance(p, side.to));
}

}  // namespace

Region region_of(const Polygon& polygon) {
  if (polygon.size() < 3) return {};
  const Polygon corners = counter_clockwise(polygon);
  Region region;
  region.reserve(corners.size());
  for (std::size_t i = 0; i < corners.size(); ++i) {
    Side side;
    side.from = corners[i];
    side.to = corners[(i + 1) % corners.size()];
    region.push_back(side);
  }
  return region;
}

Region disc(Length diameter) { return rounded_rectangle(diameter, diameter, 0.5 * diameter); }

Region rounded_rectangle(Length width_x, Length length_y, Length corner_radius) {
  const Length a = 0.5 * width_x, b = 0.5 * length_y;
  const Length r = max(Length(0.0), min(corner_radius, min(a, b)));
  if (r.value() == 0.0) return region_of(rectangle(width_x, length_y));
  Region region;
  Point at{a, -(b - r)};
  const auto straight_to = [&](Point to) {
    if (to == at) return;
    Side side;
    side.from = at;
    side.to = to;
    region.push_back(side);
    at = to;
  };
  const auto corner = [&](int quarter, Point centre, Point to) {
    Side side;
    side.from = at;
    side.to = to;
    side.centre = centre;
    side.radius = r;
    side.start = 0.5 * pi * quarter;
    side.sweep = 0.5 * pi;
    region.push_back(side);
    at = to;
  };
  const Length u = a - r, v = b - r;
  straight_to({a, v});
  corner(0, {u, v}, {u, b});
  straight_to({-u, b});
  corner(1, {-u, v}, {-a, v});
  straight_to({-a, -v});
  corner(2, {-u, -v}, {-u, -b});
  straight_to({u, -b});
  corner(3, {u, -v}, {a, -v});
  return region;
}

Region place(const Region& region, double rotation_deg, Point at) {
  Region result = region;
  for (Side& side : result) {
    side.from = rotate(side.from, rotation_deg) + at;
    side.to = rotate(side.to, rotation_deg) + at;
    if (side.radius.value() == 0.0) continue;
    side.centre = rotate(side.centre, rotation_deg) + at;
    side.start += rotation_deg * pi / 180.0;
  }
  return result;
}

Region cut(const Region& region, Point through, double towards_deg) {
  const Point n = rotate({mm(1.0), mm(0.0)}, towards_deg);
  const double nx = n.x.value(), ny = n.y.value();
  Region kept;
  for (const Side& side : region) {
    std::vector<double> at = crossings(side, through, nx, ny);
    at.insert(at.begin(), 0.0);
    at.push_back(1.0);
    for (std::size_t k = 0; k + 1 < at.size(); ++k) {
      const Side half = sub_side(side, at[k], 0.5 * (at[k] + at[k + 1]));
      if (signed_offset(half.to, through, nx, ny) < 0.0) continue;
      kept.push_back(sub_side(side, at[k], at[k + 1]));
    }
  }
  // Each end is led along the cut to the next beginning.
  Region closed;
  for (std::size_t i = 0; i < kept.size(); ++i) {
    closed.push_back(kept[i]);
    const Side& next = kept[(i + 1) % kept.size()];
    if (kept[i].to == next.from) continue;
    Side along_cut;
    along_cut.from = kept[i].to;
    along_cut.to = next.from;
    closed.push_back(along_cut);
  }
  return closed;
}

Polygon polygon_of(const Region& region, double step_deg) {
  Polygon polygon;
  for (const Side& side : region) {
    polygon.push_back(side.from);
    if (side.radius.value() == 0.0) continue;
    const int chords = std::max(
        1, static_cast<int>(std::ceil(std::abs(side.sweep) * 180.0 / pi / step_deg - 1e-9)));
    for (int k = 1; k < chords; ++k)
      polygon.push_back(on_arc(side, side.start + side.sweep * k / chords));
  }
  return polygon;
}

AreaPart whole(const Region& region) {
  if (region.empty()) return {};
  const std::vector<Piece> pieces = monotone(region, Axis::x);
  double a = pieces[0].u0, b = a, l = pieces[0].v0;
  for (const Piece& p : pieces) {
    a = std::min({a, p.u0, p.u1});
    b = std::max({b, p.u0, p.u1});
    l = std::min({l, p.v0, p.v1});
  }
  const Integrals sum = integrate(pieces, a, b, l);
  if (!(sum.area > 0.0)) return {};
  return {Area(sum.area), {Length(a + sum.u / sum.area), Length(l + sum.v / sum.area)}};
}

Interval extent(const Region& region, Axis axis) {
  if (region.empty()) return {};
  Interval result{along(region[0].from, axis), along(region[0].from, axis)};
  for (const Piece& p : monotone(region, axis)) {
    result.low = min(result.low, Length(std::min(p.u0, p.u1)));
    result.high = max(result.high, Length(std::max(p.u0, p.u1)));
  }
  return result;
}

bool contains(const Region& region, Point p) {
  for (const Side& side : region) {
    if (distance_to(side, p).value() < on_boundary) return true;
  }
  // A ray towards +x.
  bool inside = false;
  for (const Piece& piece : monotone(region, Axis::x)) {
    const double v = p.y.value();
    if ((piece.v0 <= v) == (piece.v1 <= v)) continue;
    const double f = parameter_at(piece, false, v);
    const double u = f <= 0.0 ? piece.u0 : f >= 1.0 ? piece.u1 : part_of(piece, 0.0, f).u1;
    if (u > p.x.value()) inside = !inside;
  }
  return inside;
}

std::vector<StripPiece> strip_pieces(const Region& region, Axis axis, Interval across,
                                     const std::vector<Length>& stations) {
  std::vector<Piece> pieces;
  const double low = across.low.value(), high = across.high.value();
  for (const Side& side : region) {
    std::vector<Piece> of_side;
    add_monotone(of_side, side, axis);
    for (Piece& p : of_side) {
      if (trim(p, false, low, high)) pieces.push_back(p);
    }
  }
  if (pieces.empty()) return {};
  // Moments about the strip's own edge, or about the region's where the strip has none.
  double l = pieces[0].v0, h = l;
  std::vector<double> at;
  for (const Piece& p : pieces) {
    at.push_back(p.u0);
    at.push_back(p.u1);
    l = std::min({l, p.v0, p.v1});
    h = std::max({h, p.v0, p.v1});
  }
  const auto [least, most] = std::minmax_element(at.begin(), at.end());
  const double first = *least, last = *most;
  for (const Length station : stations) {
    if (station.value() > first && station.value() < last) at.push_back(station.value());
  }
  std::sort(at.begin(), at.end());
  at.erase(std::unique(at.begin(), at.end(), [](double a, double b) { return b - a < same_place; }),
           at.end());
  if (at.size() > 1) at.back() = last;
  std::vector<StripPiece> result;
  for (std::size_t k = 0; k + 1 < at.size(); ++k) {
    const Integrals sum = integrate(pieces, at[k], at[k + 1], l);
    const double area = orientation(axis) * sum.area;
    if (!(area > 0.0)) continue;
    StripPiece piece;
    piece.along = {Length(at[k]), Length(at[k + 1])};
    piece.area = Area(area);
    // Of slivers rounding may leave a centroid outside.
    piece.centroid_along = Length(std::clamp(at[k] + sum.u / sum.area, at[k], at[k + 1]));
    piece.centroid_across = Length(std::clamp(l + sum.v / sum.area, l, h));
    result.push_back(piece);
  }
  return result;
}

}  // namespace underprop

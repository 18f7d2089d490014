// Plane regions bounded by straight sides and circular arcs, integrated exactly.
//
// Areas and first moments come from Green's theorem: the integral of df/du over a region is the integral of f dv
// along its boundary, counter-clockwise (K. F. Riley, M. P. Hobson and S. J. Bence, Mathematical
// Methods for Physics and Engineering, 3rd ed. 2006, section 11.3). With g(u) = clamp(u, a, b) - a,
// whose derivative is 1 between a and b and 0 elsewhere, over the part of the boundary between v = l
// and v = h:
//   area = int g dv,   first moments: int (u - a) = int g^2/2 dv,   int (v - l) = int g (v - l) dv.
// So a cell is integrated without being clipped. On a straight side the integrands are polynomials; on
// an arc u = cu + r cos t, v = cv + r sin t, and they are integrals of powers of cos t.
#pragma once

#include "underprop/base/geometry.hpp"

#include <vector>

namespace underprop {

/// One side of a region: straight, or a circular arc if its radius is not 0.
struct Side {
  Point from, to;
  Point centre;        ///< of an arc
  Length radius;       ///< 0: a straight side
  double start = 0.0;  ///< arc: the angle of `from` about the centre, rad, from +x towards +y
  double sweep = 0.0;  ///< arc: the turn from `from` to `to`, rad, counter-clockwise positive
};

/// A closed path of sides, each beginning where the one before ends, counter-clockwise. Parts may hang
/// together by sides that run to and fro on one line, as `cut` leaves them: integrals are right.
using Region = std::vector<Side>;

// --- making ------------------------------------------------------------------------------------------

/// Either way round; empty for fewer than three corners.
[[nodiscard]] Region region_of(const Polygon& polygon);
/// A circle about the origin.
[[nodiscard]] Region disc(Length diameter);
/// Centred on the origin. The radius is taken between 0 and half the shorter side.
[[nodiscard]] Region rounded_rectangle(Length width_x, Length length_y, Length corner_radius);
/// Turned about the origin, then moved so that the origin comes to `at`.
[[nodiscard]] Region place(const Region& region, double rotation_deg, Point at);
/// The part on that side of the line through `through` to which the direction at `towards_deg` (from +x
/// towards +y) points.
[[nodiscard]] Region cut(const Region& region, Point through, double towards_deg);
/// For drawings: every arc drawn as chords of at most `step_deg`, its corners on the arc.
[[nodiscard]] Polygon polygon_of(const Region& region, double step_deg);

// --- measuring ---------------------------------------------------------------------------------------

struct AreaPart {
  Area area;
  Point centroid;  ///< the origin if the area is 0
};
[[nodiscard]] AreaPart whole(const Region& region);
[[nodiscard]] Interval extent(const Region& region, Axis axis);
/// Inside, or within 1e-6 mm of the boundary.
[[nodiscard]] bool contains(const Region& region, Point p);

/// A piece of the part of a region that lies in a strip: its width across the strip is smooth between
/// `along.low` and `along.high`.
struct StripPiece {
  Interval along;
  Area area;
  Length centroid_along, centroid_across;
};
/// The part of the region in the strip `across` (a stretch of the coordinate across `axis`), piece by
/// piece along `axis`. Pieces end at the given stations (ascending) and where the width has a corner:
/// at ends of sides, where sides cross the strip's edges, at the extremes of arcs. Pieces without area
/// are left out. The pieces' areas and first moments sum up to those of the part. The width of a convex
/// region is a concave function, so its pieces have their centroid in their middle third; and so have
/// those of any polygon.
[[nodiscard]] std::vector<StripPiece> strip_pieces(const Region& region, Axis axis, Interval across,
                                                   const std::vector<Length>& stations);

}  // namespace underprop

#include "standards/north_america/section.hpp"

#include "standards/north_america/require.hpp"

namespace underprop::standards::north_america {

Section section(Length b, Length d) {
  require(b.value() > 0 && d.value() > 0, "section: b and d must be positive");
  return {b * d, b * d * d / 6.0, b * d * d * d / 12.0};
}

Stress bending_stress(Moment M, Length b, Length d) { return abs(M) / section(b, d).S; }

}  // namespace underprop::standards::north_america

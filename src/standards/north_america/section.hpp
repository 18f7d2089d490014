// A rectangle bent about its strong axis: section properties and bending stress. NDS 3.3.2.
#pragma once

#include "underprop/base/quantity.hpp"

namespace underprop::standards::north_america {

struct Section {
  Area A;            ///< b d
  SectionModulus S;  ///< b d^2/6
  SecondMoment I;    ///< b d^3/12
};

/// Properties of a rectangle of breadth b and depth d, actual dressed sizes. NDS 3.3.2.2, 3.3.2.3.
/// Throws std::domain_error unless both are positive.
Section section(Length b, Length d);

/// f_b = M/S = 6 M/(b d^2). NDS 3.3.2.1, (3.3-2). The sign of M is dropped.
Stress bending_stress(Moment M, Length b, Length d);

}  // namespace underprop::standards::north_america

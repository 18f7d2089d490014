// The units that units.cpp reads, and the words that are refused. Private to base.
#pragma once

#include "underprop/base/quantity.hpp"

#include <span>
#include <string_view>

namespace underprop::detail {

enum class Dimension { length, mass, force, pressure, volume, angle, density };

/// One unit is factor * 10^shift base units. The power of ten stands apart so that "2.4 m" can be
/// read as the decimal 2.4e3, correctly rounded, and equals "2400 mm" to the last bit; an inch is
/// 254 * 10^-1 mm, so that 12 in and 1 ft are the same number too.
struct Unit {
  std::string_view name;
  Dimension dimension;
  double factor;
  int shift = 0;
};

/// Every accepted spelling.
[[nodiscard]] std::span<const Unit> units();

/// A spelling that has more than one meaning.
struct Ambiguous {
  std::string_view name;
  Dimension dimension;
  std::string_view why;
  std::string_view remedy;
};
[[nodiscard]] std::span<const Ambiguous> ambiguous_units();

/// How a dimension is spoken of in messages.
struct Wording {
  std::string_view name;      ///< "length"
  std::string_view examples;  ///< `a length such as "2400 mm"`
  std::string_view units;     ///< the units to choose from
  std::string_view first;     ///< the two units a bare number most likely was in
  std::string_view second;
};
[[nodiscard]] const Wording& wording(Dimension dimension);

}  // namespace underprop::detail

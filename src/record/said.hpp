// Quantities in messages, in the units in which whoever wrote the survey measures.
#pragma once

#include "underprop/base/format.hpp"
#include "underprop/base/units.hpp"

#include <string>
#include <type_traits>

namespace underprop::record {

/// Metric ones as they are written, to the last digit; American ones in feet and inches, pounds, gallons.
template <class Q>
[[nodiscard]] std::string said(UnitSystem units, Q quantity) {
  if (units == UnitSystem::metric) return write_quantity(quantity);
  if constexpr (std::is_same_v<Q, Length>) return format_length(quantity, units);
  if constexpr (std::is_same_v<Q, Mass>) return format_mass(quantity, units);
  if constexpr (std::is_same_v<Q, Volume>) return format_volume(quantity, units);
  if constexpr (std::is_same_v<Q, Pressure>) return format_pressure(quantity, units);
  if constexpr (std::is_same_v<Q, Force>) return format_force(quantity, units);
}

}  // namespace underprop::record

// What kind of action a load is: combinations and durations are chosen by it.
#pragma once

#include <array>
#include <cstddef>

namespace underprop::loads {

enum class Nature {
  self_weight,  ///< the deck's own weight, wet
  dry,          ///< the heavy load itself: shell, tank, stones
  contents,     ///< water to the brim, soil, stores
  people,       ///< in or on the load
  imposed,      ///< people on the rest of the deck
  snow
};
inline constexpr std::size_t nature_count = 6;

/// One factor per Nature.
using Factors = std::array<double, nature_count>;

constexpr double& at(Factors& factors, Nature nature) {
  return factors[static_cast<std::size_t>(nature)];
}
constexpr double at(const Factors& factors, Nature nature) {
  return factors[static_cast<std::size_t>(nature)];
}

}  // namespace underprop::loads

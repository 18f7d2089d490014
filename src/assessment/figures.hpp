// Figures of data/scope.json, by their names.
#pragma once

#include "catalog/table.hpp"

#include <limits>

namespace underprop::assessment {

[[nodiscard]] inline double figure(const char* name) {
  return catalog::number(catalog::table("scope.json"), name);
}

inline constexpr double infinite = std::numeric_limits<double>::infinity();

}  // namespace underprop::assessment

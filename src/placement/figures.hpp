// Figures of data/placement.json, by their names.
#pragma once

#include "catalog/table.hpp"

namespace underprop::placement {

[[nodiscard]] inline double figure(const char* name) {
  return catalog::number(catalog::table("placement.json"), name);
}

}  // namespace underprop::placement

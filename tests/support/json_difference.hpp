// Two JSON texts compared: numbers to a tolerance, everything else exactly.
#pragma once

#include <nlohmann/json_fwd.hpp>

#include <string>
#include <vector>

namespace underprop::test {

struct Tolerance {
  double relative = 1e-9;  ///< of the larger of two numbers
  double absolute =
      1e-12;  ///< two numbers nearer to each other than this are the same: rounding about 0
};

/// What stands in `before` and not so in `now`: one line each, the JSON pointer and both values. A key
/// that is only in `now` is no difference, an entry of an array is. Entries that all have an "id" are
/// compared by it, whatever their order, and a changed order is told once.
std::vector<std::string> json_differences(const nlohmann::json& before, const nlohmann::json& now,
                                          Tolerance tolerance = {});

}  // namespace underprop::test

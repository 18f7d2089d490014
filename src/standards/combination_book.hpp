// Every combination of a standard, made once: they are asked for thousands of times.
#pragma once

#include "underprop/standards/standard.hpp"

#include <array>
#include <functional>
#include <vector>

namespace underprop::standards {

class CombinationBook {
public:
  using Build = std::function<std::vector<Combination>(Purpose, const Circumstances&)>;
  explicit CombinationBook(const Build& build);
  /// Throws std::invalid_argument for a purpose that there is not.
  [[nodiscard]] const std::vector<Combination>& of(Purpose, const Circumstances&) const;

private:
  std::array<std::vector<Combination>, 20> combinations_;  ///< by purpose and circumstances
};

}  // namespace underprop::standards

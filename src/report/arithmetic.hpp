// The lines of a check as an engineer writes them: symbol = expression = numbers = value unit.
// Text, HTML and JSON show the same lines. Private.
#pragma once

#include "underprop/standards/check.hpp"

#include <string>
#include <vector>

namespace underprop::report {

/// The formula of `steps[index]` with every symbol replaced by its latest value above that line,
/// and "x" between factors; empty for a line that says in words where its value comes from. A remark
/// after the formula is left out.
[[nodiscard]] std::string numbers(const std::vector<standards::Step>& steps, std::size_t index);

/// "expression = numbers = value unit", without what is empty or the same as what follows.
[[nodiscard]] std::string sides(const std::vector<standards::Step>& steps, std::size_t index);

}  // namespace underprop::report

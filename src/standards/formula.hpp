// The value of a formula as a line of a check prints it.
//
//   sum     = [-] product { (+ | -) product }
//   product = power { (/ power) | power }         side by side multiplies, from left to right
//   power   = factor [^ factor]
//   factor  = number | symbol | pi | (sum) | function(sum {; sum})
//   function = sqrt, exp, round, min, max; sin, cos, tan of degrees
//
// A symbol is one of the lines above, the latest of that name: a letter, then letters, digits, _ ' *
// and commas that no space follows ("f_h,1,k", "F_b*"). After a comma and a space follows a remark.
#pragma once

#include "underprop/standards/check.hpp"

#include <span>
#include <string_view>

namespace underprop::standards {

/// Works `formula` out from `lines`, in their units. The value may be infinite or no number where
/// the arithmetic is. Throws std::logic_error, naming formula and place, for what is no formula and
/// for a symbol that no line has: a fault of the program, never of its input.
[[nodiscard]] double value_of(std::string_view formula, std::span<const Step> lines);

}  // namespace underprop::standards

// The answer of one rule or check: demand, resistance, utilisation, and every line of arithmetic.
#pragma once

#include "underprop/base/citation.hpp"

#include <string>
#include <vector>

namespace underprop::standards {

/// One line of arithmetic as an engineer would write it on paper.
///
/// A formula can be worked out again from the lines above it: numbers, their symbols, + - / ^,
/// brackets, pi, sqrt, sin, cos, tan, exp, round, min(a; b), max(a; b); "x" or a space multiplies.
/// After a comma and a space follows a remark in words. Angles in degrees.
struct Step {
  std::string symbol;      ///< "k_crit"
  std::string expression;  ///< "1.56 - 0.75 lambda_rel,m"
  double value = 0.0;      ///< in `unit`
  std::string unit;        ///< "N/mm2", "lb", "" for a plain number
  Citation source;         ///< the clause; key empty for given data
  bool formula = false;    ///< false: the expression says in words where the value comes from
};

/// The result of checking one demand against one rule. Pass is utilisation <= 1, unrounded.
struct Check {
  std::string check;    ///< "bending", "shear", "bearing across the grain", ...
  double demand = 0.0;  ///< in `unit`
  double resistance =
      0.0;  ///< in `unit`; 0 = nothing that counts (utilisation is then infinite if demand > 0)
  std::string unit;
  double utilisation = 0.0;
  Citation source;  ///< the governing clause
  std::vector<Step> steps;
};

}  // namespace underprop::standards

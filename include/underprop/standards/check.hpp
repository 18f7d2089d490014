// The answer of one rule or check: demand, resistance, utilisation, and every line of arithmetic.
#pragma once

#include "underprop/base/citation.hpp"

#include <cstddef>
#include <string>
#include <vector>

namespace underprop::standards {

/// One line of arithmetic as an engineer would write it on paper.
///
/// A formula is worked out from the lines above it, as `standards/formula.hpp` says.
struct Step {
  std::string symbol;      ///< "k_crit"
  std::string expression;  ///< "1.56 - 0.75 lambda_rel,m"
  double value = 0.0;      ///< in `unit`
  std::string unit;        ///< "N/mm2", "lb", "" for a plain number
  Citation source;         ///< the clause; key empty for given data
  bool formula = false;    ///< false: the expression says in words where the value comes from
};

/// What a check is about. The first block are the standards' own; the second are what an assessment
/// calls a check by the place it stands in, or asks without a standard's sheet.
enum class CheckKind {
  bending,
  shear,
  shear_at_notch,
  bearing,
  column,
  joist_end,
  ledger_fixing,
  ledger_pull_off,
  side_bolts,
  hold_down,
  ground,
  held_upright,
  board_point_load,

  post_buckling,
  end_connection,
  post_side_bolts,
  ground_pressure,
  splice,
  frost_depth,
  stated_board_span,
  person_on_board,
  deflection_now,
  deflection_long,
  level,
  gap_opens,
  equilibrium,
  sway_x,
  sway_y,
  toppling,
  board_overhang,  ///< a standard's own too
  decay
};
inline constexpr std::size_t check_kinds = 31;
/// What people read: "bending", "bearing across the grain". Throws std::out_of_range for what is no
/// enumerator.
[[nodiscard]] const char* name_of(CheckKind kind);

/// The result of checking one demand against one rule. Pass is utilisation <= 1, unrounded.
struct Check {
  CheckKind kind = CheckKind::bending;
  std::string check;    ///< name_of(kind)
  double demand = 0.0;  ///< in `unit`
  double resistance =
      0.0;  ///< in `unit`; 0 = nothing that counts (utilisation is then infinite if demand > 0)
  std::string unit;
  double utilisation = 0.0;
  Citation source;  ///< the governing clause
  std::vector<Step> steps;

  /// The same check by the name of the place that it is made for.
  void call(CheckKind as) {
    kind = as;
    check = name_of(as);
  }
};

/// Utilisations that differ by less, relative, are the same number: sums of lengths round so.
inline constexpr double same_number = 1e-9;
/// 1.00 is the limit and passes. No number fails.
[[nodiscard]] inline bool fails(double utilisation) { return !(utilisation <= 1.0 + same_number); }

}  // namespace underprop::standards

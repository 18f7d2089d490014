// What the planner offers: data/works_catalogue.json.
#pragma once

#include "underprop/base/quantity.hpp"
#include "underprop/record/survey.hpp"

#include <string>
#include <vector>

namespace underprop::planner {

struct Section {
  int plies = 1;
  Length breadth, depth;  ///< of one ply
};

struct Catalogue {
  std::string timber;
  std::vector<Section> bearers;  ///< shallowest first
  std::vector<Length> pads;      ///< sides of square pads, ascending
  Length pad_depth;              ///< underside below the ground, at least
  Length pad_step;               ///< thicknesses are rounded up to this
  Section brace;
  std::vector<Length> pad_spacings;  ///< ascending
  Length overhang, least_post, third_points_from, move_step;
  Length ledger_bolt;                        ///< diameter
  std::vector<Length> ledger_bolt_spacings;  ///< ascending
  Length ledger_bolt_end;                    ///< from a ledger's end to the first bolt
  int move_grid = 0;
};

/// Throws std::logic_error if the embedded table is broken: a build fault.
[[nodiscard]] Catalogue catalogue(record::StandardId standard);

}  // namespace underprop::planner

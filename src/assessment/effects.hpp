// What one solved state does to each piece: the largest effects, with their places.
#pragma once

#include "model/grillage.hpp"
#include "sections.hpp"
#include "solver/condensed.hpp"
#include "underprop/solver/analysis.hpp"

#include <span>
#include <vector>

namespace underprop::assessment {

struct Peak {
  double value = 0.0;
  double at = 0.0;  ///< coordinate along the piece, mm
};

/// Bending and shear of one line of members; moments and shears as absolute values.
struct SectionEffects {
  Peak sag, hog, shear;
};
/// Shear without what may be left out beside supports underneath; within a section with all of it.
struct LineEffects : SectionEffects {
  std::vector<SectionEffects> sections;  ///< per LineRules::sections
};

struct Effects {
  std::vector<LineEffects> joists, bearers, ledgers;
  LineEffects boards;  ///< the worst of all boards
  Point boards_at;     ///< where that board's sagging peak is
};

/// The members that effects() needs, gathered once per model.
struct Probes {
  std::vector<int> frame_members;    ///< joists, bearers, ledgers
  std::vector<solver::Group> lines;  ///< each of them, among frame_members
  std::vector<int> board_members;
  std::vector<LineRules> rules;  ///< per line; empty: none
};
Probes probes(const model::Model& model);

Effects effects(const model::Model& model, const solver::Analysis& analysis, const Probes& probes,
                const solver::Response& response, std::span<const solver::CaseFactor> combination,
                bool with_boards);

/// The same, boards apart, of a condensed state that reads `probes(model).frame_members` first.
Effects effects(const model::Model& model, const Probes& probes, const solver::State& state);

}  // namespace underprop::assessment

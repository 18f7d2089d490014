// The drawings of the report: the deck in plan, its deflected shape, the works.
#pragma once

#include "svg.hpp"
#include "underprop/base/format.hpp"
#include "underprop/placement/placement.hpp"
#include "underprop/planner/planner.hpp"

#include <functional>
#include <map>
#include <string>

namespace underprop::report {

/// Largest utilisation of each piece's safety findings.
[[nodiscard]] std::map<std::string, double> worst_by_piece(
    const assessment::Assessment& assessment);

/// The deck to scale, every piece by its utilisation, the load, pads with reactions, dimensions.
[[nodiscard]] std::string plan_drawing(const deck::Deck& deck,
                                       const assessment::Assessment& assessment, UnitSystem units);

/// Deflected lines, exaggerated; empty if there are none.
[[nodiscard]] std::string shape_drawing(const deck::Deck& deck,
                                        const std::vector<assessment::Shape>& shapes,
                                        UnitSystem units);

/// The deck pale, and every place of the load's centre that was looked at, turned as given.
[[nodiscard]] std::string placement_drawing(const deck::Deck& deck,
                                            const placement::Placement& placement,
                                            double rotation_deg, const std::string& id,
                                            UnitSystem units);

/// The deck pale, what is new in ink, numbered in the order of `works`.
[[nodiscard]] std::string works_drawing(const deck::Deck& before, const deck::Deck& after,
                                        const std::vector<works::Work>& works, UnitSystem units);

// --- shared by the plan and the works ---------------------------------------------------------------

/// How one piece is drawn: a class of the style sheet, and attributes beside it.
struct Look {
  std::string css, extra;
};
using Looks = std::function<Look(const std::string& piece)>;

/// Everything that has to be on the paper.
[[nodiscard]] Box extent_of(const deck::Deck& deck);
/// Patterns; `id` prefixes their names.
void draw_patterns(Svg& svg, const std::string& id);
void draw_ground(Svg& svg, const deck::Deck& deck, const std::string& id);
void draw_pieces(Svg& svg, const deck::Deck& deck, const Looks& looks);
void draw_loads(Svg& svg, const deck::Deck& deck);
/// The shade of a utilisation: u1 to u5 of the style sheet.
[[nodiscard]] const char* shade(double utilisation);
/// Overall dimensions, corner A with its axes, a scale bar.
void draw_dimensions(Svg& svg, const deck::Deck& deck, UnitSystem units, bool loads);
[[nodiscard]] Svg::Margins plan_margins();

/// Plan coordinates of a point at `along` on a piece that runs in `direction` at `across`.
[[nodiscard]] Point on(Axis direction, Length across, Length along);

}  // namespace underprop::report

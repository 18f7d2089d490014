// The arithmetic of a take-off: bags, ready-mix, packs, stock lengths, sheets of mesh. Pure functions.
#pragma once

#include "underprop/base/quantity.hpp"

#include <vector>

namespace underprop::costing {

/// Whole bags for a volume of concrete in place; `waste` is a share of it (0.1 for 10 %).
/// Throws std::invalid_argument if per_bag is not positive or anything is negative or not finite.
[[nodiscard]] int bags_for(Volume concrete, Volume per_bag, double waste);

/// Whole packs of `per_pack` for `count` things; 0 for none. Throws std::invalid_argument likewise.
[[nodiscard]] int packs_for(int count, int per_pack);

/// Volume to order: concrete and waste, up to the next step, and at least `least`; 0 for none.
[[nodiscard]] Volume ready_mix_for(Volume concrete, double waste, Volume step, Volume least);

/// One length out of the shop and what is cut from it.
struct StockBar {
  Length stock;
  std::vector<Length> pieces;  ///< descending
  bool special = false;        ///< longer than anybody stocks
};
struct CuttingPlan {
  std::vector<StockBar> bars;
  Length bought, used;
  [[nodiscard]] double waste() const {  ///< share of what is bought
    return bought > Length() ? 1.0 - used / bought : 0.0;
  }
};
/// Pieces cut from stock lengths, `kerf` lost between two pieces: the least length bought for up to
/// eight pieces, first-fit decreasing beyond (each bar then exchanged for the shortest that holds its
/// pieces). A piece longer than the longest stock is a bar of its own. `stock` ascending, not empty;
/// pieces positive; else std::invalid_argument.
[[nodiscard]] CuttingPlan cutting_plan(std::vector<Length> pieces, const std::vector<Length>& stock,
                                       Length kerf);

/// Sheets of mesh that cover width x length inside the cover, the better way round, `lap` at joints.
/// Throws std::invalid_argument if a sheet is not larger than the lap.
[[nodiscard]] int mesh_sheets(Length width, Length length, Length cover, Length sheet_long,
                              Length sheet_short, Length lap);

/// Bars of one direction: lines at most `spacing` apart across `width` inside the cover.
[[nodiscard]] int bar_lines(Length width, Length cover, Length spacing);

}  // namespace underprop::costing

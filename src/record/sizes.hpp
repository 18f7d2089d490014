// What the data tables say about names of timber and nominal sizes, as far as a survey needs it.
#pragma once

#include "underprop/record/survey.hpp"

#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace underprop::record {

/// The timbers of the standard's tables, in the order of the tables; empty if there is no table.
[[nodiscard]] const std::vector<std::string>& timber_names(StandardId standard);

/// A nominal size spelt "2x8": thickness and width in whole inches.
struct NominalSize {
  int thickness = 0, width = 0;
};
[[nodiscard]] std::optional<NominalSize> nominal_size(std::string_view text);
/// Actual dry breadth and depth; nullopt if the table does not have it.
[[nodiscard]] std::optional<std::pair<Length, Length>> dressed_size(NominalSize size);

/// Dressed thickness of a North American deck board as it is sold: "5/4x6", "5/4", "2x6".
std::optional<Length> sold_board_thickness(std::string_view text);

}  // namespace underprop::record

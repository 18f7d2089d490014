// What the data tables say about names of timber and nominal sizes, as far as a survey needs it.
#pragma once

#include "underprop/survey/survey.hpp"

#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace underprop::survey {

/// The timbers of the standard's tables, in the order of the tables; empty if there is no table.
[[nodiscard]] const std::vector<std::string>& timber_names(StandardId standard);

/// A nominal size spelt "2x8": thickness and width in whole inches.
struct NominalSize {
  int thickness = 0, width = 0;
};
[[nodiscard]] std::optional<NominalSize> nominal_size(std::string_view text);
/// Actual dry breadth and depth; nullopt if the table does not have it.
[[nodiscard]] std::optional<std::pair<Length, Length>> dressed_size(NominalSize size);

/// A size as people say it: "2x8", "8x2", "225x50 sawn", "47 x 145 mm", "1 1/2 in x 7 1/4 in".
struct SpokenSize {
  bool understood = false;
  Fact<Length> breadth, depth;  ///< actual sizes, the smaller one first
  std::string how;              ///< how it was resolved: "as sold, regularised"; "as measured"
  std::string problem, remedy;  ///< why it was not, or between what it is ambiguous, and what to say
};
/// By region and finish, from data/north_america/sizes.json and data/eurocode/sizes.json. A name that
/// could mean two sizes is not guessed but asked back.
[[nodiscard]] SpokenSize spoken_size(std::string_view text, StandardId standard);

}  // namespace underprop::survey

// Sizes of timber as people say them, resolved to actual sizes by region and finish.
#pragma once

#include "underprop/record/survey.hpp"

#include <string>
#include <string_view>

namespace underprop::record {

/// A size as people say it: "2x8", "8x2", "225x50 sawn", "47 x 145 mm", "1 1/2 in x 7 1/4 in".
struct SpokenSize {
  bool understood = false;
  Fact<Length> breadth, depth;  ///< actual sizes, the smaller one first
  std::string how;              ///< how it was resolved: "as sold, regularised"; "as measured"
  std::string problem,
      remedy;  ///< why it was not, or between what it is ambiguous, and what to say
};
/// By region and finish, from data/north_america/sizes.json and data/eurocode/sizes.json. A name that
/// could mean two sizes is not guessed but asked back.
[[nodiscard]] SpokenSize spoken_size(std::string_view text, StandardId standard);

}  // namespace underprop::record

// The heights of a deck are one chain: surface - boards - joist - bearer - post - packers = top of the
// footing, over the lowest ground beside the deck.
#pragma once

#include "underprop/record/survey.hpp"

#include <optional>
#include <string>

namespace underprop::deck {

struct HeightChain {
  std::optional<Length> top;  ///< of the footing; none while a height of the chain is open
  Length pieces;              ///< boards, joist, bearer and post together
  Length rise;                ///< how far the ground rises under the deck, at most
  Length packers;             ///< what packers that nobody measured may add, at most
  std::string words;  ///< "the surface, 600 mm over ground, less boards 28 mm, joist 145 mm ..."
};

[[nodiscard]] HeightChain height_chain(const record::Survey& survey, const record::Supports& group);

/// By how much the heights do not add up, and how that is said: the sum and what it is held against.
struct HeightMiss {
  Length by;
  std::string found;
};
/// None where a height is open, or for footings whose top may stand at any height (piles, strips).
[[nodiscard]] std::optional<HeightMiss> height_miss(const record::Survey& survey,
                                                    const record::Supports& group);

}  // namespace underprop::deck

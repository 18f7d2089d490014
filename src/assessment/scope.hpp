// What the program may not judge, and how joists are held upright.
#pragma once

#include "properties.hpp"

#include <string>
#include <vector>

namespace underprop::assessment {

struct Scope {
  std::vector<std::string> refer_reasons;
  std::vector<std::string> feared;  ///< JSON Pointers of surroundings taken as in the way
};
/// `loaded_supports`: indices into Deck::supports; `loaded_walls` likewise.
Scope scope(const deck::Deck& deck, const std::vector<std::size_t>& loaded_supports,
            const std::vector<std::size_t>& loaded_walls);

/// Is the joist held upright at both ends: hanger, rim, or blocking near its support?
bool ends_held(const deck::Deck& deck, std::size_t joist);
/// Is the bearer held upright: joists fixed to it or framed into it, or bolts to the side of every post?
bool bearer_held(const deck::Deck& deck, std::size_t bearer);
/// Longest stretch of a joist between places where it is held upright.
Length unbraced(const deck::Deck& deck, std::size_t joist);

}  // namespace underprop::assessment

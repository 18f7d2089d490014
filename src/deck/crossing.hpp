// What crosses what in a resolved deck.
#pragma once

#include "underprop/deck/deck.hpp"

namespace underprop::deck {

/// Held by fixings, not only by what it lies on.
[[nodiscard]] constexpr bool is_fastened(record::Hold hold) {
  return hold != record::Hold::resting && hold != record::Hold::free;
}

/// The joist passes over, or meets, the bearer.
[[nodiscard]] bool crosses(const Joist& joist, const Bearer& bearer);

/// Does anything carry the joist, or any fixing hold it, between `from` and `to` along it?
[[nodiscard]] bool carried_within(const Deck& deck, const Joist& joist, Length from, Length to);

}  // namespace underprop::deck

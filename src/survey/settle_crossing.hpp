// What crosses what in a settled deck.
#pragma once

#include "underprop/survey/deck.hpp"

namespace underprop::survey {

/// Held by fixings, not only by what it lies on.
[[nodiscard]] constexpr bool is_fastened(Hold hold) {
  return hold != Hold::resting && hold != Hold::free;
}

/// The joist passes over, or meets, the bearer.
[[nodiscard]] bool crosses(const Joist& joist, const SettledBearer& bearer);

/// Does anything carry the joist, or any fixing hold it, between `from` and `to` along it?
[[nodiscard]] bool carried_within(const Deck& deck, const Joist& joist, Length from, Length to);

}  // namespace underprop::survey

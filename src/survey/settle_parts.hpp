// The steps of settling, in their order.
#pragma once

#include "settle_facts.hpp"
#include "settle_layout.hpp"

#include "underprop/survey/deck.hpp"

namespace underprop::survey {

[[nodiscard]] SettledSite settle_site(const Survey& survey, FactTaker& facts);
void settle_timber(const Survey& survey, const Layout& layout, FactTaker& facts, Deck& deck);
void settle_supports(const Survey& survey, const Layout& layout, FactTaker& facts, Deck& deck);
/// After everything that can be probed is there.
void settle_probing(const Survey& survey, FactTaker& facts, Deck& deck);
[[nodiscard]] SettledLoad settle_load(const Survey& survey, std::size_t index, FactTaker& facts);
/// After everything else: what was found to be wrong, written into the pieces.
void apply_conditions(const Survey& survey, const FactTaker& facts, Deck& deck);

/// Does the end of this joist meet a ledger or a flush bearer?
[[nodiscard]] bool end_meets_carrier(const Survey& survey, const Layout& layout,
                                     const PieceLine& joist, bool at_start);

[[nodiscard]] inline std::string pointer(const char* list, std::size_t index, const char* rest) {
  return std::string(list) + "/" + std::to_string(index) + "/" + rest;
}

}  // namespace underprop::survey

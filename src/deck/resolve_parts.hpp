// The steps of resolving, in their order.
#pragma once

#include "heights.hpp"
#include "layout.hpp"
#include "resolve_facts.hpp"

#include "underprop/deck/deck.hpp"

namespace underprop::deck {

[[nodiscard]] Site resolve_site(const record::Survey& survey, const Layout& layout,
                                FactTaker& facts);
void resolve_timber(const record::Survey& survey, const Layout& layout, FactTaker& facts,
                    Deck& deck);
void resolve_supports(const record::Survey& survey, const Layout& layout, FactTaker& facts,
                      Deck& deck);
/// After everything that can be probed is there.
void resolve_probing(const record::Survey& survey, FactTaker& facts, Deck& deck);
/// `told`: what follows from the record, in sentences.
[[nodiscard]] Load resolve_load(const record::Survey& survey, std::size_t index, FactTaker& facts,
                                std::vector<std::string>& told);
/// After everything that has a place: who meets whom, told where an end just misses.
void resolve_meetings(const FactTaker& facts, Deck& deck);
/// After everything else: what was found to be wrong, written into the pieces.
void apply_conditions(const record::Survey& survey, const FactTaker& facts, Deck& deck);

/// European values know no deduction for incising; in America some species are treated without it.
[[nodiscard]] bool may_be_incised(record::StandardId standard, const Fact<std::string>& timber);

[[nodiscard]] inline std::string pointer(const char* list, std::size_t index, const char* rest) {
  return std::string(list) + "/" + std::to_string(index) + "/" + rest;
}

}  // namespace underprop::deck

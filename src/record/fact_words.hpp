// The words of data/facts.json for enumerated facts, and back.
#pragma once

#include "underprop/record/survey.hpp"

#include <stdexcept>
#include <string>
#include <string_view>
#include <utility>

namespace underprop::record {

template <class E>
struct FactWords;

#define UNDERPROP_FACT_WORDS(E, ...)                                         \
  template <>                                                                \
  struct FactWords<E> {                                                      \
    static constexpr std::pair<std::string_view, E> table[] = {__VA_ARGS__}; \
  }

UNDERPROP_FACT_WORDS(Use, {"one household", Use::one_household}, {"shared", Use::shared},
                     {"public use", Use::public_use}, {"rented", Use::rented});
UNDERPROP_FACT_WORDS(SpaceBelow, {"none", SpaceBelow::none}, {"storage", SpaceBelow::storage},
                     {"used", SpaceBelow::used});
UNDERPROP_FACT_WORDS(Fill, {"none", Fill::none},
                     {"older than ten years", Fill::older_than_ten_years},
                     {"younger than ten years", Fill::younger_than_ten_years});
UNDERPROP_FACT_WORDS(Hold, {"resting", Hold::resting}, {"hanger", Hold::hanger},
                     {"ledger strip", Hold::ledger_strip}, {"end grain", Hold::end_grain},
                     {"skew nails", Hold::skew_nails}, {"free", Hold::free});
UNDERPROP_FACT_WORDS(HeldDown, {"nothing", HeldDown::nothing}, {"nailed", HeldDown::nailed},
                     {"screwed", HeldDown::screwed}, {"strapped", HeldDown::strapped});
UNDERPROP_FACT_WORDS(RimFixing, {"end grain", RimFixing::end_grain},
                     {"hangers", RimFixing::hangers}, {"cleats", RimFixing::cleats});
UNDERPROP_FACT_WORDS(LedgerWall, {"timber band", LedgerWall::timber_band},
                     {"solid masonry", LedgerWall::solid_masonry},
                     {"concrete", LedgerWall::concrete},
                     {"cavity outer leaf", LedgerWall::cavity_outer_leaf},
                     {"veneer", LedgerWall::veneer}, {"insulation", LedgerWall::insulation});
UNDERPROP_FACT_WORDS(FixingKind, {"bolt", FixingKind::bolt}, {"lag screw", FixingKind::lag_screw},
                     {"screw", FixingKind::screw}, {"nail", FixingKind::nail},
                     {"anchor", FixingKind::anchor});
UNDERPROP_FACT_WORDS(BearerOnPost, {"on top", BearerOnPost::on_top},
                     {"beside", BearerOnPost::beside});
UNDERPROP_FACT_WORDS(PostBase, {"pinned", PostBase::pinned}, {"fixed", PostBase::fixed});
UNDERPROP_FACT_WORDS(FootingKind, {"cast pad", FootingKind::cast_pad},
                     {"laid slab", FootingKind::laid_slab}, {"deck block", FootingKind::deck_block},
                     {"post in concrete", FootingKind::post_in_concrete},
                     {"screw pile", FootingKind::screw_pile}, {"strip", FootingKind::strip},
                     {"unknown", FootingKind::unknown});
UNDERPROP_FACT_WORDS(BaseKind, {"full", BaseKind::full}, {"runners", BaseKind::runners},
                     {"feet", BaseKind::feet});
#undef UNDERPROP_FACT_WORDS

template <class E>
[[nodiscard]] std::string_view fact_word(E value) {
  for (const auto& [word, v] : FactWords<E>::table) {
    if (v == value) return word;
  }
  throw std::logic_error("an enumerator without a word");
}
template <class E>
[[nodiscard]] E from_fact_word(std::string_view text) {
  for (const auto& [word, v] : FactWords<E>::table) {
    if (word == text) return v;
  }
  throw std::logic_error("data/facts.json: no such word: " + std::string(text));
}

}  // namespace underprop::record

// A resolved deck under one standard: the timber of every piece, and the model's properties.
#pragma once

#include "model/grillage.hpp"
#include "underprop/assessment/assessment.hpp"

#include <vector>

namespace underprop::assessment {

/// The soil of the whole site; `harder`, `softer`: one pad unlike its neighbours on soft, on stiff ground of
/// the same sort, by no more than soil varies on one site (data/model.json).
enum class GroundBound { soft, middle, stiff, harder, softer };

/// The timber of every piece under the standard.
struct Timbers {
  std::vector<standards::Timber> joists, bearers, ledgers;
  std::vector<std::vector<standards::Timber>> sisters;  ///< per joist
  std::vector<std::optional<standards::Timber>> posts;  ///< per support
  standards::Timber boards;
};

Timbers timbers(const deck::Deck& deck, const standards::Standard& standard);

/// `on`: the meeting of this end with what it is framed into or hung on; nullptr if there is nothing, or
/// a rim: then wood like the joist's own stands in for it.
standards::EndDemand end_demand(const deck::Deck& deck, const Timbers& timbers, std::size_t joist,
                                int end, const deck::Meeting* on);
standards::LedgerFixingDemand ledger_demand(const deck::Deck& deck, const Timbers& timbers,
                                            std::size_t ledger);
/// How joists load that ledger; hung on its face: in hangers, on a strip, or nailed to it. The worst counts.
enum class OnLedger { none, resting, hung };
OnLedger joists_on(const deck::Deck& deck, std::size_t ledger);
/// From the wall's face to where they load it (data/scope.json); 0: no joists.
Length ledger_arm(const deck::Deck& deck, std::size_t ledger);
/// From where the wall presses on the ledger up to its fixings, for the couple of that arm: of the rows
/// recorded, else the least of two rows (standards/ledger_couple.hpp, data/scope.json).
Length ledger_lever(const deck::Ledger& ledger);
standards::HoldDownDemand hold_down_demand(const deck::Deck& deck, const Timbers& timbers,
                                           std::size_t bearer);

/// Weight of the post of that support, wet as it stands outdoors; 0 without a post.
Force post_weight(const deck::Deck& deck, std::size_t support, const standards::Standard& standard);

/// Vertical stiffness of one support: ground, post and crushing one after the other, N/mm.
double support_stiffness(const deck::Deck& deck, const Timbers& timbers,
                         const standards::Standard& standard, std::size_t support,
                         GroundBound ground);

model::Properties properties(const deck::Deck& deck, const Timbers& timbers,
                             const standards::Standard& standard, GroundBound ground,
                             standards::Term term);

standards::SoilKind soil_kind(const deck::Site& site);

}  // namespace underprop::assessment

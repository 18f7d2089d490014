// Words of the verdict.
#pragma once

#include "underprop/assessment/assessment.hpp"
#include "underprop/deck/deck.hpp"

#include <string>

namespace underprop::assessment {

/// Why a piece is loose: fixings that are only taken as unsound are told as not looked at, with how to look.
[[nodiscard]] std::string told_as_unseen(std::string mechanism, const record::Survey& survey);
/// A piece of which a part counts as absent is loose for that reason.
[[nodiscard]] std::string with_reason(const std::string& mechanism, const deck::Deck& deck);

}  // namespace underprop::assessment

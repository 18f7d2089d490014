// Words of the verdict.
#pragma once

#include "underprop/assessment/assessment.hpp"
#include "underprop/deck/deck.hpp"

#include <cstddef>
#include <string>
#include <vector>

namespace underprop::assessment {

/// What must be seen and is not, in as few words as will do.
[[nodiscard]] std::vector<std::string> few_words(const std::vector<const MustSee*>& missing);
/// A piece of which a part counts as absent is loose for that reason.
/// Why a piece is loose: fixings that are only taken as unsound are told as not looked at, with how to look.
[[nodiscard]] std::string told_as_unseen(std::string mechanism, const record::Survey& survey);
[[nodiscard]] std::string with_reason(const std::string& mechanism, const deck::Deck& deck);
/// "a; b; and 3 more"
[[nodiscard]] std::string listed(const std::vector<std::string>& items, std::size_t most);

}  // namespace underprop::assessment

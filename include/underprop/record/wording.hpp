// What is told to people about a survey in place of keys and places of its file.
#pragma once

#include "underprop/record/facts.hpp"
#include "underprop/record/format.hpp"

#include <string>
#include <vector>

namespace underprop::record {

/// Places of the file in a text, "/deck/joists/0/breadth", as words: "joists J, breadth".
[[nodiscard]] std::string in_words(const Survey& survey, const std::string& text);

/// FactKind::find_out in the words of the standard's country: whom to ask about local rules.
[[nodiscard]] std::string how_to_find_out(const FactKind& kind, StandardId standard);
/// ActOnSite::what, likewise.
[[nodiscard]] std::string act_in_words(Act act, StandardId standard);

}  // namespace underprop::record

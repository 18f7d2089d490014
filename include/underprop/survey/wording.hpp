// What is told to people about a survey in place of keys and places of its file.
#pragma once

#include "underprop/survey/facts.hpp"
#include "underprop/survey/read.hpp"

#include <string>
#include <vector>

namespace underprop::survey {

/// Places of the file in a text, "/deck/joists/0/breadth", as words: "joists J, breadth".
[[nodiscard]] std::string in_words(const Survey& survey, const std::string& text);

/// FactKind::find_out in the words of the standard's country: whom to ask about local rules.
[[nodiscard]] std::string how_to_find_out(const FactKind& kind, StandardId standard);

/// Of odd values, those that were questioned while the deck was recorded and that stand as they were kept then.
[[nodiscard]] std::vector<Warning> kept_while_recording(const Survey& survey,
                                                        const std::vector<Warning>& odd);

}  // namespace underprop::survey

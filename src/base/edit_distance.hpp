// "Did you mean ...?"
#pragma once

#include <cstddef>
#include <span>
#include <string>
#include <string_view>

namespace underprop {

/// The least number of insertions, deletions, substitutions and swaps of neighbours (each place
/// edited once: optimal string alignment) that turns a into b. Letter case does not count (ASCII).
/// Strings longer than 64 bytes are compared by their first 64.
[[nodiscard]] std::size_t edit_distance(std::string_view a, std::string_view b);

/// The candidate nearest to `word`, the first of equals; "" if none is near: more than a third of the
/// longer word would have to change.
[[nodiscard]] std::string_view nearest_word(std::string_view word,
                                            std::span<const std::string_view> candidates);

}  // namespace underprop

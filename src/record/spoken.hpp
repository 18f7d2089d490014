// What people type, made plain: signs that keyboards and phones put in place of others.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace underprop::record {

/// Without blanks at the ends; runs of blanks are one; "½" is " 1/2", "×" is "x", long dashes are
/// "-", curly quotation marks are straight; control characters are blanks.
[[nodiscard]] std::string tidy(std::string_view text);
/// ASCII letters in lower case.
[[nodiscard]] std::string lower(std::string_view text);
/// The parts between the separators, tidy, empty ones left out.
[[nodiscard]] std::vector<std::string> split(std::string_view text, char separator);

}  // namespace underprop::record

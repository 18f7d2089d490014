// Whether bytes are text.
#pragma once

#include <cstddef>
#include <string_view>

namespace underprop {

/// The first byte that is not part of well-formed UTF-8 (Unicode Standard, table 3-7), or npos.
[[nodiscard]] std::size_t first_bad_utf8(std::string_view text);

}  // namespace underprop

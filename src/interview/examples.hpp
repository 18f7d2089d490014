// An example for each question that asks for a quantity.
#pragma once

#include "parts.hpp"

#include <string>

namespace underprop::interview {

/// An example of an answer that fits the question ("such_as" of data/interview.json); "" if it has none.
[[nodiscard]] std::string such_as(const Ask& ask, record::StandardId standard);

}  // namespace underprop::interview

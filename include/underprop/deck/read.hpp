// Reading a survey file and refusing what makes no sense.
#pragma once

#include "underprop/record/format.hpp"

#include <string>
#include <string_view>
#include <vector>

namespace underprop::deck {

struct ReadResult {
  record::Survey survey;
  std::vector<record::Warning> warnings;
};

/// Reads the text of a survey file. Throws underprop::InputErrors with every error found, each with
/// its JSON Pointer. `file` is only used in messages.
ReadResult read_survey(std::string_view text, const std::string& file);

}  // namespace underprop::deck

// What the declarations say, as data.
#pragma once

#include "underprop/record/format.hpp"

#include <string>
#include <utility>
#include <vector>

namespace underprop::record {

struct Listing {
  std::vector<Field> fields;
  /// Types of objects and what they are, those inside another before it.
  std::vector<std::pair<std::string, std::string>> types;
};
[[nodiscard]] const Listing& survey_listing();
[[nodiscard]] std::string schema_of(const Listing& listing, std::string_view title);
[[nodiscard]] std::string field_list_of(const Listing& listing);

}  // namespace underprop::record

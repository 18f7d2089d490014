// Where a number or a formula comes from: a key of data/sources.json and the place in that document.
#pragma once

#include <string>

namespace underprop {

struct Citation {
  std::string key;    ///< a key of data/sources.json, e.g. "en1995-1-1"
  std::string where;  ///< clause, table or page in that document, e.g. "6.1.6(1) (6.11)"

  bool operator==(const Citation&) const = default;
};

}  // namespace underprop

// What a standard brings along outside its own rules, from data/standards.json: whoever needs units,
// prices or the rows of a shared table asks here and never which standard it is.
#pragma once

#include "underprop/base/format.hpp"
#include "underprop/record/survey.hpp"

#include <string>
#include <vector>

namespace underprop::record {

struct StandardFacts {
  StandardId id = StandardId::eurocode_uk;
  std::string word;    ///< in a survey: "eurocode-uk"
  std::string key;     ///< its rows in shared tables: "eurocode_uk"
  std::string folder;  ///< of its own tables: "eurocode"
  UnitSystem units = UnitSystem::metric;
  std::string prices;    ///< table of prices: "prices/uk.json"
  std::string currency;  ///< "GBP"
  std::string person;    ///< JSON pointer to the mass of a person in `folder`/loads.json, kg
  std::string presumed;  ///< name of the presumed bearing values in `folder`/ground.json
  bool incised_unless_named = false;  ///< treated timber is incised unless its species needs none
  bool snow_asked = false;            ///< a snow load that nobody recorded is an open fact
  bool seismic = false;               ///< raised decks need a seismic design category
};

/// In the order of StandardId.
[[nodiscard]] const std::vector<StandardFacts>& all_standards();
[[nodiscard]] const StandardFacts& facts_of(StandardId standard);

}  // namespace underprop::record

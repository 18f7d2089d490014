#include "underprop/record/standard_facts.hpp"

#include "catalog/table.hpp"

#include <nlohmann/json.hpp>

#include <stdexcept>

namespace underprop::record {

namespace {

std::vector<StandardFacts> read() {
  std::vector<StandardFacts> all;
  for (const nlohmann::json& row : catalog::table("standards.json").at("standards")) {
    StandardFacts facts;
    facts.id = static_cast<StandardId>(all.size());
    facts.word = row.at("standard").get<std::string>();
    facts.key = row.at("key").get<std::string>();
    facts.folder = row.at("folder").get<std::string>();
    facts.units =
        row.at("us_customary").get<bool>() ? UnitSystem::us_customary : UnitSystem::metric;
    facts.prices = row.at("prices").get<std::string>();
    facts.currency = row.at("currency").get<std::string>();
    facts.person = row.at("person").get<std::string>();
    facts.presumed = row.at("presumed").get<std::string>();
    facts.incised_unless_named = row.at("incised_unless_named").get<bool>();
    facts.snow_asked = row.at("snow_asked").get<bool>();
    facts.seismic = row.at("seismic").get<bool>();
    all.push_back(std::move(facts));
  }
  return all;
}

}  // namespace

const std::vector<StandardFacts>& all_standards() {
  static const std::vector<StandardFacts> all = read();
  return all;
}

const StandardFacts& facts_of(StandardId standard) {
  const auto index = static_cast<std::size_t>(standard);
  if (index >= all_standards().size()) throw std::logic_error("data/standards.json: no such row");
  return all_standards()[index];
}

}  // namespace underprop::record

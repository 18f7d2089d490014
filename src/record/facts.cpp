#include "underprop/record/facts.hpp"

#include "catalog/embedded.hpp"
#include "underprop/base/units.hpp"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <stdexcept>
#include <utility>

namespace underprop::record {
namespace {

using Json = nlohmann::json;

[[noreturn]] void broken(const std::string& what) {
  throw std::logic_error("data/facts.json: " + what);
}

FactQuantity quantity_of(const std::string& word) {
  static constexpr std::pair<std::string_view, FactQuantity> words[] = {
      {"length", FactQuantity::length},
      {"force", FactQuantity::force},
      {"pressure", FactQuantity::pressure},
      {"word", FactQuantity::word},
      {"yes or no", FactQuantity::yes_or_no},
      {"count", FactQuantity::count},
      {"slope", FactQuantity::slope},
      {"share", FactQuantity::share},
      {"kg per litre", FactQuantity::kg_per_litre},
      {"kg per m2", FactQuantity::kg_per_m2},
      {"m2 per person", FactQuantity::m2_per_person},
  };
  for (const auto& [text, quantity] : words) {
    if (text == word) return quantity;
  }
  broken("no quantity is called " + word);
}

constexpr std::string_view act_words[number_of_acts] = {
    "ask the household",    "look at the load",   "probe",
    "look underneath",      "look at the boards", "walk round",
    "dig beside a footing", "dig beside a wall",  "look behind the ledger",
    "ask the authority",    "ask the maker",      "lift the covers"};

Act act_of(const std::string& word) {
  const auto found = std::find(std::begin(act_words), std::end(act_words), word);
  if (found == std::end(act_words)) broken("no act is called " + word);
  return static_cast<Act>(found - std::begin(act_words));
}

double slope_of(const std::string& text) {
  if (text == "level") return 0.0;
  if (text.rfind("1 in ", 0) != 0) broken("a slope is \"level\" or \"1 in N\": " + text);
  return 1.0 / std::stod(text.substr(5));
}

FactDefault default_of(const Json& value, FactQuantity quantity) {
  FactDefault result;
  result.text = value.is_string() ? value.get<std::string>() : value.dump();
  switch (quantity) {
    case FactQuantity::word:
      break;
    case FactQuantity::length: {
      const auto length = parse_length(result.text);
      if (!length) broken(length.problem);
      result.number = in_mm(*length.value);
      break;
    }
    case FactQuantity::force: {
      const auto force = parse_force(result.text);
      if (!force) broken(force.problem);
      result.number = in_newtons(*force.value);
      break;
    }
    case FactQuantity::pressure: {
      const auto pressure = parse_pressure(result.text);
      if (!pressure) broken(pressure.problem);
      result.number = pressure.value->value();
      break;
    }
    case FactQuantity::yes_or_no:
      if (result.text != "yes" && result.text != "no") broken("yes or no, not " + result.text);
      result.number = result.text == "yes" ? 1.0 : 0.0;
      break;
    case FactQuantity::slope:
      result.number = slope_of(result.text);
      break;
    default:
      result.number = value.get<double>();
  }
  return result;
}

Citation citation_of(const Json& value) {
  return {value.at("key").get<std::string>(), value.at("where").get<std::string>()};
}

FactKind kind_of(const Json& value) {
  FactKind result;
  result.kind = value.at("kind").get<std::string>();
  result.what = value.at("what").get<std::string>();
  result.quantity = quantity_of(value.at("quantity").get<std::string>());
  result.smaller_is_worse = value.value("worse", std::string("larger")) == "smaller";
  static constexpr const char* standards[] = {"eurocode-uk", "north-america-us"};
  static constexpr const char* readings[] = {"cautious", "likely", "favourable"};
  for (std::size_t s = 0; s < 2; ++s) {
    const Json& row = value.contains("any") ? value.at("any") : value.at(standards[s]);
    for (std::size_t r = 0; r < 3; ++r) {
      result.values[s][r] = default_of(row.at(readings[r]), result.quantity);
    }
  }
  result.reason = value.at("reason").get<std::string>();
  result.source = citation_of(value.at("source"));
  result.find_out = value.at("find_out").get<std::string>();
  result.act = act_of(value.at("act").get<std::string>());
  result.effort_minutes = value.at("effort").get<int>();
  result.must_see = value.at("must_see").get<bool>();
  return result;
}

ResolvingRule rule_of(const Json& value) {
  ResolvingRule result;
  result.rule = value.at("rule").get<std::string>();
  result.quantity = quantity_of(value.at("quantity").get<std::string>());
  result.number = default_of(value.at("value"), result.quantity).number;
  result.reason = value.at("reason").get<std::string>();
  result.source = citation_of(value.at("source"));
  return result;
}

ActOnSite act_row(const Json& value) {
  ActOnSite result;
  result.word = value.at("act").get<std::string>();
  result.act = act_of(result.word);
  result.what = value.at("what").get<std::string>();
  result.minutes = value.at("minutes").get<int>();
  result.source = citation_of(value.at("source"));
  return result;
}

SpeciesRow species_of(const Json& value) {
  SpeciesRow result;
  result.species = value.at("species").get<std::string>();
  const std::string standard = value.at("standard").get<std::string>();
  if (standard != "eurocode-uk" && standard != "north-america-us")
    broken("no standard is called " + standard);
  result.standard =
      standard == "eurocode-uk" ? StandardId::eurocode_uk : StandardId::north_america_us;
  result.timbers = {value.at("cautious").get<std::string>(), value.at("likely").get<std::string>(),
                    value.at("favourable").get<std::string>()};
  result.large_cautious = value.at("large_cautious").get<std::string>();
  result.reason = value.at("reason").get<std::string>();
  result.source = citation_of(value.at("source"));
  return result;
}

struct Table {
  std::vector<SpeciesRow> species;
  std::vector<ActOnSite> acts;
  std::vector<FactKind> kinds;
  std::vector<ResolvingRule> rules;
  std::map<std::string, std::size_t, std::less<>> kind_index, rule_index;
};

Table read_table() {
  Table table;
  try {
    const Json json = Json::parse(catalog::embedded_text("facts.json"));
    for (const Json& value : json.at("acts")) {
      table.acts.push_back(act_row(value));
      if (static_cast<std::size_t>(table.acts.back().act) + 1 != table.acts.size())
        broken("the act \"" + table.acts.back().word + "\" stands out of order");
    }
    if (table.acts.size() != number_of_acts) broken("an act is missing");
    for (const Json& value : json.at("facts")) {
      table.kinds.push_back(kind_of(value));
      if (!table.kind_index.emplace(table.kinds.back().kind, table.kinds.size() - 1).second) {
        broken(table.kinds.back().kind + " stands twice");
      }
    }
    for (const Json& value : json.at("species")) table.species.push_back(species_of(value));
    for (const Json& value : json.at("rules")) {
      table.rules.push_back(rule_of(value));
      if (!table.rule_index.emplace(table.rules.back().rule, table.rules.size() - 1).second) {
        broken(table.rules.back().rule + " stands twice");
      }
    }
  } catch (const Json::exception& error) {
    broken(error.what());
  }
  return table;
}

const Table& table() {
  static const Table result = read_table();
  return result;
}

}  // namespace

const std::vector<FactKind>& fact_kinds() { return table().kinds; }
const std::vector<ResolvingRule>& resolving_rules() { return table().rules; }

const SpeciesRow* species_row(StandardId standard, std::string_view name) {
  for (const SpeciesRow& row : table().species) {
    if (row.standard == standard && row.species == name) return &row;
  }
  return nullptr;
}

const ActOnSite& act_on_site(Act act) { return table().acts.at(static_cast<std::size_t>(act)); }

const FactKind& fact_kind(std::string_view kind) {
  const auto found = table().kind_index.find(kind);
  if (found == table().kind_index.end()) broken("has no kind " + std::string(kind));
  return table().kinds[found->second];
}

bool has_fact_kind(std::string_view kind) {
  return table().kind_index.find(kind) != table().kind_index.end();
}

const ResolvingRule& resolving_rule(std::string_view rule) {
  const auto found = table().rule_index.find(rule);
  if (found == table().rule_index.end()) broken("has no rule " + std::string(rule));
  return table().rules[found->second];
}

}  // namespace underprop::record

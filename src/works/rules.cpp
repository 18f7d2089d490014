#include "works/rules.hpp"
#include "underprop/record/standard_facts.hpp"

#include "catalog/table.hpp"
#include "underprop/base/format.hpp"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <array>
#include <cctype>
#include <map>
#include <stdexcept>

namespace underprop::works {
namespace {

using Json = nlohmann::json;
using record::StandardId;
using RuleTable = std::map<std::string, BuildingRule, std::less<>>;

struct Tables {
  RuleTable common, hours;
  std::array<RuleTable, 2> regional;
  std::array<Stock, 2> stock;
};

RuleTable read_rules(const Json& json) {
  RuleTable table;
  for (const auto& [name, entry] : json.items()) {
    BuildingRule rule;
    rule.rule = name;
    rule.value = entry.at("value").get<double>();
    rule.unit = entry.at("unit").get<std::string>();
    rule.reason = entry.at("reason").get<std::string>();
    rule.source = {entry.at("source").at("key").get<std::string>(),
                   entry.at("source").at("where").get<std::string>()};
    rule.read = entry.at("read").get<bool>();
    table.emplace(name, std::move(rule));
  }
  return table;
}

Stock read_stock(const Json& region) {
  Stock stock;
  for (const Json& length : region.at("stock_lengths_mm").at("rows")) {
    stock.lengths.push_back(mm(length.get<double>()));
  }
  std::sort(stock.lengths.begin(), stock.lengths.end());
  for (const Json& row : region.at("sections").at("rows")) {
    stock.sections.push_back({row.at("name").get<std::string>(),
                              mm(row.at("breadth_mm").get<double>()),
                              mm(row.at("depth_mm").get<double>())});
  }
  stock.classes = region.at("classes").at("rows").get<std::vector<std::string>>();
  stock.not_incised = region.at("not_incised").at("rows").get<std::vector<std::string>>();
  if (stock.lengths.empty()) throw std::logic_error("data/building.json: no stock lengths");
  return stock;
}

Tables read_tables() {
  try {
    const Json& json = catalog::table("building.json");
    Tables tables;
    tables.common = read_rules(json.at("rules"));
    tables.hours = read_rules(json.at("hours"));
    constexpr std::array names{"eurocode_uk", "north_america_us"};
    for (std::size_t i = 0; i < names.size(); ++i) {
      tables.regional[i] = read_rules(json.at(names[i]).at("rules"));
      tables.stock[i] = read_stock(json.at(names[i]));
    }
    return tables;
  } catch (const Json::exception& error) {
    throw std::logic_error(std::string("data/building.json: ") + error.what());
  }
}

const Tables& tables() {
  static const Tables read = read_tables();
  return read;
}

std::size_t index(StandardId standard) { return static_cast<std::size_t>(standard); }

std::string lower(std::string_view text) {
  std::string result(text);
  for (char& c : result) c = static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
  return result;
}

}  // namespace

const BuildingRule& building_rule(StandardId standard, std::string_view rule) {
  const RuleTable& regional = tables().regional[index(standard)];
  if (const auto found = regional.find(rule); found != regional.end()) return found->second;
  const auto found = tables().common.find(rule);
  if (found == tables().common.end()) {
    throw std::logic_error("data/building.json has no rule " + std::string(rule));
  }
  return found->second;
}

double building_value(StandardId standard, std::string_view rule) {
  return building_rule(standard, rule).value;
}

double hours_for(std::string_view task) {
  const auto found = tables().hours.find(task);
  if (found == tables().hours.end()) {
    throw std::logic_error("data/building.json has no hours for " + std::string(task));
  }
  return found->second.value;
}

const Stock& stock(StandardId standard) { return tables().stock[index(standard)]; }

const StockSection* stock_section(StandardId standard, Length breadth, Length depth) {
  constexpr Length tolerance = mm(2.0);  // nearer than any two stocked sizes are
  for (const StockSection& section : stock(standard).sections) {
    if (abs(section.breadth - breadth) <= tolerance && abs(section.depth - depth) <= tolerance) {
      return &section;
    }
  }
  return nullptr;
}

std::string section_name(StandardId standard, Length breadth, Length depth) {
  if (const StockSection* section = stock_section(standard, breadth, depth)) return section->name;
  if (record::facts_of(standard).units == UnitSystem::us_customary) {
    return format_length(breadth, UnitSystem::us_customary) + " x " +
           format_length(depth, UnitSystem::us_customary);
  }
  return format_decimals(breadth.value(), 1) + " x " + format_decimals(depth.value(), 1);
}

bool counts_as_incised(StandardId standard, std::string_view timber) {
  if (!record::facts_of(standard).incised_unless_named) return false;
  const std::string name = lower(timber);
  for (const std::string& word : stock(standard).not_incised) {
    if (!word.empty() && name.find(lower(word)) != std::string::npos) return false;
  }
  return true;
}

}  // namespace underprop::works

#include "catalog/table.hpp"

#include "catalog/embedded.hpp"

#include <nlohmann/json.hpp>

#include <map>
#include <stdexcept>
#include <string>

namespace underprop::catalog {

namespace {

std::map<std::string, nlohmann::json, std::less<>> parse_all() {
  std::map<std::string, nlohmann::json, std::less<>> tables;
  for (const EmbeddedFile& file : embedded_files()) {
    if (file.path.starts_with("schema/")) continue;
    try {
      tables.emplace(std::string(file.path), nlohmann::json::parse(file.text));
    } catch (const nlohmann::json::exception& error) {
      throw std::logic_error("data/" + std::string(file.path) + " is not JSON: " + error.what());
    }
  }
  return tables;
}

}  // namespace

std::string_view embedded_text(std::string_view path) {
  for (const EmbeddedFile& file : embedded_files()) {
    if (file.path == path) return file.text;
  }
  throw std::logic_error("no data file " + std::string(path));
}

const nlohmann::json& table(std::string_view path) {
  static const std::map<std::string, nlohmann::json, std::less<>> tables = parse_all();
  const auto found = tables.find(path);
  if (found == tables.end()) throw std::logic_error("no data table " + std::string(path));
  return found->second;
}

double number(const nlohmann::json& rows, std::string_view name) {
  const auto row = rows.find(name);
  if (row == rows.end() || !row->is_object() || !row->contains("value") ||
      !row->at("value").is_number()) {
    throw std::logic_error("no number " + std::string(name) + " in a data table");
  }
  return row->at("value").get<double>();
}

}  // namespace underprop::catalog

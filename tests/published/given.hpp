// How the rules of tests/published read their "given" and the program's own tables.
#pragma once

#include "catalog/embedded.hpp"

#include <nlohmann/json.hpp>

#include <stdexcept>
#include <string>

namespace underprop::published {

inline double number(const nlohmann::json& given, const char* key) {
  return given.at(key).get<double>();
}
inline double number(const nlohmann::json& given, const char* key, double otherwise) {
  return given.contains(key) ? given.at(key).get<double>() : otherwise;
}

inline nlohmann::json data_file(const std::string& path) {
  for (const catalog::EmbeddedFile& file : catalog::embedded_files()) {
    if (file.path == path) return nlohmann::json::parse(file.text);
  }
  throw std::runtime_error(path + " is not embedded");
}

}  // namespace underprop::published

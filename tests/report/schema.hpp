// A small reader of data/schema/result.json: the keywords of JSON Schema 2020-12 that it uses.
#pragma once

#include "support/paths.hpp"

#include <nlohmann/json.hpp>

#include <fstream>
#include <string>
#include <vector>

namespace sample {

using Json = nlohmann::ordered_json;

class Schema {
public:
  Schema()
      : root_(Json::parse(std::ifstream(std::string(underprop::test::source_dir) +
                                        "/data/schema/result.json"))) {}

  /// What breaks the definition `name`; empty: nothing.
  [[nodiscard]] std::vector<std::string> faults(const std::string& name, const Json& value) const {
    std::vector<std::string> out;
    check(root_.at("$defs").at(name), value, name, out);
    return out;
  }

private:
  static bool is(const std::string& type, const Json& value) {
    if (type == "object") return value.is_object();
    if (type == "array") return value.is_array();
    if (type == "string") return value.is_string();
    if (type == "boolean") return value.is_boolean();
    if (type == "null") return value.is_null();
    if (type == "integer") return value.is_number_integer();
    if (type == "number") return value.is_number();
    return false;
  }

  void check(const Json& rule, const Json& value, const std::string& at,
             std::vector<std::string>& out) const {
    if (rule.contains("$ref")) {
      check(root_.at(Json::json_pointer(rule["$ref"].get<std::string>().substr(1))), value, at,
            out);
    }
    if (rule.contains("anyOf")) {
      bool fits = false;
      for (const Json& choice : rule["anyOf"]) {
        std::vector<std::string> inner;
        check(choice, value, at, inner);
        fits = fits || inner.empty();
      }
      if (!fits) out.push_back(at + ": fits none of its forms");
    }
    if (rule.contains("const") && rule["const"] != value) out.push_back(at + ": wrong constant");
    if (rule.contains("enum")) {
      bool found = false;
      for (const Json& allowed : rule["enum"]) found = found || allowed == value;
      if (!found) out.push_back(at + ": not an allowed value: " + value.dump());
    }
    if (rule.contains("type")) {
      const Json& types = rule["type"];
      bool fits = types.is_string() && is(types.get<std::string>(), value);
      if (types.is_array()) {
        for (const Json& type : types) fits = fits || is(type.get<std::string>(), value);
      }
      if (!fits) {
        out.push_back(at + ": wrong type: " + value.dump());
        return;
      }
    }
    if (rule.contains("required")) {
      for (const Json& key : rule["required"]) {
        if (!value.contains(key.get<std::string>())) out.push_back(at + ": lacks " + key.dump());
      }
    }
    if (rule.contains("properties")) {
      // Stricter than the schema: every key that is printed has to be described.
      for (const auto& [key, member] : value.items()) {
        if (!rule["properties"].contains(key)) {
          out.push_back(at + ": " + key + " is not described");
        } else {
          check(rule["properties"][key], member, at + "/" + key, out);
        }
      }
    }
    if (rule.contains("items")) {
      std::size_t i = 0;
      for (const Json& item : value)
        check(rule["items"], item, at + "/" + std::to_string(i++), out);
    }
  }

  Json root_;
};

}  // namespace sample

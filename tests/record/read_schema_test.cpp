// The published schema and the reader name the same keys, words and requirements.
#include "support/paths.hpp"
#include "survey/read_support.hpp"

#include "support/catch.hpp"

#include <map>
#include <set>

namespace underprop::record {
namespace {

/// What the schema says of one key.
struct SchemaKey {
  bool required = false;
  std::vector<std::string> words;
  std::string description;
};
using SchemaKeys = std::map<std::pair<std::string, std::string>, SchemaKey>;

/// Walks a schema and lists its keys by object, "/deck/joists/[]" and key.
class SchemaWalk {
public:
  explicit SchemaWalk(const Json& schema) : schema_(schema) { walk(schema, ""); }
  [[nodiscard]] const SchemaKeys& keys() const { return keys_; }

private:
  const Json& resolved(const Json& value) const {
    if (!value.contains("$ref")) return value;
    const auto& ref = value.at("$ref").get_ref<const std::string&>();
    return schema_.at(Json::json_pointer(ref.substr(1)));
  }

  void walk(const Json& value, const std::string& path) {
    const Json& node = resolved(value);
    if (node.contains("anyOf")) {
      for (const Json& each : node.at("anyOf")) walk(each, path);
    }
    // Points are arrays of two and have no keys; a range is part of its value.
    if (node.contains("items") && node.at("items").is_object()) {
      walk(node.at("items"), path + "/[]");
    }
    if (!node.contains("properties") || node.at("properties").contains("low")) return;
    CHECK(node.at("additionalProperties") == false);
    std::set<std::string> required;
    if (node.contains("required")) required = node.at("required").get<std::set<std::string>>();
    for (const auto& [key, child] : node.at("properties").items()) {
      SchemaKey& entry = keys_[{path, key}];
      entry.required = required.contains(key);
      entry.words = words_of(child);
      const Json& described = child.contains("description") ? child : resolved(child);
      if (described.contains("description")) entry.description = described.at("description");
      walk(child, path + "/" + key);
    }
  }

  std::vector<std::string> words_of(const Json& value) const {
    std::vector<std::string> words;
    const auto take = [&](const Json& node) {
      if (!node.contains("enum")) return;
      for (const Json& word : node.at("enum")) words.push_back(word.get<std::string>());
    };
    const Json& node = resolved(value);
    interview::take(node);
    if (node.contains("anyOf")) {
      for (const Json& each : node.at("anyOf")) {
        if (!each.contains("$ref")) interview::take(each);  // "unknown" is a definition of its own
      }
    }
    return words;
  }

  const Json& schema_;
  SchemaKeys keys_;
};

SchemaKeys schema_keys() {
  const Json schema = Json::parse(test::file_text(
      std::filesystem::path(underprop::test::source_dir) / "data" / "schema" / "survey.json"));
  return SchemaWalk(schema).keys();
}

TEST_CASE("The schema and the reader know the same keys, words and requirements", "[read][law]") {
  const SchemaKeys in_schema = schema_keys();
  std::set<std::pair<std::string, std::string>> in_reader;
  for (const SurveyKey& key : survey_keys()) {
    INFO(key.object << "/" << key.key);
    CHECK(in_reader.emplace(key.object, key.key).second);
    const auto found = in_schema.find({key.object, key.key});
    REQUIRE(found != in_schema.end());
    CHECK(found->second.required == key.required);
    if (!key.words.empty()) CHECK(found->second.words == key.words);
  }
  REQUIRE(in_reader.size() > 150);
  for (const auto& [where, entry] : in_schema) {
    INFO(where.first << "/" << where.second);
    CHECK(in_reader.contains(where));
    CHECK(entry.description.size() >= 4);
    CHECK_FALSE(entry.description.empty());
  }
}

}  // namespace
}  // namespace underprop::record

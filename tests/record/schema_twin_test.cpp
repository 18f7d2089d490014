// The published schema judges files as the reader does: it refuses none that the reader takes, and
// refuses what is wrong with the form of one. What only the reader can see (a joist on nothing) it may
// let pass.
#include "fuzz/targets.hpp"
#include "record/read_support.hpp"
#include "support/paths.hpp"

#include "support/catch.hpp"

#include <map>
#include <regex>
#include <set>

namespace underprop::record {
namespace schema_twin_test_file {
namespace {

/// As much of JSON Schema 2020-12 as the schema uses; throws std::logic_error for any other keyword.
class Validator {
public:
  explicit Validator(const Json& root) : root_(root) {}

  [[nodiscard]] bool valid(const Json& value) const { return valid(value, root_); }

private:
  static bool is_type(const Json& value, const std::string& type) {
    if (type == "object") return value.is_object();
    if (type == "array") return value.is_array();
    if (type == "string") return value.is_string();
    if (type == "boolean") return value.is_boolean();
    if (type == "number") return value.is_number();
    if (type == "integer") return value.is_number_integer();
    throw std::logic_error("type " + type);
  }

  bool valid(const Json& value, const Json& schema) const {
    if (schema.is_boolean()) return schema.get<bool>();
    for (const auto& [keyword, rule] : schema.items()) {
      if (!holds(value, schema, keyword, rule)) return false;
    }
    return true;
  }

  // Length in characters, as the standard counts, not in bytes.
  static std::size_t characters(const std::string& text) {
    return static_cast<std::size_t>(
        std::ranges::count_if(text, [](char c) { return (c & 0xc0) != 0x80; }));
  }

  bool holds(const Json& value, const Json& schema, const std::string& keyword,
             const Json& rule) const {
    if (keyword == "$schema" || keyword == "$id" || keyword == "$defs" || keyword == "title" ||
        keyword == "description" || keyword == "default" || keyword == "examples") {
      return true;
    }
    if (keyword == "$ref") {
      return valid(value, root_.at(Json::json_pointer(rule.get<std::string>().substr(1))));
    }
    if (keyword == "type") return is_type(value, rule);
    if (keyword == "const") return value == rule;
    if (keyword == "enum") return std::ranges::find(rule, value) != rule.end();
    if (keyword == "anyOf") {
      return std::ranges::any_of(rule, [&](const Json& each) { return valid(value, each); });
    }
    if (keyword == "oneOf") {
      return std::ranges::count_if(rule, [&](const Json& each) { return valid(value, each); }) == 1;
    }
    if (keyword == "allOf") {
      return std::ranges::all_of(rule, [&](const Json& each) { return valid(value, each); });
    }
    if (keyword == "not") return !valid(value, rule);
    if (keyword == "minLength")
      return !value.is_string() || characters(value) >= rule.get<std::size_t>();
    if (keyword == "maxLength")
      return !value.is_string() || characters(value) <= rule.get<std::size_t>();
    if (keyword == "pattern") {
      if (!value.is_string()) return true;
      static std::map<std::string, std::regex> known;
      const auto text = rule.get<std::string>();
      const std::regex& regex = known.try_emplace(text, text).first->second;
      return std::regex_search(value.get<std::string>(), regex);
    }
    if (keyword == "minimum") return !value.is_number() || value >= rule;
    if (keyword == "maximum") return !value.is_number() || value <= rule;
    if (keyword == "minItems") return !value.is_array() || value.size() >= rule.get<std::size_t>();
    if (keyword == "maxItems") return !value.is_array() || value.size() <= rule.get<std::size_t>();
    if (keyword == "prefixItems") {
      for (std::size_t i = 0; value.is_array() && i < value.size() && i < rule.size(); ++i) {
        if (!valid(value[i], rule[i])) return false;
      }
      return true;
    }
    if (keyword == "items") {
      const std::size_t first =
          schema.contains("prefixItems") ? schema.at("prefixItems").size() : 0;
      for (std::size_t i = first; value.is_array() && i < value.size(); ++i) {
        if (!valid(value[i], rule)) return false;
      }
      return true;
    }
    if (keyword == "required") {
      return !value.is_object() ||
             std::ranges::all_of(rule, [&](const Json& key) { return value.contains(key); });
    }
    if (keyword == "properties") {
      if (!value.is_object()) return true;
      return std::ranges::all_of(rule.items(), [&](const auto& item) {
        return !value.contains(item.key()) || valid(value.at(item.key()), item.value());
      });
    }
    if (keyword == "additionalProperties") {
      if (!value.is_object() || rule != false) return true;
      return std::ranges::all_of(value.items(), [&](const auto& item) {
        return schema.at("properties").contains(item.key());
      });
    }
    throw std::logic_error("the schema uses " + keyword);
  }

  const Json& root_;
};

Json schema() {
  return Json::parse(test::file_text(std::filesystem::path(underprop::test::source_dir) / "data" /
                                     "schema" / "survey.json"));
}

std::vector<std::string> good_and_bad() {
  std::vector<std::string> texts;
  for (const auto& path : test::example_surveys()) texts.push_back(test::file_text(path));
  const std::filesystem::path tests = underprop::test::tests_dir;
  texts.push_back(test::file_text(tests / "record" / "read_every_key.json"));
  for (const char* folder : {"fuzz/corpus", "bad_input"}) {
    for (const auto& entry : std::filesystem::directory_iterator(tests / folder)) {
      if (entry.path().extension() == ".json") texts.push_back(test::file_text(entry.path()));
    }
  }
  return texts;
}

TEST_CASE("What the reader takes the schema takes, file by file and change by change",
          "[read][law]") {
  const Json root = schema();
  const Validator validator(root);
  std::size_t taken = 0, both_refuse = 0, only_reader = 0;
  for (const std::string& good : good_and_bad()) {
    // Changes of a bad file are bad again, nearly all.
    const std::uint64_t changes = test::faults(good).empty() ? 40 : 3;
    for (std::uint64_t seed = 0; seed < changes; ++seed) {
      const std::string text = seed == 0 ? good : fuzz::changed_survey(good, seed);
      const Json json = Json::parse(text, nullptr, false);
      if (json.is_discarded()) continue;
      const std::string faults = test::faults(text);
      const bool by_schema = validator.valid(json);
      INFO(text << "\n" << faults);
      if (faults.empty()) {
        ++taken;
        CHECK(by_schema);
      } else {
        ++(by_schema ? only_reader : both_refuse);
      }
    }
  }
  CHECK(taken > 40);
  CHECK(both_refuse > only_reader / 4);
}

TEST_CASE("A key too many, a key too few and a wrong sort of value fail the schema as well",
          "[read][law]") {
  const Json root = schema();
  const Validator validator(root);
  const Json good = Json::parse(test::file_text(test::example_surveys().front()));
  REQUIRE(validator.valid(good));
  std::size_t walked = 0;
  const Json flat = good.flatten();
  for (const auto& [pointer, leaf] : flat.items()) {
    Json::json_pointer place(pointer);
    for (; !place.empty(); place.pop_back()) {
      const Json& value = good.at(place);
      Json wrong = good;
      wrong[place] = value.is_number() ? Json(Json::object()) : Json(7);
      INFO(place.to_string());
      CHECK_FALSE(validator.valid(wrong));
      CHECK_FALSE(test::faults(wrong.dump()).empty());
      if (value.is_object()) {
        Json more = good;
        more[place]["colour"] = "blue";
        CHECK_FALSE(validator.valid(more));
        CHECK(test::faults(more.dump()).find("colour") != std::string::npos);
      }
      if (good.at(place.parent_pointer()).is_object()) {
        Json fewer = good;
        fewer[place.parent_pointer()].erase(place.back());
        const std::string faults = test::faults(fewer.dump());
        // A key is missing by the form, or only because of what else is recorded.
        if (validator.valid(fewer)) continue;
        CHECK(faults.find("is missing") != std::string::npos);
      }
      ++walked;
    }
  }
  CHECK(walked > 100);
}

TEST_CASE("The list of fields tells every key once, with its words", "[read][law]") {
  const std::string list = survey_field_list();
  std::size_t found = 0;
  std::string object;
  std::istringstream lines(list);
  std::set<std::string> told;
  for (std::string line; std::getline(lines, line);) {
    if (line.starts_with("/")) object = line;
    if (line == "The file") object.clear();
    if (!line.starts_with("  ") || line.starts_with("   ")) continue;
    std::string key = line.substr(2);
    if (key.ends_with(" *")) key.resize(key.size() - 2);
    if (key.find_first_of(" .") != std::string::npos) continue;  // the object's own description
    CHECK(told.insert(object + "/" + key).second);
    ++found;
  }
  const std::string flat = std::regex_replace(list, std::regex("\n +"), " ");
  for (const Field& key : survey_fields()) {
    INFO(key.object << "/" << key.key);
    CHECK(told.contains(key.object + "/" + key.key));
    for (const std::string& word : key.words) {
      CHECK(flat.find("\"" + word + "\"") != std::string::npos);
    }
  }
  CHECK(found == survey_fields().size());
}

}  // namespace

}  // namespace schema_twin_test_file
}  // namespace underprop::record

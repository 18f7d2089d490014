// The JSON Schema of the format, from the declarations of its fields and data/survey_values.json, the
// schema of each kind of value.
#include "json_text.hpp"
#include "listing.hpp"
#include "read_values.hpp"

#include "catalog/embedded.hpp"
#include "underprop/record/format.hpp"

#include <cmath>

namespace underprop::record {
namespace {

using OrderedJson = nlohmann::ordered_json;

OrderedJson reference(std::string_view name) {
  return OrderedJson{{"$ref", "#/$defs/" + std::string(name)}};
}

/// Kinds of value that have a definition of their own in data/survey_values.json, and what it is called
/// where the value may be a range or unknown.
struct Definition {
  ValueKind kind;
  std::string_view plain, measured, fact;
};
constexpr Definition definitions[] = {
    {ValueKind::text, "text", "", ""},
    {ValueKind::name, "name", "", ""},
    {ValueKind::timber, "timber", "", "timber_fact"},
    {ValueKind::flag, "", "", "yes_or_no_fact"},
    {ValueKind::whole, "", "", "count_fact"},
    {ValueKind::length, "length", "measured_length", "length_fact"},
    {ValueKind::mass, "mass", "", "mass_fact"},
    {ValueKind::volume, "volume", "", "volume_fact"},
    {ValueKind::force, "force", "", "force_fact"},
    {ValueKind::pressure, "pressure", "", "pressure_fact"},
    {ValueKind::slope, "", "", "slope_fact"},
    {ValueKind::point, "point", "", ""},
    {ValueKind::nominal_size, "size", "", ""}};

/// "" for a value that is spelt out where it stands.
std::string_view defined(const Field& field) {
  for (const Definition& each : definitions) {
    if (each.kind != field.kind) continue;
    return field.may_be_unknown ? each.fact : field.may_be_range ? each.measured : each.plain;
  }
  return {};
}

/// One value of the field, not yet a list of them.
OrderedJson value_schema(const Field& field) {
  if (const std::string_view name = defined(field); !name.empty()) return reference(name);
  switch (field.kind) {
    case ValueKind::format:
      return {{"const", survey_format}};
    case ValueKind::notes:
      return {{"type", "string"}, {"minLength", 1}, {"maxLength", longest_notes}};
    case ValueKind::date:
      return {{"type", "string"}, {"pattern", "^[0-9]{4}-[0-9]{2}-[0-9]{2}$"}};
    case ValueKind::word:
      return {{"enum", field.words}};
    case ValueKind::flag:
      return {{"type", "boolean"}};
    case ValueKind::whole:
    case ValueKind::number: {
      const bool whole = field.kind == ValueKind::whole;
      const auto end = [&](double x) {
        return whole || x == std::trunc(x) ? OrderedJson(static_cast<int>(x)) : OrderedJson(x);
      };
      return {{"type", whole ? "integer" : "number"},
              {"minimum", end(field.low)},
              {"maximum", end(field.high)}};
    }
    default:
      return reference(field.of);
  }
}

OrderedJson field_schema(const Field& field) {
  OrderedJson schema = value_schema(field);
  if (field.several) {
    OrderedJson list{{"type", "array"}, {"items", std::move(schema)}};
    if (!field.may_be_none) list["minItems"] = field.least;
    list["maxItems"] = field.most;
    schema = std::move(list);
  }
  const bool open = field.may_be_unknown && defined(field).empty();
  if (field.may_be_none || field.may_be_all || open) {
    OrderedJson any = OrderedJson::array();
    if (field.may_be_none) any.push_back({{"const", "none"}});
    if (field.may_be_all) any.push_back({{"enum", {"all", "none"}}});
    any.push_back(std::move(schema));
    if (field.may_be_unknown) any.push_back(reference("unknown"));
    schema = OrderedJson{{"anyOf", std::move(any)}};
  }
  if (!field.if_absent.empty()) schema["default"] = OrderedJson::parse(field.if_absent);
  schema["description"] = field.meaning;
  return schema;
}

OrderedJson required_keys(std::initializer_list<std::string> keys) {
  return OrderedJson{{"required", OrderedJson(std::vector<std::string>(keys))}};
}

OrderedJson object_schema(std::string_view meaning, const std::vector<const Field*>& fields) {
  OrderedJson schema{{"type", "object"}, {"description", meaning}};
  OrderedJson& properties = schema["properties"] = OrderedJson::object();
  std::vector<std::string> required;
  std::vector<std::pair<const char*, OrderedJson>> either;  // one way to write it or another
  for (std::size_t i = 0; i < fields.size(); ++i) {
    const Field& field = *fields[i];
    properties[field.key] = field_schema(field);
    if (field.required) required.push_back(field.key);
    if (field.key == "first") {
      either.emplace_back("oneOf", OrderedJson::array({required_keys({fields[i - 1]->key}),
                                                       required_keys({"first", "count"})}));
    }
    if (field.kind == ValueKind::nominal_size && !fields[i - 1]->may_be_unknown) {
      either.emplace_back(
          "anyOf", OrderedJson::array({required_keys({fields[i - 2]->key, fields[i - 1]->key}),
                                       required_keys({field.key})}));
    }
  }
  schema["required"] = required;
  schema["additionalProperties"] = false;
  if (either.size() == 1) schema[either.front().first] = either.front().second;
  if (either.size() > 1) {
    OrderedJson& all = schema["allOf"] = OrderedJson::array();
    for (auto& [how, ways] : either) all.push_back({{how, ways}});
  }
  return schema;
}

}  // namespace

std::string schema_of(const Listing& listing, std::string_view title) {
  OrderedJson types = OrderedJson::parse(catalog::embedded_text("schema/survey_values.json"));
  OrderedJson schema{{"$schema", "https://json-schema.org/draft/2020-12/schema"}, {"title", title}};
  for (const auto& [type, meaning] : listing.types) {
    std::vector<const Field*> fields;
    std::string object;  // one of this type; another one has the same fields
    for (const Field& field : listing.fields) {
      if (field.type != type) continue;
      if (fields.empty()) object = field.object;
      if (field.object == object) fields.push_back(&field);
    }
    OrderedJson one = object_schema(meaning, fields);
    if (type.empty()) {
      schema.update(one);
    } else {
      types[type] = std::move(one);
    }
  }
  schema["$defs"] = std::move(types);
  return json_text(schema);
}

std::string survey_schema() {
  return schema_of(survey_listing(),
                   "Survey of a timber deck, format " + std::string(survey_format));
}

}  // namespace underprop::record

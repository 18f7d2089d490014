// Each kind of value of the survey format, once: what it is in a file and how it is read, written and described.
//
//   parse<T>(json, pointer, rule, or_unknown, context)  one value; nothing after an error, which is told
//                                                 with its place and remedy
//   allowed<T>(rule)                              what an error says where a needed key is missing
//   written(value, rule)                          as JSON; null where nothing is to be written
//   specify<T>(field, rule)                       what the list of fields and the schema say
//
// What may be left out, unknown, a range, or several follows from these: below, "members".
#pragma once

#include "declaration.hpp"
#include "read_values.hpp"
#include "words.hpp"

#include "underprop/base/units.hpp"
#include "underprop/record/format.hpp"

#include <concepts>
#include <optional>
#include <string>
#include <string_view>
#include <type_traits>
#include <utility>
#include <vector>

namespace underprop::record {

using OrderedJson = nlohmann::ordered_json;

template <class Q>
concept Quantity = std::is_same_v<Q, Length> || std::is_same_v<Q, Mass> ||
    std::is_same_v<Q, Volume> || std::is_same_v<Q, Force> || std::is_same_v<Q, Pressure>;
template <class E>
concept Enumeration = std::is_enum_v<E>;
/// Neither open nor several: what is left out of a file is as the struct says.
template <class T>
concept Plain =
    Quantity<T> || Enumeration<T> || std::is_arithmetic_v<T> || std::is_same_v<T, std::string>;
template <class Rule, class... Rules>
concept OneOf = (std::is_same_v<Rule, Rules> || ...);

// --- text -------------------------------------------------------------------------------------------

inline std::optional<std::string> if_any(std::string text) {
  return text.empty() ? std::nullopt : std::optional(std::move(text));
}
template <std::same_as<std::string> T, class Rule>
std::optional<std::string> parse(const Json& json, const std::string& pointer, const Rule&,
                                 bool or_unknown, const ReadContext& context) {
  if constexpr (OneOf<Rule, Name, Names>) return if_any(read_name(json, pointer, context.errors));
  if constexpr (OneOf<Rule, Notes>) return if_any(read_notes(json, pointer, context.errors));
  if constexpr (OneOf<Rule, Date>) return if_any(read_date(json, pointer, context));
  if constexpr (OneOf<Rule, Timber>) return if_any(read_timber(json, pointer, context, or_unknown));
  if constexpr (OneOf<Rule, Letters>) {
    const auto index = read_word(json, pointer, seismic_categories, or_unknown, context.errors);
    return index ? std::optional<std::string>(seismic_categories[*index]) : std::nullopt;
  }
  if constexpr (OneOf<Rule, Text>) return read_string(json, pointer, context.errors);
}
template <std::same_as<std::string> T, class Rule>
std::string allowed(const Rule&) {
  return OneOf<Rule, Name>     ? "a name"
         : OneOf<Rule, Timber> ? "a strength class, or species and grade"
                               : "text between double quotes";
}
template <class Rule>
OrderedJson written(const std::string& text, const Rule&) {
  return text;
}
template <std::same_as<std::string> T, class Rule>
void specify(Field& field, const Rule&) {
  field.kind = OneOf<Rule, Name, Names> ? ValueKind::name
               : OneOf<Rule, Notes>     ? ValueKind::notes
               : OneOf<Rule, Date>      ? ValueKind::date
               : OneOf<Rule, Timber>    ? ValueKind::timber
               : OneOf<Rule, Letters>   ? ValueKind::word
                                        : ValueKind::text;
  if (OneOf<Rule, Letters>)
    field.words.assign(seismic_categories.begin(), seismic_categories.end());
}

// --- words, true or false ---------------------------------------------------------------------------

template <Enumeration E>
std::optional<E> parse(const Json& json, const std::string& pointer, const AsTyped&,
                       bool or_unknown, const ReadContext& context) {
  const auto words = all_words<E>();
  const auto index = read_choice(json, pointer, words, or_unknown, context.errors);
  return index ? std::optional(from_word<E>(words[*index])) : std::nullopt;
}
template <Enumeration E>
std::string allowed(const AsTyped&) {
  std::string text;
  for (const std::string_view each : all_words<E>())
    text += (text.empty() ? "one of \"" : ", \"") + std::string(each) + "\"";
  return text;
}
template <Enumeration E>
OrderedJson written(const E& value, const AsTyped&) {
  const std::string_view word = written_word(value);
  return word.empty() ? OrderedJson() : OrderedJson(word);
}
template <Enumeration E>
void specify(Field& field, const AsTyped&) {
  field.kind = ValueKind::word;
  for (const std::string_view word : all_words<E>()) field.words.emplace_back(word);
}

template <std::same_as<bool> T>
std::optional<bool> parse(const Json& json, const std::string& pointer, const AsTyped&, bool,
                          const ReadContext& context) {
  return read_boolean(json, pointer, context.errors);
}
template <std::same_as<bool> T>
std::string allowed(const AsTyped&) {
  return "true or false";
}
template <std::same_as<bool> T>
OrderedJson written(const T& value, const AsTyped&) {
  return value;
}
template <std::same_as<bool> T>
void specify(Field& field, const AsTyped&) {
  field.kind = ValueKind::flag;
}

// --- numbers ----------------------------------------------------------------------------------------

template <std::same_as<int> T>
std::optional<int> parse(const Json& json, const std::string& pointer, const Whole& rule, bool,
                         const ReadContext& context) {
  return read_integer(json, pointer, rule.low, rule.high, context.errors);
}
template <std::same_as<double> T>
std::optional<double> parse(const Json& json, const std::string& pointer, const Number& rule, bool,
                            const ReadContext& context) {
  return read_number(json, pointer, rule.low, rule.high, context.errors);
}
template <class T, OneOf<Whole, Number> Rule>
std::string allowed(const Rule&) {
  return "a number";
}
template <class T, OneOf<Whole, Number> Rule>
OrderedJson written(const T& value, const Rule&) {
  return value;
}
template <class T, OneOf<Whole, Number> Rule>
void specify(Field& field, const Rule& rule) {
  field.kind = std::is_same_v<Rule, Whole> ? ValueKind::whole : ValueKind::number;
  field.low = rule.low;
  field.high = rule.high;
}
inline OrderedJson written(double slope, const Slope&) { return write_slope(slope); }
template <std::same_as<double> T>
void specify(Field& field, const Slope&) {
  field.kind = ValueKind::slope;
}

// --- quantities and points --------------------------------------------------------------------------

template <Quantity Q>
std::optional<Q> parse(const Json& json, const std::string& pointer, const Limit<Q>& limit, bool,
                       const ReadContext& context) {
  auto read = read_quantity<Q>(json, pointer, any<Q>(), context.errors);
  if (read && !within_limit<Q>(json, pointer, *read, *read, limit, context.errors)) read.reset();
  return read;
}
template <Quantity Q>
std::string allowed(const Limit<Q>&) {
  return std::string(quantity_examples<Q>());
}
template <Quantity Q, class Rule>
OrderedJson written(const Q& quantity, const Rule&) {
  return write_quantity(quantity);
}
template <Quantity Q, class Rule>
void specify(Field& field, const Rule&) {
  field.kind = std::is_same_v<Q, Length>   ? ValueKind::length
               : std::is_same_v<Q, Mass>   ? ValueKind::mass
               : std::is_same_v<Q, Volume> ? ValueKind::volume
               : std::is_same_v<Q, Force>  ? ValueKind::force
                                           : ValueKind::pressure;
}
template <std::same_as<Length> Q>
std::optional<Length> parse(const Json& json, const std::string& pointer, const Lengths& rule, bool,
                            const ReadContext& context) {
  return parse<Length>(json, pointer, rule.limit, false, context);
}

template <std::same_as<Point> P, class Rule>
std::optional<Point> parse(const Json& json, const std::string& pointer, const Rule&, bool,
                           const ReadContext& context) {
  return read_point(json, pointer, context.errors);
}
template <std::same_as<Point> P>
std::string allowed(const AsTyped&) {
  return "a point such as [\"1.2 m\", \"0 m\"]";
}
template <class Rule>
OrderedJson written(const Point& point, const Rule&) {
  return OrderedJson::array({write_quantity(point.x), write_quantity(point.y)});
}
template <std::same_as<Point> P, class Rule>
void specify(Field& field, const Rule&) {
  field.kind = ValueKind::point;
}

// --- objects ----------------------------------------------------------------------------------------

template <class T>
void read_fields(ObjectReader& object, const ReadContext& context, T& value);
template <class T>
[[nodiscard]] OrderedJson written_fields(const T& value);

template <Declared T, class Rule>
OrderedJson written(const T& value, const Rule&) {
  return written_fields(value);
}
template <Declared T, class Rule>
void specify(Field& field, const Rule&) {
  field.kind = ValueKind::object;
  field.of = Declaration<T>::type;
  field.may_be_all = field.may_be_unknown = OneOf<Rule, AllOrPieces>;
}

// --- members: reading -------------------------------------------------------------------------------

/// Where a member is read: the object in hand and the key.
struct At {
  ObjectReader& object;
  std::string_view key;
  bool required;
  const ReadContext& context;

  /// nullptr if the key is not there; an error if it must be.
  [[nodiscard]] const Json* json(const std::string& allowed) const {
    return required ? object.require(key, allowed) : object.find(key);
  }
  [[nodiscard]] std::string pointer() const { return object.pointer_of(key); }
};

template <class T, class Rule>
void read(const At& at, T& value, const Rule& rule) {
  if (const Json* json = at.json(allowed<T>(rule)))
    value = parse<T>(*json, at.pointer(), rule, false, at.context).value_or(value);
}
template <class T, class Rule>
void read(const At& at, std::optional<T>& value, const Rule& rule) {
  if (const Json* json = at.json(allowed<T>(rule)))
    value = parse<T>(*json, at.pointer(), rule, false, at.context);
}
template <class T, class Rule>
void read(const At& at, std::vector<T>& values, const Rule& rule) {
  at.object.array(at.key, rule.least, rule.most, [&](const Json& json, const std::string& pointer) {
    if (auto value = parse<T>(json, pointer, rule, false, at.context))
      values.push_back(*std::move(value));
  });
}
inline void read(const At& at, std::vector<Length>& places, const Row& rule) {
  places = read_positions(at.object, rule.limit, rule.most);
}

template <class T, class Rule>
void read(const At& at, Fact<T>& fact, const Rule& rule) {
  const Json* json = at.object.find(at.key);
  if (json == nullptr || means_unknown(*json)) return;
  if (auto value = parse<T>(*json, at.pointer(), rule, true, at.context)) fact = *std::move(value);
}
inline void read(const At& at, Fact<bool>& fact, const AsTyped&) {
  fact = at.object.fact_boolean(at.key);
}
inline void read(const At& at, Fact<int>& fact, const Whole& rule) {
  fact = at.object.fact_integer(at.key, rule.low, rule.high);
}
inline void read(const At& at, Fact<double>& fact, const Slope&) {
  fact = read_slope_fact(at.object, at.key);
}
template <Quantity Q>
void read_fact(const At& at, const Json& json, Fact<Q>& fact, const Limit<Q>& limit) {
  ErrorList& errors = at.context.errors;
  const auto read = read_fact_quantity<Q>(json, at.pointer(), any<Q>(), errors);
  if (!read || read->is_unknown()) return;
  if (within_limit<Q>(json, at.pointer(), read->low(), read->high(), limit, errors)) fact = *read;
}
template <Quantity Q>
void read(const At& at, Fact<Q>& fact, const Limit<Q>& limit) {
  if (const Json* json = at.json(allowed<Q>(limit) + ", or \"unknown\""))
    read_fact<Q>(at, *json, fact, limit);
}
template <Quantity Q>
void read(const At& at, Fact<Q>& fact, const Measured<Q>& rule) {
  const std::string what = allowed<Q>(rule.limit) + ", or a range";
  const Json* json = at.json(what);
  if (json == nullptr) return;
  if (means_unknown(*json)) {
    at.object.fail(at.key, describe(*json), what, "measure it; without it nothing can be said");
  } else if (json->is_object() || (json->is_string() && parse_range<Q>(json->get<std::string>()))) {
    read_fact<Q>(at, *json, fact, rule.limit);
  } else if (const auto one = parse<Q>(*json, at.pointer(), rule.limit, false, at.context)) {
    fact = *one;
  }
}

template <Declared T>
void read(const At& at, T& value, const AsTyped&) {
  const auto inner = [&](ObjectReader& object) { read_fields(object, at.context, value); };
  if (at.required) {
    at.object.required_object(at.key, inner);
  } else {
    at.object.object(at.key, inner);
  }
}
template <Declared T>
void read(const At& at, std::optional<T>& value, const AsTyped&) {
  at.object.object(at.key,
                   [&](ObjectReader& object) { read_fields(object, at.context, value.emplace()); });
}
template <Declared T>
void read(const At& at, std::vector<T>& entries, const Entries& rule) {
  at.object.objects(
      at.key,
      [&](ObjectReader& object) { read_fields(object, at.context, entries.emplace_back()); },
      rule.least, rule.most);
}
template <Declared T>
void read(const At& at, Seen<T>& seen, const AsTyped&) {
  const Json* json = at.object.find(at.key);
  if (json == nullptr || means_unknown(*json)) return;
  seen.looked = true;
  if (*json == "none") return;
  if (json->is_array()) {
    read(at, seen.items, Entries{0, most_entries});
  } else {
    at.object.fail(at.key, describe(*json), "\"none\", an array of what is there, or \"not seen\"",
                   "look, and write \"none\" or what is there");
  }
}
template <std::same_as<Probed> T>
void read(const At& at, T& probed, const AllOrPieces&) {
  const Json* json = at.object.find(at.key);
  if (json == nullptr || means_unknown(*json) || *json == "none") return;
  if (*json == "all") {
    probed.pieces = {"all"};
  } else if (json->is_string()) {
    at.object.fail(at.key, describe(*json), "\"all\", \"none\", or {\"pieces\": [...]}",
                   "name the pieces that were probed");
  } else {
    at.object.object(at.key,
                     [&](ObjectReader& object) { read_fields(object, at.context, probed); });
  }
}

// --- members: writing -------------------------------------------------------------------------------

template <class T, class Rule>
OrderedJson written(const std::optional<T>& value, const Rule& rule) {
  return value ? written(*value, rule) : OrderedJson();
}
template <class T, class Rule>
OrderedJson written(const std::vector<T>& values, const Rule& rule) {
  if (values.empty()) return {};
  OrderedJson list = OrderedJson::array();
  for (const T& value : values) list.push_back(written(value, rule));
  return list;
}
template <class T, class Rule>
OrderedJson written(const Seen<T>& seen, const Rule& rule) {
  return seen.items.empty() && seen.looked ? OrderedJson("none") : written(seen.items, rule);
}
template <class T, class Rule>
OrderedJson written(const Fact<T>& fact, const Rule& rule) {
  if (fact.is_range())
    return {{"low", written(fact.low(), rule)}, {"high", written(fact.high(), rule)}};
  return fact.is_value() ? written(fact.value(), rule) : OrderedJson();
}

// --- members: describing ----------------------------------------------------------------------------

template <class M>
struct Member {
  using Value = M;
};
template <class T>
struct Member<std::optional<T>> : Member<T> {};
template <class T>
struct Member<std::vector<T>> : Member<T> {
  static constexpr bool several = true;
};
template <class T>
struct Member<Seen<T>> : Member<T> {
  static constexpr bool several = true, seen = true;
};
template <class T>
struct Member<Fact<T>> : Member<T> {
  static constexpr bool fact = true;
};

template <class M, class Rule>
void specify_member(Field& field, const Rule& rule) {
  using Value = typename Member<M>::Value;
  specify<Value>(field, rule);
  if constexpr (requires { Member<M>::fact; }) {
    field.may_be_unknown = !OneOf<Rule, Measured<Length>>;
    field.may_be_range = Quantity<Value> || OneOf<Rule, Whole, Slope>;
  }
  if constexpr (requires { Member<M>::several; }) {
    field.several = true;
    field.most = most_entries;
  }
  if constexpr (requires { rule.most; }) {
    field.least = rule.least;
    field.most = rule.most;
  }
  if constexpr (requires { Member<M>::seen; }) field.may_be_none = field.may_be_unknown = true;
}

}  // namespace underprop::record

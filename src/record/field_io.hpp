// The three classes that take the place of Io in a declaration: one reads, one writes, one lists.
#pragma once

#include "listing.hpp"
#include "values.hpp"

#include <algorithm>
#include <string>
#include <string_view>
#include <vector>

namespace underprop::record {

/// Reads the fields of one object.
template <class T>
class FieldReader : public Verbs<FieldReader<T>, T> {
public:
  FieldReader(ObjectReader& object, const ReadContext& context, T& value)
      : object_(object), context_(context), value_(value) {}

  void format(std::string_view key, std::string_view) { (void)object_.string(key); }
  template <class M, class Rule>
  void field(std::string_view key, bool required, M T::*member, const Rule& rule,
             std::string_view) {
    read(At{object_, key, required, context_}, value_.*member, rule);
  }
  template <class M, class BreadthRule, class DepthRule>
  void section_of(std::string_view breadth_key, M T::*breadth, const BreadthRule& breadth_rule,
                  std::string_view, std::string_view depth_key, M T::*depth,
                  const DepthRule& depth_rule, std::string_view, std::string_view) {
    if (const Json* size = object_.find("size")) {
      for (const std::string_view key : {breadth_key, depth_key}) {
        if (!object_.has(key)) continue;
        object_.fail(
            key, "\"" + std::string(key) + "\" beside \"size\"",
            "either the nominal size (" + object_.pointer_of("size") + ") or both actual sizes",
            "delete one of them");
      }
      if (const auto actual = read_nominal_size(*size, object_.pointer_of("size"), context_)) {
        value_.*breadth = actual->first;
        value_.*depth = actual->second;
      }
      return;
    }
    field(breadth_key, needed_side<M, BreadthRule>, breadth, breadth_rule, {});
    field(depth_key, needed_side<M, DepthRule>, depth, depth_rule, {});
  }

private:
  ObjectReader& object_;
  const ReadContext& context_;
  T& value_;
};

template <class T>
void read_fields(ObjectReader& object, const ReadContext& context, T& value) {
  FieldReader<T> io(object, context, value);
  Declaration<T>::fields(io);
}

/// What is left out of an object of this type.
template <class T>
[[nodiscard]] const T& as_declared() {
  static const T value{};
  return value;
}

/// Writes the fields of one object in the order of their declaration, those that say nothing left out.
template <class T>
class FieldWriter : public Verbs<FieldWriter<T>, T> {
public:
  explicit FieldWriter(const T& value) : value_(value) {}
  [[nodiscard]] OrderedJson take() { return std::move(json_); }

  void format(std::string_view key, std::string_view) { json_[std::string(key)] = survey_format; }
  template <class M, class Rule>
  void field(std::string_view key, bool required, M T::*member, const Rule& rule,
             std::string_view) {
    const M& value = value_.*member;
    if constexpr (Plain<M>) {
      if (!required && value == as_declared<T>().*member) return;
    }
    OrderedJson json = written(value, rule);
    if constexpr (requires { value.is_unknown(); }) {
      if (required && value.is_unknown()) json = "unknown";
    }
    if (!json.is_null() && (required || json != OrderedJson::object()))
      json_[std::string(key)] = std::move(json);
  }
  template <class M, class BreadthRule, class DepthRule>
  void section_of(std::string_view breadth_key, M T::*breadth, const BreadthRule& breadth_rule,
                  std::string_view, std::string_view depth_key, M T::*depth,
                  const DepthRule& depth_rule, std::string_view, std::string_view) {
    field(breadth_key, needed_side<M, BreadthRule>, breadth, breadth_rule, {});
    field(depth_key, needed_side<M, DepthRule>, depth, depth_rule, {});
  }

private:
  const T& value_;
  OrderedJson json_ = OrderedJson::object();
};

template <class T>
OrderedJson written_fields(const T& value) {
  FieldWriter<T> io(value);
  Declaration<T>::fields(io);
  return io.take();
}

template <class T>
void list_fields(Listing& listing, const std::string& object);

/// Lists the fields of one type of object, and of those inside it.
template <class T>
class FieldLister : public Verbs<FieldLister<T>, T> {
public:
  FieldLister(Listing& listing, std::string object)
      : fields_(listing.fields), listing_(listing), object_(std::move(object)) {}

  void format(std::string_view key, std::string_view told) {
    add(key, true, told).kind = ValueKind::format;
  }
  template <class M, class Rule>
  void field(std::string_view key, bool required, M T::*member, const Rule& rule,
             std::string_view told) {
    Field& field = add(key, required, told);
    specify_member<M>(field, rule);
    if constexpr (std::is_arithmetic_v<M> || Enumeration<M>) {
      if (!required) field.if_absent = written(as_declared<T>().*member, rule).dump();
    }
    const bool field_is_list = field.several;
    if constexpr (std::is_same_v<Rule, Row>) add_row(rule);
    using Value = typename Member<M>::Value;
    if constexpr (Declared<Value>)
      list_fields<Value>(listing_, object_ + "/" + std::string(key) + (field_is_list ? "/[]" : ""));
  }
  template <class M, class BreadthRule, class DepthRule>
  void section_of(std::string_view breadth_key, M T::*breadth, const BreadthRule& breadth_rule,
                  std::string_view breadth_told, std::string_view depth_key, M T::*depth,
                  const DepthRule& depth_rule, std::string_view depth_told,
                  std::string_view size_told) {
    field(breadth_key, false, breadth, breadth_rule, breadth_told);
    field(depth_key, false, depth, depth_rule, depth_told);
    add("size", false, size_told).kind = ValueKind::nominal_size;
  }

private:
  Field& add(std::string_view key, bool required, std::string_view told) {
    Field field;
    field.object = object_;
    field.type = Declaration<T>::type;
    field.key = key;
    field.required = required;
    field.meaning = told;
    return fields_.emplace_back(std::move(field));
  }
  void add_row(const Row& rule) {
    add("first", false, "In place of \"positions\": where the first one is.").kind =
        ValueKind::length;
    add("spacing", false, "In place of \"positions\": from centre to centre.").kind =
        ValueKind::length;
    specify<int>(add("count", false, "In place of \"positions\": how many there are."),
                 Whole{1, static_cast<int>(rule.most)});
  }
  std::vector<Field>& fields_;
  Listing& listing_;
  std::string object_;
};

/// The type, and what stands in it and below, at a place of the format.
template <class T>
void list_fields(Listing& listing, const std::string& object) {
  FieldLister<T> io(listing, object);
  Declaration<T>::fields(io);
  const std::pair<std::string, std::string> type{Declaration<T>::type, Declaration<T>::meaning};
  if (std::ranges::find(listing.types, type) == listing.types.end()) listing.types.push_back(type);
}

}  // namespace underprop::record

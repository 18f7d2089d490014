#include "base/json_reader.hpp"

#include "base/edit_distance.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <utility>

namespace underprop {

namespace {

constexpr std::size_t longest_string = 200;

/// "a", "b", "c"
std::string list_of(std::span<const std::string_view> words) {
  std::string text;
  for (const std::string_view word : words) {
    text += fmt::format("{}\"{}\"", text.empty() ? "" : ", ", word);
  }
  return text;
}

std::string with_unknown(std::string allowed, bool or_unknown) {
  if (or_unknown) allowed += ", or \"unknown\"";
  return allowed;
}

template <class Q>
std::string bounds_text(const Bounds<Q>& bounds) {
  std::string text;
  if (bounds.low && bounds.high && !bounds.low_excluded) {
    return fmt::format(", from {} to {}", write_quantity(*bounds.low),
                       write_quantity(*bounds.high));
  }
  if (bounds.low) {
    text = *bounds.low == Q{} && bounds.low_excluded ? std::string(", more than zero")
           : *bounds.low == Q{}                      ? std::string(", not negative")
           : bounds.low_excluded ? fmt::format(", more than {}", write_quantity(*bounds.low))
                                 : fmt::format(", at least {}", write_quantity(*bounds.low));
  }
  if (bounds.high) {
    text += fmt::format("{} at most {}", bounds.low ? " and" : ",", write_quantity(*bounds.high));
  }
  return text;
}

template <class Q>
bool below(const Bounds<Q>& bounds, Q value) {
  return bounds.low && (bounds.low_excluded ? value <= *bounds.low : value < *bounds.low);
}
template <class Q>
bool above(const Bounds<Q>& bounds, Q value) {
  return bounds.high && value > *bounds.high;
}

template <class Q>
std::string allowed_quantity(const Bounds<Q>& bounds, bool or_unknown) {
  return with_unknown(std::string(quantity_examples<Q>()) + bounds_text(bounds), or_unknown);
}

template <class Q>
bool within(const Json& value, const std::string& pointer, Q low, Q high, const Bounds<Q>& bounds,
            bool or_unknown, ErrorList& errors) {
  if (!below(bounds, low) && !above(bounds, high)) return true;
  errors.add(pointer,
             fmt::format("{} is too {}", describe(value), below(bounds, low) ? "small" : "large"),
             allowed_quantity(bounds, or_unknown), "check the number and its unit");
  return false;
}

/// A number where a quantity is wanted, and the like.
template <class Q>
void not_a_quantity(const Json& value, const std::string& pointer, const Bounds<Q>& bounds,
                    bool or_unknown, ErrorList& errors) {
  if (value.is_number()) {
    const Parsed<Q> why = parse_quantity<Q>(value.dump());
    errors.add(pointer, describe(value) + " has no unit", allowed_quantity(bounds, or_unknown),
               why.remedy.empty() ? "write it as text with a unit" : why.remedy);
    return;
  }
  errors.add(pointer, describe(value), allowed_quantity(bounds, or_unknown),
             value.is_null() && or_unknown ? "leave the key out, or write \"unknown\""
                                           : "write it as text with a unit");
}

std::string whole_range(int low, int high) {
  return fmt::format("a whole number from {} to {}", low, high);
}

bool is_whole(const Json& value, int low, int high) {
  if (value.is_number_unsigned()) {
    const auto n = value.get<std::uint64_t>();
    return high >= 0 && n <= static_cast<std::uint64_t>(high) &&
           (low < 0 || n >= static_cast<std::uint64_t>(low));
  }
  if (!value.is_number_integer()) return false;
  const auto n = value.get<std::int64_t>();
  return n >= low && n <= high;
}

/// "3 to 4" or "3-4".
std::optional<std::pair<int, int>> whole_ends(std::string_view text) {
  std::pair<int, int> ends;
  const char* const end = text.data() + text.size();
  auto first = std::from_chars(text.data(), end, ends.first);
  if (first.ec != std::errc{}) return std::nullopt;
  std::string_view rest(first.ptr, static_cast<std::size_t>(end - first.ptr));
  if (rest.starts_with(" to ")) {
    rest.remove_prefix(4);
  } else if (rest.starts_with("-")) {
    rest.remove_prefix(1);
  } else {
    return std::nullopt;
  }
  const auto second = std::from_chars(rest.data(), end, ends.second);
  if (second.ec != std::errc{} || second.ptr != end || ends.first > ends.second) {
    return std::nullopt;
  }
  return ends;
}

}  // namespace

std::string describe(const Json& value) {
  switch (value.type()) {
    case Json::value_t::null:
      return "null";
    case Json::value_t::object:
      return value.empty() ? "an empty object" : "an object";
    case Json::value_t::array:
      return value.empty() ? "an empty array" : "an array";
    case Json::value_t::string:
      return quote(value.get_ref<const std::string&>());
    case Json::value_t::boolean:
      return value.get<bool>() ? "true" : "false";
    case Json::value_t::number_integer:
    case Json::value_t::number_unsigned:
    case Json::value_t::number_float:
      return "the number " + value.dump();
    default:
      return "something that is not JSON";
  }
}

bool is_unknown_word(std::string_view text) {
  static constexpr std::array<std::string_view, 10> words{
      "unknown",  "don't know", "don’t know",    "dont know",    "do not know",
      "not seen", "not known",  "not looked at", "not recorded", "?"};
  return std::ranges::find(words, text) != words.end();
}

bool means_unknown(const Json& value) {
  return value.is_string() && is_unknown_word(value.get_ref<const std::string&>());
}

template <class Q>
std::optional<Q> read_quantity(const Json& value, const std::string& pointer,
                               const Bounds<Q>& bounds, ErrorList& errors) {
  if (!value.is_string()) {
    not_a_quantity(value, pointer, bounds, false, errors);
    return std::nullopt;
  }
  Parsed<Q> parsed = parse_quantity<Q>(value.get_ref<const std::string&>());
  if (!parsed) {
    errors.add(pointer, std::move(parsed.problem), allowed_quantity(bounds, false),
               std::move(parsed.remedy));
    return std::nullopt;
  }
  if (!within(value, pointer, *parsed.value, *parsed.value, bounds, false, errors)) {
    return std::nullopt;
  }
  return parsed.value;
}

template <class Q>
std::optional<Fact<Q>> read_fact_quantity(const Json& value, const std::string& pointer,
                                          const Bounds<Q>& bounds, ErrorList& errors) {
  if (means_unknown(value)) return Fact<Q>{};
  if (value.is_string()) {
    Parsed<Range<Q>> parsed = parse_range<Q>(value.get_ref<const std::string&>());
    if (!parsed) {
      errors.add(pointer, std::move(parsed.problem), allowed_quantity(bounds, true),
                 std::move(parsed.remedy));
      return std::nullopt;
    }
    const auto [low, high] = *parsed.value;
    if (!within(value, pointer, low, high, bounds, true, errors)) return std::nullopt;
    return Fact<Q>::range(low, high);
  }
  if (value.is_object()) {
    const std::size_t before = errors.count();
    ObjectReader ends(value, pointer, errors);
    const Q low = ends.quantity<Q>("low", bounds);
    const Q high = ends.quantity<Q>("high", bounds);
    ends.finish();
    if (errors.count() != before) return std::nullopt;
    if (high < low) {
      errors.add(pointer, "a range whose high end is below its low end", "low not above high",
                 "exchange the two");
      return std::nullopt;
    }
    return Fact<Q>::range(low, high);
  }
  not_a_quantity(value, pointer, bounds, true, errors);
  return std::nullopt;
}

#define UNDERPROP_INSTANTIATE(Q)                                                                \
  template std::optional<Q> read_quantity<Q>(const Json&, const std::string&, const Bounds<Q>&, \
                                             ErrorList&);                                       \
  template std::optional<Fact<Q>> read_fact_quantity<Q>(const Json&, const std::string&,        \
                                                        const Bounds<Q>&, ErrorList&)
UNDERPROP_INSTANTIATE(Length);
UNDERPROP_INSTANTIATE(Mass);
UNDERPROP_INSTANTIATE(Force);
UNDERPROP_INSTANTIATE(Pressure);
UNDERPROP_INSTANTIATE(Volume);
UNDERPROP_INSTANTIATE(Density);
UNDERPROP_INSTANTIATE(Angle);
#undef UNDERPROP_INSTANTIATE

std::optional<std::string> read_string(const Json& value, const std::string& pointer,
                                       ErrorList& errors) {
  const std::string allowed = fmt::format("text of 1 to {} bytes", longest_string);
  if (!value.is_string()) {
    errors.add(pointer, describe(value), allowed, "write text between double quotes");
    return std::nullopt;
  }
  const auto& text = value.get_ref<const std::string&>();
  if (text.empty() || text.size() > longest_string) {
    errors.add(pointer,
               text.empty() ? "an empty text" : fmt::format("a text of {} bytes", text.size()),
               allowed, text.empty() ? "write it, or leave the key out" : "write it shorter");
    return std::nullopt;
  }
  const bool control = std::ranges::any_of(
      text, [](char c) { return static_cast<unsigned char>(c) < 0x20 || c == 0x7f; });
  if (control) {
    errors.add(pointer, describe(value) + " holds a control character", allowed + " on one line",
               "delete the character");
    return std::nullopt;
  }
  return text;
}

std::optional<bool> read_boolean(const Json& value, const std::string& pointer, ErrorList& errors) {
  if (value.is_boolean()) return value.get<bool>();
  errors.add(pointer, describe(value), "true or false", "write true or false, without quotes");
  return std::nullopt;
}

std::optional<int> read_integer(const Json& value, const std::string& pointer, int low, int high,
                                ErrorList& errors) {
  if (is_whole(value, low, high)) return value.get<int>();
  errors.add(pointer, describe(value), whole_range(low, high),
             value.is_string() ? "write the number without quotes" : "check the number");
  return std::nullopt;
}

std::optional<double> read_number(const Json& value, const std::string& pointer, double low,
                                  double high, ErrorList& errors) {
  if (value.is_number()) {
    const auto number = value.get<double>();
    if (number >= low && number <= high) return number;
  }
  errors.add(pointer, describe(value), fmt::format("a number from {} to {}", low, high),
             value.is_string() ? "write the number without quotes" : "check the number");
  return std::nullopt;
}

std::optional<std::size_t> read_word(const Json& value, const std::string& pointer,
                                     std::span<const std::string_view> words, bool or_unknown,
                                     ErrorList& errors) {
  if (value.is_string()) {
    const auto found = std::ranges::find(words, value.get_ref<const std::string&>());
    if (found != words.end()) return static_cast<std::size_t>(found - words.begin());
  }
  std::string allowed = "one of " + list_of(words);
  const std::string_view near = value.is_string()
                                    ? nearest_word(value.get_ref<const std::string&>(), words)
                                    : std::string_view();
  errors.add(pointer, describe(value), with_unknown(std::move(allowed), or_unknown),
             !near.empty() ? fmt::format("did you mean \"{}\"?", near)
             : value.is_null() && or_unknown
                 ? std::string("leave the key out, or write \"unknown\"")
                 : std::string("choose one of these"));
  return std::nullopt;
}

// --- ObjectReader ---------------------------------------------------------------------------------

ObjectReader::ObjectReader(const Json& value, std::string pointer, ErrorList& errors)
    : pointer_(std::move(pointer)), errors_(&errors) {
  if (value.is_object()) {
    object_ = &value;
  } else {
    errors.add(pointer_, describe(value), "an object", "write {\"key\": value, ...}");
  }
}

const Json* ObjectReader::find(std::string_view key) {
  known_.emplace(key);
  if (object_ == nullptr) return nullptr;
  const auto it = object_->find(key);
  return it == object_->end() ? nullptr : &*it;
}

const Json* ObjectReader::require(std::string_view key, std::string_view allowed) {
  const Json* value = find(key);
  if (value == nullptr && object_ != nullptr) {
    errors_->add(pointer_of(key), fmt::format("the key \"{}\" is missing", key),
                 std::string(allowed), fmt::format("add \"{}\"", key));
  }
  return value;
}

void ObjectReader::allow(std::initializer_list<std::string_view> keys) {
  for (const std::string_view key : keys) known_.emplace(key);
}

void ObjectReader::fail(std::string_view key, std::string found, std::string allowed,
                        std::string remedy) {
  errors_->add(pointer_of(key), std::move(found), std::move(allowed), std::move(remedy));
}

void ObjectReader::finish() {
  if (object_ == nullptr) return;
  const std::vector<std::string_view> known(known_.begin(), known_.end());
  for (auto it = object_->begin(); it != object_->end(); ++it) {
    if (known_.contains(it.key())) continue;
    std::string allowed = known.empty() ? "no key" : "the keys " + list_of(known);
    const std::string_view near = nearest_word(it.key(), known);
    errors_->add(pointer_of(it.key()), fmt::format("the unknown key {}", quote(it.key())),
                 std::move(allowed),
                 near.empty() ? std::string("delete it or correct it")
                              : fmt::format("did you mean \"{}\"?", near));
  }
}

std::string ObjectReader::string(std::string_view key) {
  const Json* value = require(key, "text between double quotes");
  if (value == nullptr) return {};
  return read_string(*value, pointer_of(key), *errors_).value_or(std::string());
}

std::optional<std::string> ObjectReader::optional_string(std::string_view key) {
  const Json* value = find(key);
  if (value == nullptr) return std::nullopt;
  return read_string(*value, pointer_of(key), *errors_);
}

Fact<std::string> ObjectReader::fact_string(std::string_view key) {
  const Json* value = find(key);
  if (value == nullptr || means_unknown(*value)) return {};
  auto text = read_string(*value, pointer_of(key), *errors_);
  return text ? Fact<std::string>(*std::move(text)) : Fact<std::string>{};
}

bool ObjectReader::boolean(std::string_view key, bool if_absent) {
  const Json* value = find(key);
  if (value == nullptr) return if_absent;
  return read_boolean(*value, pointer_of(key), *errors_).value_or(if_absent);
}

Fact<bool> ObjectReader::fact_boolean(std::string_view key) {
  const Json* value = find(key);
  if (value == nullptr || means_unknown(*value)) return {};
  if (value->is_boolean()) return value->get<bool>();
  if (*value == "yes") return true;
  if (*value == "no") return false;
  fail(key, describe(*value), "true, false, or \"unknown\"",
       value->is_null() ? "leave the key out, or write \"unknown\"" : "write true or false");
  return {};
}

int ObjectReader::integer(std::string_view key, int low, int high) {
  const Json* value = require(key, whole_range(low, high));
  if (value == nullptr) return low;
  return read_integer(*value, pointer_of(key), low, high, *errors_).value_or(low);
}

int ObjectReader::integer(std::string_view key, int low, int high, int if_absent) {
  const Json* value = find(key);
  if (value == nullptr) return if_absent;
  return read_integer(*value, pointer_of(key), low, high, *errors_).value_or(if_absent);
}

Fact<int> ObjectReader::fact_integer(std::string_view key, int low, int high) {
  const Json* value = find(key);
  if (value == nullptr || means_unknown(*value)) return {};
  if (is_whole(*value, low, high)) return value->get<int>();
  if (value->is_string()) {
    const auto ends = whole_ends(value->get_ref<const std::string&>());
    if (ends && ends->first >= low && ends->second <= high) {
      return Fact<int>::range(ends->first, ends->second);
    }
  } else if (value->is_object()) {
    const std::size_t before = errors_->count();
    ObjectReader reader(*value, pointer_of(key), *errors_);
    const int first = reader.integer("low", low, high);
    const int second = reader.integer("high", low, high);
    reader.finish();
    if (errors_->count() != before) return {};
    if (first <= second) return Fact<int>::range(first, second);
    fail(key, "a range whose high end is below its low end", "low not above high",
         "exchange the two");
    return {};
  }
  fail(key, describe(*value), whole_range(low, high) + ", a range like \"3 to 4\", or \"unknown\"",
       value->is_null() ? "leave the key out, or write \"unknown\"" : "check the number");
  return {};
}

double ObjectReader::number(std::string_view key, double low, double high) {
  const Json* value = require(key, fmt::format("a number from {} to {}", low, high));
  if (value == nullptr) return low;
  return read_number(*value, pointer_of(key), low, high, *errors_).value_or(low);
}

double ObjectReader::number(std::string_view key, double low, double high, double if_absent) {
  const Json* value = find(key);
  if (value == nullptr) return if_absent;
  return read_number(*value, pointer_of(key), low, high, *errors_).value_or(if_absent);
}

const Json* ObjectReader::find_array(std::string_view key, std::size_t least, std::size_t most) {
  const std::string allowed = least == 0 ? fmt::format("an array of at most {}", most)
                                         : fmt::format("an array of {} to {}", least, most);
  const Json* value = least > 0 ? require(key, allowed) : find(key);
  if (value == nullptr) return nullptr;
  if (!value->is_array()) {
    fail(key, describe(*value), allowed, "write [ ... ], also around a single entry");
    return nullptr;
  }
  if (value->size() < least || value->size() > most) {
    fail(key, value->empty() ? describe(*value) : fmt::format("an array of {}", value->size()),
         allowed, value->size() < least ? "add what is missing" : "leave out what is too much");
  }
  return value;
}

std::string ObjectReader::join_words(std::span<const std::string_view> words) {
  return "one of " + list_of(words);
}

}  // namespace underprop

// Reading JSON written by people: strict, every fault told at once with its place and its remedy.
//
//   ErrorList errors(file);
//   const Json json = read_json_text(text, file);        // throws for a file that is not JSON at all
//   ObjectReader deck(json, "", errors);                 // "" = JSON Pointer of the whole file
//   Length height = deck.quantity<Length>("height", positive<Length>());
//   Fact<Length> gap = deck.fact_quantity<Length>("gap", not_negative<Length>());
//   deck.objects("posts", [&](ObjectReader& post) { ...; });   // finish() is called for each
//   deck.finish();                                       // unknown keys, with "did you mean"
//   errors.throw_if_any();
//
// Nothing throws between read_json_text and throw_if_any (std::bad_alloc apart). A read that fails
// adds to the list and returns a harmless value: the fallback, an empty optional, an unknown fact or
// a value-initialised T. A key counts as known once it has been asked for.
//
// Facts. Absent, "unknown", "don't know" and "not seen" are all unknown. A quantity fact is a string
// with one value or a range (units.hpp), or {"low": "600 mm", "high": "650 mm"}. null is refused.
#pragma once

#include "underprop/base/fact.hpp"
#include "underprop/base/input_error.hpp"
#include "underprop/base/quantity.hpp"
#include "underprop/base/units.hpp"

#include <nlohmann/json.hpp>

#include <cstddef>
#include <initializer_list>
#include <optional>
#include <set>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace underprop {

using Json = nlohmann::json;

/// Callers refuse larger files before reading them; read_json_text refuses larger texts.
inline constexpr std::size_t max_json_bytes = std::size_t{4} * 1024 * 1024;
inline constexpr std::size_t max_json_depth = 64;

/// Parses strict JSON (RFC 8259; no comments, no trailing commas; a UTF-8 byte order mark is passed
/// over). Throws InputErrors for: empty text, more than max_json_bytes, nesting deeper than
/// max_json_depth, invalid UTF-8, a syntax error (with line and column), a number that does not fit a
/// double, a key that stands twice in one object (all of these at once, by pointer).
[[nodiscard]] Json read_json_text(std::string_view text, const std::string& file);

/// "an object", "the number 3", "null", `"text"`: what was found, for a message.
[[nodiscard]] std::string describe(const Json& value);

/// True for a string that means unknown: "unknown", "don't know", "not seen" and near spellings.
[[nodiscard]] bool is_unknown_word(std::string_view text);
[[nodiscard]] bool means_unknown(const Json& value);

// --- bounds ---------------------------------------------------------------------------------------

/// What a quantity may be. low_excluded: strictly above low.
template <class Q>
struct Bounds {
  std::optional<Q> low;
  std::optional<Q> high;
  bool low_excluded = false;
};
template <class Q>
[[nodiscard]] Bounds<Q> any() {
  return {};
}
template <class Q>
[[nodiscard]] Bounds<Q> positive() {
  return {Q{}, std::nullopt, true};
}
template <class Q>
[[nodiscard]] Bounds<Q> positive_up_to(Q high) {
  return {Q{}, high, true};
}
template <class Q>
[[nodiscard]] Bounds<Q> not_negative() {
  return {Q{}, std::nullopt, false};
}
template <class Q>
[[nodiscard]] Bounds<Q> between(Q low, Q high) {
  return {low, high, false};
}

// --- one value at a pointer (elements of arrays, values of unusual shape) -----------------------------

/// Each adds to `errors` and returns nullopt if the value is not what is wanted.
template <class Q>  ///< Length, Mass, Force, Pressure, Volume, Density, Angle
[[nodiscard]] std::optional<Q> read_quantity(const Json& value, const std::string& pointer,
                                             const Bounds<Q>& bounds, ErrorList& errors);
/// nullopt after an error; an unknown Fact for the words that mean unknown.
template <class Q>
[[nodiscard]] std::optional<Fact<Q>> read_fact_quantity(const Json& value,
                                                        const std::string& pointer,
                                                        const Bounds<Q>& bounds, ErrorList& errors);
/// Not empty, at most 200 bytes, no control characters.
[[nodiscard]] std::optional<std::string> read_string(const Json& value, const std::string& pointer,
                                                     ErrorList& errors);
[[nodiscard]] std::optional<bool> read_boolean(const Json& value, const std::string& pointer,
                                               ErrorList& errors);
[[nodiscard]] std::optional<int> read_integer(const Json& value, const std::string& pointer,
                                              int low, int high, ErrorList& errors);
/// A plain number without unit, low <= x <= high.
[[nodiscard]] std::optional<double> read_number(const Json& value, const std::string& pointer,
                                                double low, double high, ErrorList& errors);
/// The index of the word found; one of `words` exactly, else an error with "did you mean".
/// `or_unknown` only adds "unknown" to what the message says is allowed.
[[nodiscard]] std::optional<std::size_t> read_word(const Json& value, const std::string& pointer,
                                                   std::span<const std::string_view> words,
                                                   bool or_unknown, ErrorList& errors);

/// One word of an enumeration. Tables: `constexpr EnumWord<Use> use_words[] = {{"shared", Use::shared}, ...};`
template <class E>
struct EnumWord {
  std::string_view word;
  E value;
};
template <class E>
[[nodiscard]] std::optional<E> read_enum(const Json& value, const std::string& pointer,
                                         std::span<const EnumWord<E>> table, bool or_unknown,
                                         ErrorList& errors) {
  std::vector<std::string_view> words;
  words.reserve(table.size());
  for (const EnumWord<E>& entry : table) words.push_back(entry.word);
  const auto index = read_word(value, pointer, words, or_unknown, errors);
  if (!index) return std::nullopt;
  return table[*index].value;
}
/// The word of an enumerator; "" if the table does not have it.
template <class E>
[[nodiscard]] std::string_view word_of(E value, std::span<const EnumWord<E>> table) {
  for (const EnumWord<E>& entry : table) {
    if (entry.value == value) return entry.word;
  }
  return {};
}
template <class E, std::size_t N>
[[nodiscard]] std::string_view word_of(E value, const EnumWord<E> (&table)[N]) {
  return word_of(value, std::span<const EnumWord<E>>(table));
}

// --- an object, key by key -----------------------------------------------------------------------------

class ObjectReader {
public:
  /// Reads `value`, which must outlive the reader. Anything but an object is reported once; the
  /// reader then acts as an object without keys and says nothing of required keys.
  ObjectReader(const Json& value, std::string pointer, ErrorList& errors);

  [[nodiscard]] bool is_object() const { return object_ != nullptr; }
  [[nodiscard]] const std::string& pointer() const { return pointer_; }
  [[nodiscard]] std::string pointer_of(std::string_view key) const {
    return child_pointer(pointer_, key);
  }
  [[nodiscard]] ErrorList& errors() const { return *errors_; }

  /// The value of a key, or nullptr; the key counts as known.
  [[nodiscard]] const Json* find(std::string_view key);
  /// Likewise, and a missing key is an error: "<allowed>" says what should stand there.
  [[nodiscard]] const Json* require(std::string_view key, std::string_view allowed);
  [[nodiscard]] bool has(std::string_view key) { return find(key) != nullptr; }
  /// Keys that are fine and need not be read here ("note").
  void allow(std::initializer_list<std::string_view> keys);
  /// A fault of the value at `key`, in the caller's words.
  void fail(std::string_view key, std::string found, std::string allowed, std::string remedy);
  /// Reports every key that was never asked for. Call it last.
  void finish();

  // Strings
  [[nodiscard]] std::string string(std::string_view key);  ///< required
  [[nodiscard]] std::optional<std::string> optional_string(std::string_view key);
  [[nodiscard]] Fact<std::string> fact_string(std::string_view key);

  // Yes or no. A fact may also be "yes" or "no".
  [[nodiscard]] bool boolean(std::string_view key, bool if_absent);
  [[nodiscard]] Fact<bool> fact_boolean(std::string_view key);

  // Whole numbers. A fact may also be "3 to 4", "3-4" or {"low": 3, "high": 4}.
  [[nodiscard]] int integer(std::string_view key, int low, int high);  ///< required; low on error
  [[nodiscard]] int integer(std::string_view key, int low, int high, int if_absent);
  [[nodiscard]] Fact<int> fact_integer(std::string_view key, int low, int high);

  // Plain numbers
  [[nodiscard]] double number(std::string_view key, double low, double high);  ///< required
  [[nodiscard]] double number(std::string_view key, double low, double high, double if_absent);

  // Quantities
  template <class Q>
  [[nodiscard]] Q quantity(std::string_view key, const Bounds<Q>& bounds) {  ///< required
    const Json* value = require(key, quantity_examples<Q>());
    if (value == nullptr) return Q{};
    return read_quantity<Q>(*value, pointer_of(key), bounds, *errors_).value_or(Q{});
  }
  template <class Q>
  [[nodiscard]] Q quantity(std::string_view key, const Bounds<Q>& bounds, Q if_absent) {
    return optional_quantity<Q>(key, bounds).value_or(if_absent);
  }
  template <class Q>
  [[nodiscard]] std::optional<Q> optional_quantity(std::string_view key, const Bounds<Q>& bounds) {
    const Json* value = find(key);
    if (value == nullptr) return std::nullopt;
    return read_quantity<Q>(*value, pointer_of(key), bounds, *errors_);
  }
  template <class Q>
  [[nodiscard]] Fact<Q> fact_quantity(std::string_view key, const Bounds<Q>& bounds) {
    const Json* value = find(key);
    if (value == nullptr) return {};
    return read_fact_quantity<Q>(*value, pointer_of(key), bounds, *errors_).value_or(Fact<Q>{});
  }
  /// An array of quantities; absent is empty.
  template <class Q>
  [[nodiscard]] std::vector<Q> quantities(std::string_view key, const Bounds<Q>& bounds,
                                          std::size_t most = 1000) {
    std::vector<Q> result;
    array(key, 0, most, [&](const Json& element, const std::string& at) {
      if (const auto q = read_quantity<Q>(element, at, bounds, *errors_)) result.push_back(*q);
    });
    return result;
  }

  // Enumerations
  template <class E, std::size_t N>
  [[nodiscard]] E enumerated(std::string_view key, const EnumWord<E> (&table)[N]) {  ///< required
    const Json* value = require(key, words_allowed(std::span<const EnumWord<E>>(table)));
    if (value == nullptr) return table[0].value;
    return read_enum<E>(*value, pointer_of(key), table, false, *errors_).value_or(table[0].value);
  }
  template <class E, std::size_t N>
  [[nodiscard]] E enumerated(std::string_view key, const EnumWord<E> (&table)[N], E if_absent) {
    return optional_enumerated<E>(key, table).value_or(if_absent);
  }
  template <class E, std::size_t N>
  [[nodiscard]] std::optional<E> optional_enumerated(std::string_view key,
                                                     const EnumWord<E> (&table)[N]) {
    const Json* value = find(key);
    if (value == nullptr) return std::nullopt;
    return read_enum<E>(*value, pointer_of(key), table, false, *errors_);
  }
  template <class E, std::size_t N>
  [[nodiscard]] Fact<E> fact_enumerated(std::string_view key, const EnumWord<E> (&table)[N]) {
    const Json* value = find(key);
    if (value == nullptr || means_unknown(*value)) return {};
    const auto read = read_enum<E>(*value, pointer_of(key), table, true, *errors_);
    return read ? Fact<E>(*read) : Fact<E>{};
  }

  // Arrays and objects
  /// Calls each(element, pointer of the element) for the array at `key`; absent is empty unless
  /// `least` > 0. A length outside least..most is an error; at most `most` elements are visited.
  template <class Each>
  void array(std::string_view key, std::size_t least, std::size_t most, Each&& each) {
    const Json* list = find_array(key, least, most);
    if (list == nullptr) return;
    std::size_t index = 0;
    const std::string at = pointer_of(key);
    for (const Json& element : *list) {
      if (index == most) return;
      each(element, child_pointer(at, index));
      ++index;
    }
  }
  /// An array of objects: each(ObjectReader&) for every one, then its finish().
  template <class Each>
  void objects(std::string_view key, Each&& each, std::size_t least = 0, std::size_t most = 1000) {
    array(key, least, most, [&](const Json& element, const std::string& at) {
      ObjectReader reader(element, at, *errors_);
      each(reader);
      reader.finish();
    });
  }
  /// The object at `key`: read(ObjectReader&), then its finish(). False if the key is absent.
  template <class Read>
  bool object(std::string_view key, Read&& read) {
    const Json* value = find(key);
    if (value == nullptr) return false;
    ObjectReader reader(*value, pointer_of(key), *errors_);
    read(reader);
    reader.finish();
    return true;
  }
  /// Likewise; an absent key is an error, and `read` is not called.
  template <class Read>
  bool required_object(std::string_view key, Read&& read) {
    if (require(key, "an object") == nullptr) return false;
    return object(key, std::forward<Read>(read));
  }

private:
  [[nodiscard]] const Json* find_array(std::string_view key, std::size_t least, std::size_t most);
  [[nodiscard]] static std::string join_words(std::span<const std::string_view> words);
  template <class E>
  [[nodiscard]] static std::string words_allowed(std::span<const EnumWord<E>> table) {
    std::vector<std::string_view> words;
    for (const EnumWord<E>& entry : table) words.push_back(entry.word);
    return join_words(words);
  }

  const Json* object_ = nullptr;
  std::string pointer_;
  ErrorList* errors_;
  std::set<std::string, std::less<>> known_;
};

}  // namespace underprop

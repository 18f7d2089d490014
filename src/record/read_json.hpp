// FieldReader: reads the fields of read_fields.hpp from JSON, every fault with its place and remedy.
#pragma once

#include "fields.hpp"
#include "said.hpp"
#include "words.hpp"

#include "underprop/base/json_reader.hpp"

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace underprop::record {

/// What a reader of one file knows beside the value in hand.
struct ReadContext {
  ErrorList& errors;
  std::optional<StandardId> standard;  ///< none: missing or wrong, reported elsewhere
};

inline constexpr std::string_view survey_format = "underprop-survey/1";

/// Is low..high within the limit? If not, adds an error at the pointer, with "did you mean" where
/// another unit would do. `value` is what stands in the file.
template <class Q>
bool within_limit(const Json& value, const std::string& pointer, Q low, Q high,
                  const Limit<Q>& limit, ErrorList& errors);

/// "level", "1 in 12", "0.08 in 1"; nullopt if it is none of these.
std::optional<double> read_slope(std::string_view text);

/// Dressed (actual) breadth and depth of a nominal size such as "2x8"; nullopt after an error.
std::optional<std::pair<Length, Length>> read_nominal_size(const Json& value,
                                                           const std::string& pointer,
                                                           const ReadContext& context);
/// Text that may run to several sentences; "" after an error.
std::string read_notes(const Json& value, const std::string& pointer, ErrorList& errors);
/// A name of a piece or group: letters, digits, space, - _ . only; "" after an error.
std::string read_name(const Json& value, const std::string& pointer, ErrorList& errors);
/// YYYY-MM-DD of the Gregorian calendar; "" after an error.
std::string read_date(const Json& value, const std::string& pointer, const ReadContext& context);
/// As read_word, with what people say for one of the words: it is suggested, not taken.
std::optional<std::size_t> read_choice(const Json& value, const std::string& pointer,
                                       std::span<const std::string_view> words, bool or_unknown,
                                       ErrorList& errors);
std::optional<Point> read_point(const Json& value, const std::string& pointer, ErrorList& errors);
/// Strength class, or species and grade; refused if the standard's tables do not have it.
std::string read_timber(const Json& value, const std::string& pointer, const ReadContext& context,
                        bool may_be_unknown);
/// "positions", or "first", "spacing" and "count" spelt out.
std::vector<Length> read_positions(ObjectReader& object, const Limit<Length>& limit,
                                   std::size_t most);

class FieldReader {
public:
  FieldReader(ObjectReader& object, const ReadContext& context)
      : object_(object), context_(context) {}

  // --- text ---
  void text(std::string_view key, std::string& text) { text = object_.string(key); }
  void text_or(std::string_view key, std::string& text) {
    text = object_.optional_string(key).value_or("");
  }
  void name(std::string_view key, std::string& name) {
    if (const Json* value = object_.require(key, "a name"))
      name = read_name(*value, at(key), errors());
  }
  void names(std::string_view key, std::vector<std::string>& names, std::size_t most) {
    object_.array(key, 0, most, [&](const Json& element, const std::string& pointer) {
      std::string name = read_name(element, pointer, errors());
      if (!name.empty()) names.push_back(std::move(name));
    });
  }
  void notes_or(std::string_view key, std::string& notes) {
    if (const Json* value = object_.find(key)) notes = read_notes(*value, at(key), errors());
  }
  void date_or(std::string_view key, std::string& date) {
    if (const Json* value = object_.find(key)) date = read_date(*value, at(key), context_);
  }
  void timber(std::string_view key, std::string& timber) {
    if (const Json* value = object_.require(key, "a strength class, or species and grade")) {
      timber = read_timber(*value, at(key), context_, false);
    }
  }
  void format(std::string_view key) { (void)object_.string(key); }

  // --- words, flags, numbers ---
  template <class E>
  void word(std::string_view key, E& value) {
    const auto words = all_words<E>();
    std::string allowed;
    for (const std::string_view each : words) {
      allowed += (allowed.empty() ? "one of \"" : ", \"") + std::string(each) + "\"";
    }
    if (const Json* json = object_.require(key, allowed)) value = pick<E>(*json, key, false, value);
  }
  template <class E>
  void word_or(std::string_view key, E& value, E if_absent) {
    const Json* json = object_.find(key);
    value = json == nullptr ? if_absent : pick<E>(*json, key, false, if_absent);
  }
  template <class E>
  void maybe_word(std::string_view key, std::optional<E>& value) {
    if (const Json* json = object_.find(key)) value = pick<E>(*json, key, false, E{});
  }
  void flag(std::string_view key, bool& value) {
    if (const Json* json = object_.require(key, "true or false")) {
      value = read_boolean(*json, at(key), errors()).value_or(value);
    }
  }
  void flag_or(std::string_view key, bool& value, bool if_absent) {
    value = object_.boolean(key, if_absent);
  }
  void whole_or(std::string_view key, int& value, int low, int high, int if_absent) {
    value = object_.integer(key, low, high, if_absent);
  }
  void number_or(std::string_view key, double& value, double low, double high, double if_absent) {
    value = object_.number(key, low, high, if_absent);
  }

  // --- quantities ---
  template <class Q>
  void value(std::string_view key, Q& quantity, const Limit<Q>& limit) {
    if (const Json* json = object_.require(key, quantity_examples<Q>())) {
      quantity = read_one<Q>(*json, at(key), limit).value_or(Q{});
    }
  }
  template <class Q>
  void value_or(std::string_view key, Q& quantity, const Limit<Q>& limit) {
    if (const Json* json = object_.find(key)) {
      quantity = read_one<Q>(*json, at(key), limit).value_or(Q{});
    }
  }
  template <class Q>
  void maybe(std::string_view key, std::optional<Q>& quantity, const Limit<Q>& limit) {
    if (const Json* json = object_.find(key)) quantity = read_one<Q>(*json, at(key), limit);
  }
  void lengths(std::string_view key, std::vector<Length>& lengths, const Limit<Length>& limit,
               std::size_t most) {
    object_.array(key, 0, most, [&](const Json& element, const std::string& pointer) {
      if (const auto read = read_one<Length>(element, pointer, limit)) lengths.push_back(*read);
    });
  }
  void positions(std::vector<Length>& positions, const Limit<Length>& limit, std::size_t most) {
    positions = read_positions(object_, limit, most);
  }

  // --- facts ---
  template <class Q>
  requires requires(Q q) { q.value(); }
  void fact(std::string_view key, Fact<Q>& fact, const Limit<Q>& limit) {
    if (const Json* json = object_.find(key)) read_fact<Q>(*json, at(key), fact, limit);
  }
  template <class Q>
  void required_fact(std::string_view key, Fact<Q>& fact, const Limit<Q>& limit) {
    const std::string allowed = std::string(quantity_examples<Q>()) + ", or \"unknown\"";
    if (const Json* json = object_.require(key, allowed)) {
      read_fact<Q>(*json, at(key), fact, limit);
    }
  }
  template <class Q>
  void measured(std::string_view key, Fact<Q>& fact, const Limit<Q>& limit) {
    const std::string allowed = std::string(quantity_examples<Q>()) + ", or a range";
    const Json* json = object_.require(key, allowed);
    if (json == nullptr) return;
    if (means_unknown(*json)) {
      object_.fail(key, describe(*json), allowed, "measure it; without it nothing can be said");
      return;
    }
    if (json->is_object() || (json->is_string() && parse_range<Q>(json->get<std::string>()))) {
      read_fact<Q>(*json, at(key), fact, limit);
    } else if (const auto one = read_one<Q>(*json, at(key), limit)) {
      fact = *one;
    }
  }
  void fact(std::string_view key, Fact<std::string>& fact) {  // a timber
    const Json* json = object_.find(key);
    if (json == nullptr || means_unknown(*json)) return;
    std::string timber = read_timber(*json, at(key), context_, true);
    if (!timber.empty()) fact = std::move(timber);
  }
  void fact(std::string_view key, Fact<bool>& fact) { fact = object_.fact_boolean(key); }
  void fact(std::string_view key, Fact<int>& fact, int low, int high) {
    fact = object_.fact_integer(key, low, high);
  }
  template <class E>
  requires std::is_enum_v<E>
  void fact(std::string_view key, Fact<E>& fact) {
    const Json* json = object_.find(key);
    if (json == nullptr || means_unknown(*json)) return;
    const std::size_t before = errors().count();
    const E read = pick<E>(*json, key, true, E{});
    if (errors().count() == before) fact = read;
  }
  void fact_letter(std::string_view key, Fact<std::string>& fact);
  void slope(std::string_view key, Fact<double>& fact);

  /// breadth and depth of a piece, or in their place its nominal "size" (North America).
  template <class Dimension>
  void section(std::string_view breadth_key, Dimension& breadth, std::string_view depth_key,
               Dimension& depth) {
    if (nominal(breadth_key, breadth, depth_key, depth)) return;
    dimension(breadth_key, breadth, limit::breadth);
    dimension(depth_key, depth, limit::depth);
  }
  void measured_section(std::string_view breadth_key, Fact<Length>& breadth,
                        std::string_view depth_key, Fact<Length>& depth) {
    if (nominal(breadth_key, breadth, depth_key, depth)) return;
    measured(breadth_key, breadth, limit::breadth);
    measured(depth_key, depth, limit::depth);
  }

  // --- points, objects, lists ---
  void point(std::string_view key, Point& point) {
    if (const Json* json = object_.require(key, "a point such as [\"1.2 m\", \"0 m\"]")) {
      point = read_point(*json, at(key), errors()).value_or(Point{});
    }
  }
  void points(std::string_view key, std::vector<Point>& points, std::size_t least,
              std::size_t most) {
    object_.array(key, least, most, [&](const Json& element, const std::string& pointer) {
      if (const auto read = read_point(element, pointer, errors())) points.push_back(*read);
    });
  }
  template <class T>
  void object(std::string_view key, T& value) {
    object_.object(key, [&](ObjectReader& inner) { read_fields(inner, value); });
  }
  template <class T>
  void object(std::string_view key, std::optional<T>& value) {
    object_.object(key, [&](ObjectReader& inner) { read_fields(inner, value.emplace()); });
  }
  template <class T>
  void required_object(std::string_view key, T& value) {
    object_.required_object(key, [&](ObjectReader& inner) { read_fields(inner, value); });
  }
  template <class T>
  void list(std::string_view key, std::vector<T>& items, std::size_t least, std::size_t most) {
    object_.objects(
        key, [&](ObjectReader& inner) { read_fields(inner, items.emplace_back()); }, least, most);
  }
  template <class T>
  void seen(std::string_view key, Seen<T>& seen) {
    const Json* json = object_.find(key);
    if (json == nullptr || means_unknown(*json)) return;
    seen.looked = true;
    if (*json == "none") return;
    if (!json->is_array()) {
      object_.fail(key, describe(*json), "\"none\", an array of what is there, or \"not seen\"",
                   "look, and write \"none\" or what is there");
      return;
    }
    object_.objects(
        key, [&](ObjectReader& inner) { read_fields(inner, seen.items.emplace_back()); }, 0,
        most_entries);
  }
  void all_or_object(std::string_view key, Probed& probed) {
    const Json* json = object_.find(key);
    if (json == nullptr || means_unknown(*json) || *json == "none") return;
    if (*json == "all") {
      probed.pieces = {"all"};
    } else if (json->is_string()) {
      object_.fail(key, describe(*json), "\"all\", \"none\", or {\"pieces\": [...]}",
                   "name the pieces that were probed");
    } else {
      object(key, probed);
    }
  }

private:
  [[nodiscard]] std::string at(std::string_view key) const { return object_.pointer_of(key); }
  [[nodiscard]] ErrorList& errors() const { return object_.errors(); }

  template <class T>
  void read_fields(ObjectReader& inner, T& value) {
    FieldReader io(inner, context_);
    fields(io, value);
  }
  template <class E>
  E pick(const Json& json, std::string_view key, bool or_unknown, E otherwise) {
    const auto index = read_choice(json, at(key), all_words<E>(), or_unknown, errors());
    return index ? ReadWords<E>::table[*index].second : otherwise;
  }
  template <class Q>
  std::optional<Q> read_one(const Json& json, const std::string& pointer, const Limit<Q>& limit) {
    auto read = read_quantity<Q>(json, pointer, any<Q>(), errors());
    if (read && !within_limit<Q>(json, pointer, *read, *read, limit, errors())) read.reset();
    return read;
  }
  template <class Q>
  void read_fact(const Json& json, const std::string& pointer, Fact<Q>& fact,
                 const Limit<Q>& limit) {
    const auto read = read_fact_quantity<Q>(json, pointer, any<Q>(), errors());
    if (!read || read->is_unknown()) return;
    if (within_limit<Q>(json, pointer, read->low(), read->high(), limit, errors())) fact = *read;
  }
  void dimension(std::string_view key, Length& length, const Limit<Length>& limit) {
    value(key, length, limit);
  }
  void dimension(std::string_view key, Fact<Length>& length, const Limit<Length>& limit) {
    fact(key, length, limit);
  }
  /// True if "size" stands there, good or bad.
  template <class Dimension>
  bool nominal(std::string_view breadth_key, Dimension& breadth, std::string_view depth_key,
               Dimension& depth) {
    const Json* json = object_.find("size");
    if (json == nullptr) return false;
    for (const std::string_view key : {breadth_key, depth_key}) {
      if (!object_.has(key)) continue;
      object_.fail(key, "\"" + std::string(key) + "\" beside \"size\"",
                   "either the nominal size (" + at("size") + ") or both actual sizes",
                   "delete one of them");
    }
    if (const auto actual = read_nominal_size(*json, at("size"), context_)) {
      breadth = actual->first;
      depth = actual->second;
    }
    return true;
  }

  ObjectReader& object_;
  const ReadContext& context_;
};

}  // namespace underprop::record

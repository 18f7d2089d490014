// Writes a survey: the fields of read_fields.hpp in their order, what is unknown or usual left out.
#include "underprop/record/format.hpp"

#include "fields.hpp"
#include "read_json.hpp"
#include "words.hpp"

#include "underprop/base/units.hpp"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <cmath>
#include <limits>

namespace underprop::record {
namespace {

using OrderedJson = nlohmann::ordered_json;

/// A slope that read_slope reads back to the same number.
std::string write_slope(double slope) {
  if (slope == 0.0) return "level";
  double run = 1.0 / slope;
  for (const double candidate : {std::round(run), run, std::nextafter(run, 0.0),
                                 std::nextafter(run, std::numeric_limits<double>::infinity())}) {
    if (candidate > 0.0 && 1.0 / candidate == slope) return fmt::format("1 in {}", candidate);
  }
  return fmt::format("{} in 1", slope);
}

OrderedJson point_json(const Point& point) {
  return OrderedJson::array({write_quantity(point.x), write_quantity(point.y)});
}

class FieldWriter {
public:
  [[nodiscard]] OrderedJson take() { return std::move(json_); }

  // --- text ---
  void text(std::string_view key, const std::string& text) { put(key, text); }
  void text_or(std::string_view key, const std::string& text) {
    if (!text.empty()) put(key, text);
  }
  void name(std::string_view key, const std::string& name) { put(key, name); }
  void names(std::string_view key, const std::vector<std::string>& names, std::size_t) {
    if (!names.empty()) put(key, names);
  }
  void notes_or(std::string_view key, const std::string& notes) { text_or(key, notes); }
  void date_or(std::string_view key, const std::string& date) { text_or(key, date); }
  void timber(std::string_view key, const std::string& timber) { put(key, timber); }
  void format(std::string_view key) { put(key, survey_format); }

  // --- words, flags, numbers ---
  template <class E>
  void word(std::string_view key, E value) {
    put(key, written_word(value));
  }
  template <class E>
  void word_or(std::string_view key, E value, E if_absent) {
    if (value != if_absent) word(key, value);
  }
  template <class E>
  void maybe_word(std::string_view key, const std::optional<E>& value) {
    if (value) word(key, *value);
  }
  void flag(std::string_view key, bool value) { put(key, value); }
  void flag_or(std::string_view key, bool value, bool if_absent) {
    if (value != if_absent) put(key, value);
  }
  void whole_or(std::string_view key, int value, int, int, int if_absent) {
    if (value != if_absent) put(key, value);
  }
  void number_or(std::string_view key, double value, double, double, double if_absent) {
    if (value != if_absent) put(key, value);
  }

  // --- quantities ---
  template <class Q>
  void value(std::string_view key, Q quantity, const Limit<Q>&) {
    put(key, write_quantity(quantity));
  }
  template <class Q>
  void value_or(std::string_view key, Q quantity, const Limit<Q>& limit) {
    if (quantity != Q{}) value(key, quantity, limit);
  }
  template <class Q>
  void maybe(std::string_view key, const std::optional<Q>& quantity, const Limit<Q>& limit) {
    if (quantity) value(key, *quantity, limit);
  }
  void lengths(std::string_view key, const std::vector<Length>& lengths, const Limit<Length>&,
               std::size_t) {
    if (lengths.empty()) return;
    OrderedJson list = OrderedJson::array();
    for (const Length length : lengths) list.push_back(write_quantity(length));
    put(key, std::move(list));
  }
  void positions(const std::vector<Length>& positions, const Limit<Length>& limit,
                 std::size_t most) {
    lengths("positions", positions, limit, most);
  }

  // --- facts ---
  template <class Q>
  requires requires(Q q) { q.value(); }
  void fact(std::string_view key, const Fact<Q>& fact, const Limit<Q>&) {
    if (fact.is_value()) put(key, write_quantity(fact.low()));
    if (fact.is_range()) {
      put(key, ends(write_quantity(fact.low()), write_quantity(fact.high())));
    }
  }
  template <class Q>
  void required_fact(std::string_view key, const Fact<Q>& value, const Limit<Q>& limit) {
    if (value.is_unknown()) put(key, "unknown");
    fact(key, value, limit);
  }
  template <class Q>
  void measured(std::string_view key, const Fact<Q>& value, const Limit<Q>& limit) {
    required_fact(key, value, limit);
  }
  void fact(std::string_view key, const Fact<std::string>& fact) {
    if (fact.is_value()) put(key, fact.value());
  }
  void fact(std::string_view key, const Fact<bool>& fact) {
    if (fact.is_value()) put(key, fact.value());
  }
  void fact(std::string_view key, const Fact<int>& fact, int, int) {
    if (fact.is_value()) put(key, fact.value());
    if (fact.is_range()) put(key, ends(fact.low(), fact.high()));
  }
  template <class E>
  requires std::is_enum_v<E>
  void fact(std::string_view key, const Fact<E>& fact) {
    if (fact.is_value() && !written_word(fact.value()).empty()) word(key, fact.value());
  }
  void fact_letter(std::string_view key, const Fact<std::string>& value) { fact(key, value); }
  void slope(std::string_view key, const Fact<double>& slope) {
    if (slope.is_value()) put(key, write_slope(slope.value()));
    if (slope.is_range()) put(key, ends(write_slope(slope.low()), write_slope(slope.high())));
  }
  template <class Dimension>
  void section(std::string_view breadth_key, const Dimension& breadth, std::string_view depth_key,
               const Dimension& depth) {
    dimension(breadth_key, breadth);
    dimension(depth_key, depth);
  }
  void measured_section(std::string_view breadth_key, const Fact<Length>& breadth,
                        std::string_view depth_key, const Fact<Length>& depth) {
    section(breadth_key, breadth, depth_key, depth);
  }

  // --- points, objects, lists ---
  void point(std::string_view key, const Point& point) { put(key, point_json(point)); }
  void points(std::string_view key, const std::vector<Point>& points, std::size_t, std::size_t) {
    if (points.empty()) return;
    OrderedJson list = OrderedJson::array();
    for (const Point& point : points) list.push_back(point_json(point));
    put(key, std::move(list));
  }
  template <class T>
  void object(std::string_view key, T& value) {
    OrderedJson inner = written(value);
    if (!inner.empty()) put(key, std::move(inner));
  }
  template <class T>
  void object(std::string_view key, std::optional<T>& value) {
    if (value) put(key, written(*value));
  }
  template <class T>
  void required_object(std::string_view key, T& value) {
    put(key, written(value));
  }
  template <class T>
  void list(std::string_view key, std::vector<T>& items, std::size_t, std::size_t) {
    if (!items.empty()) put(key, written_list(items));
  }
  template <class T>
  void seen(std::string_view key, Seen<T>& seen) {
    if (!seen.looked && seen.items.empty()) return;
    if (seen.items.empty()) {
      put(key, "none");
    } else {
      put(key, written_list(seen.items));
    }
  }
  void all_or_object(std::string_view key, Probed& probed) { object(key, probed); }

private:
  template <class Value>
  void put(std::string_view key, Value&& value) {
    json_[std::string(key)] = std::forward<Value>(value);
  }
  template <class Value>
  static OrderedJson ends(const Value& low, const Value& high) {
    OrderedJson range = OrderedJson::object();
    range["low"] = low;
    range["high"] = high;
    return range;
  }
  void dimension(std::string_view key, Length length) { put(key, write_quantity(length)); }
  void dimension(std::string_view key, const Fact<Length>& length) {
    fact(key, length, limit::depth);
  }
  template <class T>
  static OrderedJson written(T& value) {
    FieldWriter io;
    fields(io, value);
    return io.take();
  }
  template <class T>
  static OrderedJson written_list(std::vector<T>& items) {
    OrderedJson list = OrderedJson::array();
    for (T& item : items) list.push_back(written(item));
    return list;
  }

  OrderedJson json_ = OrderedJson::object();
};

constexpr std::size_t widest_line = 100;

std::string text_of(const OrderedJson& value) {
  return value.dump(-1, ' ', false, OrderedJson::error_handler_t::replace);
}

/// On one line, with a space behind each comma and colon.
std::string on_one_line(const OrderedJson& value) {
  if (!value.is_structured()) return text_of(value);
  std::string inner;
  for (const auto& [key, element] : value.items()) {
    if (!inner.empty()) inner += ", ";
    if (value.is_object()) inner += text_of(key) + ": ";
    inner += on_one_line(element);
  }
  return value.is_object() ? "{" + inner + "}" : "[" + inner + "]";
}

/// What fits on a line stands on one; the rest is spread, one entry a line.
void spread(const OrderedJson& value, std::size_t indent, std::size_t column, std::string& out) {
  const std::string line = on_one_line(value);
  if (indent > 0 && column + line.size() < widest_line) {
    out += line;
    return;
  }
  if (!value.is_structured() || value.empty()) {
    out += line;
    return;
  }
  const std::string margin(indent + 2, ' ');
  out += value.is_object() ? "{" : "[";
  bool first = true;
  for (const auto& [key, element] : value.items()) {
    out += first ? "\n" : ",\n";
    first = false;
    const std::string head = value.is_object() ? text_of(key) + ": " : std::string();
    out += margin + head;
    spread(element, indent + 2, margin.size() + head.size(), out);
  }
  out += "\n" + std::string(indent, ' ') + (value.is_object() ? "}" : "]");
}

}  // namespace

std::string write_survey(const Survey& survey) {
  Survey copy = survey;  // `fields` is one function for reading and writing, so it takes no const
  FieldWriter io;
  fields(io, copy);
  std::string text;
  spread(io.take(), 0, 0, text);
  text += '\n';
  return text;
}

}  // namespace underprop::record

// Lists every key of the format, by running `fields` over empty objects.
#include "underprop/record/format.hpp"

#include "fields.hpp"
#include "words.hpp"

namespace underprop::record {
namespace {

class FieldLister {
public:
  FieldLister(std::vector<SurveyKey>& keys, std::string path)
      : keys_(keys), path_(std::move(path)) {}

  template <class T>
  void text(std::string_view key, const T&) {
    add(key, true);
  }
  template <class T>
  void text_or(std::string_view key, const T&) {
    add(key, false);
  }
  template <class T>
  void name(std::string_view key, const T&) {
    add(key, true);
  }
  template <class T>
  void names(std::string_view key, const T&, std::size_t) {
    add(key, false);
  }
  template <class T>
  void notes_or(std::string_view key, const T&) {
    add(key, false);
  }
  template <class T>
  void date_or(std::string_view key, const T&) {
    add(key, false);
  }
  template <class T>
  void timber(std::string_view key, const T&) {
    add(key, true);
  }
  void format(std::string_view key) { add(key, true); }

  template <class E>
  void word(std::string_view key, E) {
    add_words<E>(key, true);
  }
  template <class E>
  void word_or(std::string_view key, E, E) {
    add_words<E>(key, false);
  }
  template <class E>
  void maybe_word(std::string_view key, const std::optional<E>&) {
    add_words<E>(key, false);
  }
  void flag(std::string_view key, bool) { add(key, true); }
  void flag_or(std::string_view key, bool, bool) { add(key, false); }
  void whole_or(std::string_view key, int, int, int, int) { add(key, false); }
  void number_or(std::string_view key, double, double, double, double) { add(key, false); }

  template <class Q>
  void value(std::string_view key, Q, const Limit<Q>&) {
    add(key, true);
  }
  template <class Q>
  void value_or(std::string_view key, Q, const Limit<Q>&) {
    add(key, false);
  }
  template <class Q>
  void maybe(std::string_view key, const std::optional<Q>&, const Limit<Q>&) {
    add(key, false);
  }
  void lengths(std::string_view key, const std::vector<Length>&, const Limit<Length>&,
               std::size_t) {
    add(key, false);
  }
  void positions(const std::vector<Length>&, const Limit<Length>&, std::size_t) {
    for (const std::string_view key : {"positions", "first", "spacing", "count"}) add(key, false);
  }

  template <class T, class... Limits>
  void fact(std::string_view key, const Fact<T>&, const Limits&...) {
    if constexpr (std::is_enum_v<T>) {
      add_words<T>(key, false);
    } else {
      add(key, false);
    }
  }
  template <class Q>
  void required_fact(std::string_view key, const Fact<Q>&, const Limit<Q>&) {
    add(key, true);
  }
  template <class Q>
  void measured(std::string_view key, const Fact<Q>&, const Limit<Q>&) {
    add(key, true);
  }
  void fact_letter(std::string_view key, const Fact<std::string>&) { add(key, false); }
  void slope(std::string_view key, const Fact<double>&) { add(key, false); }
  template <class Dimension>
  void section(std::string_view breadth_key, const Dimension&, std::string_view depth_key,
               const Dimension&) {
    for (const std::string_view key : {breadth_key, depth_key, std::string_view("size")}) {
      add(key, false);
    }
  }
  template <class Dimension>
  void measured_section(std::string_view breadth_key, const Dimension& breadth,
                        std::string_view depth_key, const Dimension& depth) {
    section(breadth_key, breadth, depth_key, depth);
  }

  void point(std::string_view key, const Point&) { add(key, true); }
  void points(std::string_view key, const std::vector<Point>&, std::size_t least, std::size_t) {
    add(key, least > 0);
  }
  template <class T>
  void object(std::string_view key, T& value) {
    add(key, false);
    inside(key, value);
  }
  template <class T>
  void object(std::string_view key, std::optional<T>&) {
    T value;
    object(key, value);
  }
  template <class T>
  void required_object(std::string_view key, T& value) {
    add(key, true);
    inside(key, value);
  }
  template <class T>
  void list(std::string_view key, std::vector<T>&, std::size_t least, std::size_t) {
    add(key, least > 0);
    T value;
    inside(std::string(key) + "/[]", value);
  }
  template <class T>
  void seen(std::string_view key, Seen<T>& seen) {
    list(key, seen.items, 0, 0);
  }
  void all_or_object(std::string_view key, Probed& probed) { object(key, probed); }

private:
  void add(std::string_view key, bool required) {
    keys_.push_back({path_, std::string(key), required, {}});
  }
  template <class E>
  void add_words(std::string_view key, bool required) {
    add(key, required);
    for (const std::string_view word : all_words<E>()) keys_.back().words.emplace_back(word);
  }
  template <class T>
  void inside(std::string_view key, T& value) {
    FieldLister io(keys_, path_ + "/" + std::string(key));
    fields(io, value);
  }

  std::vector<SurveyKey>& keys_;
  std::string path_;
};

}  // namespace

std::vector<SurveyKey> survey_keys() {
  std::vector<SurveyKey> keys;
  Survey survey;
  FieldLister io(keys, "");
  fields(io, survey);
  return keys;
}

}  // namespace underprop::record

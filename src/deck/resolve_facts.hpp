// One reading of facts: each fact taken is a value, and is listed if it had to be assumed.
#pragma once

#include "record/words.hpp"
#include "underprop/record/standard_facts.hpp"

#include "underprop/base/format.hpp"
#include "underprop/deck/deck.hpp"
#include "underprop/record/facts.hpp"
#include "underprop/record/wording.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>
#include <string>
#include <type_traits>
#include <utility>
#include <vector>

namespace underprop::deck {

class FactTaker {
public:
  FactTaker(record::StandardId standard, record::Reading reading,
            const std::map<std::string, record::Reading>& single, double share = 1.0)
      : standard_(standard), reading_(reading), single_(single), share_(share) {}

  [[nodiscard]] record::StandardId standard() const { return standard_; }
  [[nodiscard]] UnitSystem units() const { return record::facts_of(standard_).units; }
  /// An override of a pointer holds for everything below it too; the longest one counts.
  [[nodiscard]] record::Reading reading_of(const std::string& field) const {
    return overriding(field).value_or(reading_);
  }
  [[nodiscard]] std::optional<record::Reading> overriding(const std::string& field) const {
    if (single_.empty()) return std::nullopt;
    for (std::string at = canonical(field); !at.empty(); at.resize(at.rfind('/'))) {
      const auto found = single_.find(at);
      if (found != single_.end()) return found->second;
    }
    return std::nullopt;
  }
  /// Like things are one fact: what is open below `prefix` is what is open below `like`, which was taken
  /// before, and its name is told with it.
  void alike(const std::string& prefix, const std::string& like, const std::string& name) {
    alike_.push_back({prefix, like, name});
  }
  /// The field under which a like thing is listed.
  [[nodiscard]] std::string canonical(const std::string& field) const {
    const Alike* alike = alike_of(field);
    return alike == nullptr ? field : alike->like + field.substr(alike->prefix.size());
  }
  /// The table's value of a reading, without listing anything.
  template <class T>
  [[nodiscard]] T quiet(std::string_view kind, record::Reading reading) const {
    return from_table<T>(record::fact_kind(kind).value(standard_, reading));
  }
  [[nodiscard]] std::vector<OpenFact> take_open() { return std::move(open_); }

  /// The fact's value in this reading, without listing anything.
  template <class T>
  [[nodiscard]] T peek(const Fact<T>& fact, const std::string& field, std::string_view kind) const {
    if (fact.is_value()) return fact.value();
    const record::Reading reading = reading_of(field);
    return fact.is_unknown() ? quiet<T>(kind, reading)
                             : from_range(fact, reading, record::fact_kind(kind).smaller_is_worse);
  }

  /// The fact's value in this reading; lists it if it is unknown or a range.
  template <class T>
  T take(const Fact<T>& fact, const std::string& field, std::string_view kind) {
    if (fact.is_value()) return fact.value();
    const record::FactKind& row = record::fact_kind(kind);
    std::array<T, 3> values;
    for (std::size_t r = 0; r < 3; ++r) {
      const auto reading = static_cast<record::Reading>(r);
      values[r] = fact.is_unknown() ? from_table<T>(row.value(standard_, reading))
                                    : from_range(fact, reading, row.smaller_is_worse);
    }
    return resolve<T>(values, field, row, fact.is_range());
  }

  /// Likewise for a timber; of a species without its grade the grade is open.
  std::string take_timber(const Fact<std::string>& fact, const std::string& field,
                          std::string_view kind, bool large = false) {
    const record::SpeciesRow* species =
        fact.is_value() ? record::species_row(standard_, fact.value()) : nullptr;
    if (species == nullptr) return take(fact, field, kind);
    std::array<std::string, 3> values = species->timbers;
    if (large) values[0] = species->large_cautious;
    return resolve(values, field, record::fact_kind(kind), true);
  }

  /// Likewise for an unknown fact whose three values were worked out by the caller.
  template <class T>
  T resolve(const std::array<T, 3>& values, const std::string& field, const record::FactKind& row,
            bool range) {
    const bool fresh = list(field, row, range, {text(values[0]), text(values[1]), text(values[2])});
    T value = values[static_cast<std::size_t>(reading_of(field))];
    if (share_ < 1.0 && overriding(field) == record::Reading::favourable)
      value = on_the_way(values[0], values[2]);
    if (fresh) open_.back().taken = text(value);
    return value;
  }

  /// Lists a fact with its words from the table.
  void list(const std::string& field, std::string_view kind) {
    const record::FactKind& row = record::fact_kind(kind);
    list(field, row, false,
         {row.value(standard_, record::Reading::cautious).text,
          row.value(standard_, record::Reading::likely).text,
          row.value(standard_, record::Reading::favourable).text});
  }

  /// The three ends of a fact: the worse end, the middle, the better end.
  template <class T>
  static T from_range(const Fact<T>& fact, record::Reading reading, bool smaller_is_worse) {
    const T& worse = smaller_is_worse ? fact.low() : fact.high();
    const T& better = smaller_is_worse ? fact.high() : fact.low();
    if (reading == record::Reading::cautious) return worse;
    if (reading == record::Reading::favourable) return better;
    if constexpr (std::is_same_v<T, int>) {
      const int sum = fact.low() + fact.high();  // rounded towards the worse end
      return smaller_is_worse ? sum / 2 : (sum + 1) / 2;
    } else if constexpr (std::is_same_v<T, bool> || std::is_same_v<T, std::string> ||
                         std::is_enum_v<T>) {
      return worse;
    } else {
      return 0.5 * (fact.low() + fact.high());
    }
  }

private:
  /// A number that share of the way from the cautious to the favourable one, never better than that.
  template <class T>
  [[nodiscard]] T on_the_way(const T& cautious, const T& favourable) const {
    if constexpr (std::is_same_v<T, bool> || std::is_same_v<T, std::string> || std::is_enum_v<T>) {
      return favourable;
    } else if constexpr (std::is_same_v<T, int>) {
      const double way = share_ * static_cast<double>(favourable - cautious);
      return cautious + static_cast<int>(way < 0.0 ? std::floor(way) : std::ceil(way));
    } else if constexpr (std::is_same_v<T, Length>) {
      // Towards the better end, to what a tape shows, so that the value that is told is the value tried.
      const Length step = units() == UnitSystem::metric ? mm(5.0) : inches(0.25);
      const bool more = favourable > cautious;
      const double steps = (cautious + share_ * (favourable - cautious)).value() / step.value();
      const Length there = (more ? std::ceil(steps - 1e-9) : std::floor(steps + 1e-9)) * step;
      return more ? min(there, favourable) : max(there, favourable);
    } else {
      return cautious + share_ * (favourable - cautious);
    }
  }
  template <class T>
  static T from_table(const record::FactDefault& value) {
    if constexpr (std::is_same_v<T, std::string>) {
      return value.text;
    } else if constexpr (std::is_same_v<T, bool>) {
      return value.number != 0.0;
    } else if constexpr (std::is_same_v<T, int>) {
      return static_cast<int>(std::lround(value.number));
    } else if constexpr (std::is_enum_v<T>) {
      return record::from_word<T>(value.text);
    } else {
      return T(value.number);
    }
  }

  struct Alike {
    std::string prefix, like, name;
  };
  [[nodiscard]] const Alike* alike_of(const std::string& field) const {
    for (const Alike& each : alike_) {
      if (field.starts_with(each.prefix)) return &each;
    }
    return nullptr;
  }

  [[nodiscard]] std::string text(const std::string& value) const { return value; }
  [[nodiscard]] std::string text(bool value) const { return value ? "yes" : "no"; }
  [[nodiscard]] std::string text(int value) const { return std::to_string(value); }
  [[nodiscard]] std::string text(Length value) const { return format_length(value, units()); }
  [[nodiscard]] std::string text(Mass value) const { return format_mass(value, units()); }
  [[nodiscard]] std::string text(Force value) const { return format_force(value, units()); }
  [[nodiscard]] std::string text(Pressure value) const { return format_pressure(value, units()); }
  [[nodiscard]] std::string text(Volume value) const { return format_volume(value, units()); }
  /// A slope: rise over run.
  [[nodiscard]] std::string text(double value) const {
    return value <= 0.0 ? "level" : "1 in " + format_decimals(1.0 / value, 1);
  }
  template <class E>
  requires std::is_enum_v<E>
  [[nodiscard]] std::string text(E value) const { return std::string(record::word_of(value)); }

  /// Whether it is a new one: not if nothing can come of it, nor if a like one stands in the list.
  bool list(const std::string& field, const record::FactKind& row, bool range,
            std::array<std::string, 3> texts) {
    // Where the table has one value for all, nothing that is found out can change anything; the soil's
    // row stands for three columns of the tables of the ground.
    const bool one_value = texts[0] == texts[1] && texts[1] == texts[2];
    if (one_value && !row.must_see && row.kind != "site/soil") return false;
    if (const Alike* alike = alike_of(field)) {
      const std::string own = canonical(field);
      const auto same =
          std::ranges::find_if(open_, [&](const OpenFact& fact) { return fact.field == own; });
      if (same != open_.end()) {
        same->also.push_back(alike->name);
        return false;
      }
    }
    OpenFact fact;
    fact.field = field;
    fact.kind = row.kind;
    fact.what = row.what;
    fact.range = range;
    fact.taken = texts[static_cast<std::size_t>(reading_of(field))];
    fact.cautious = std::move(texts[0]);
    fact.likely = std::move(texts[1]);
    fact.favourable = std::move(texts[2]);
    fact.find_out = record::how_to_find_out(row, standard_);
    fact.act = row.act;
    fact.must_see = row.must_see;
    open_.push_back(std::move(fact));
    return true;
  }

  record::StandardId standard_;
  record::Reading reading_;
  const std::map<std::string, record::Reading>& single_;
  double share_ = 1.0;
  std::vector<OpenFact> open_;
  std::vector<Alike> alike_;
};

}  // namespace underprop::deck

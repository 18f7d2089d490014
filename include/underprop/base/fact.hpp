// What is known about one thing: nothing, a value, or a range.
#pragma once

#include <optional>
#include <stdexcept>
#include <utility>

namespace underprop {

/// A fact of a survey. Default: unknown. A range has low < high; where both are equal it is a value.
/// T needs ==, and < if ranges of it are made.
template <class T>
class Fact {
public:
  using value_type = T;

  Fact() = default;
  Fact(T value) : low_(value), high_(std::move(value)) {}  // implicit: a plain value is a fact

  [[nodiscard]] static Fact unknown() { return Fact(); }
  /// Throws std::invalid_argument if low > high.
  [[nodiscard]] static Fact range(T low, T high) {
    if (high < low) throw std::invalid_argument("a range whose low end is above its high end");
    Fact fact;
    fact.low_ = std::move(low);
    fact.high_ = std::move(high);
    return fact;
  }

  [[nodiscard]] bool is_unknown() const { return !low_.has_value(); }
  [[nodiscard]] bool is_known() const { return low_.has_value(); }
  [[nodiscard]] bool is_value() const { return low_.has_value() && *low_ == *high_; }
  [[nodiscard]] bool is_range() const { return low_.has_value() && !(*low_ == *high_); }

  /// The value; throws std::logic_error unless is_value().
  [[nodiscard]] const T& value() const {
    if (!is_value()) throw std::logic_error("asked for the value of a fact that is not settled");
    return *low_;
  }
  [[nodiscard]] T value_or(T otherwise) const { return is_value() ? *low_ : std::move(otherwise); }
  /// The ends of the range, both the value itself where it is one; throws std::logic_error if unknown.
  [[nodiscard]] const T& low() const { return end(low_); }
  [[nodiscard]] const T& high() const { return end(high_); }

  bool operator==(const Fact&) const = default;

private:
  [[nodiscard]] static const T& end(const std::optional<T>& end) {
    if (!end) throw std::logic_error("asked for an end of a fact that is unknown");
    return *end;
  }

  std::optional<T> low_;
  std::optional<T> high_;
};

}  // namespace underprop

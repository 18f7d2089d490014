// A sheet of arithmetic that ends in a Check, and the guards of its inputs. Private.
#pragma once

#include "underprop/base/quantity.hpp"
#include "underprop/standards/check.hpp"

#include <cmath>
#include <limits>
#include <optional>
#include <stdexcept>
#include <string>
#include <utility>

namespace underprop::standards::north_america {

struct Cited {
  double value = 0.0;
  Citation source;
};

/// Throws std::invalid_argument unless `condition` holds; a NaN fails every comparison.
inline void need(bool condition, const char* message) {
  if (!condition) throw std::invalid_argument(message);
}
template <class Q>
void need_positive(Q q, const char* message) {
  need(q.value() > 0.0 && std::isfinite(q.value()), message);
}
template <class Q>
void need_not_negative(Q q, const char* message) {
  need(q.value() >= 0.0 && std::isfinite(q.value()), message);
}
inline void need_capacity(const std::optional<Force>& stated) {
  if (stated) need_not_negative(*stated, "the stated capacity must not be negative");
}

inline Citation nds(const char* where) { return Citation{"nds", where}; }

/// N mm as lb ft.
constexpr double in_pound_feet(Moment m) {
  return in_pounds_force(m / inches(1.0)) * (inches(1.0) / feet(1.0));
}

class Sheet {
public:
  Sheet(const char* name, const char* unit) {
    check_.check = name;
    check_.unit = unit;
    check_.steps.reserve(20);
  }

  void given(const char* symbol, double value, const char* unit) {
    line(symbol, "given", value, unit, Citation{});
  }
  /// Writes one line; returns its value. A value that is not finite is a fault of the inputs.
  double line(const char* symbol, std::string expression, double value, const char* unit,
              Citation source) {
    need(std::isfinite(value), "a line of the check overflows: the input is out of all proportion");
    check_.steps.push_back({symbol, std::move(expression), value, unit, std::move(source)});
    return value;
  }
  double line(const char* symbol, std::string expression, const char* unit, const Cited& cited) {
    return line(symbol, std::move(expression), cited.value, unit, cited.source);
  }
  void unit(const char* unit) { check_.unit = unit; }

  /// Demand against resistance, both in the sheet's unit.
  Check finish(double demand, double resistance, const Citation& source) {
    need(std::isfinite(demand) && demand >= 0.0, "the demand must be a number and not negative");
    check_.demand = demand;
    check_.resistance = resistance;
    check_.source = source;
    check_.utilisation = resistance > 0.0 ? demand / resistance
                         : demand > 0.0   ? std::numeric_limits<double>::infinity()
                                          : 0.0;
    if (resistance > 0.0 && std::isfinite(check_.utilisation)) {
      line("utilisation", "demand / resistance", check_.utilisation, "", source);
    }
    return std::move(check_);
  }
  /// Nothing that counts, and why.
  Check nothing(double demand, std::string why, const Citation& source) {
    line("R", std::move(why), 0.0, check_.unit.c_str(), source);
    return finish(demand, 0.0, source);
  }

private:
  Check check_;
};

}  // namespace underprop::standards::north_america

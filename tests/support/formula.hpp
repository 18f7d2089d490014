// Works out the formulas that the lines of a check are written in. Shares no code with src.
#pragma once

#include "underprop/standards/check.hpp"

#include <cctype>
#include <cmath>
#include <map>
#include <numbers>
#include <stdexcept>
#include <string>
#include <vector>

namespace underprop::test {

class Formula {
public:
  Formula(std::string text, const std::map<std::string, double>& symbols)
      : text_(std::move(text)), symbols_(symbols) {}

  /// Throws std::runtime_error for anything that is no formula, unknown symbols among it.
  double value() {
    const double result = sum();
    skip();
    if (at_ < text_.size() && text_[at_] != ',') fail("nothing more");
    return result;
  }

private:
  void skip() {
    while (at_ < text_.size() && text_[at_] == ' ') ++at_;
  }
  bool is(char c) {
    skip();
    return at_ < text_.size() && text_[at_] == c;
  }
  bool eat(char c) {
    if (!is(c)) return false;
    ++at_;
    return true;
  }
  [[noreturn]] void fail(const std::string& wanted) const {
    throw std::runtime_error("\"" + text_ + "\" at " + std::to_string(at_) + ": wanted " + wanted);
  }
  double sum() {
    const bool negative = eat('-');
    double result = negative ? -product() : product();
    while (true) {
      if (eat('+')) {
        result += product();
      } else if (eat('-')) {
        result -= product();
      } else {
        return result;
      }
    }
  }
  bool factor_follows() {
    skip();
    if (at_ >= text_.size()) return false;
    const char c = text_[at_];
    return c == '(' || c == '_' || std::isalnum(static_cast<unsigned char>(c));
  }
  double product() {
    double result = power();
    while (true) {
      if (eat('/')) {
        result /= power();
      } else if (factor_follows()) {
        if (text_[at_] == 'x' && (at_ + 1 >= text_.size() || text_[at_ + 1] == ' ') &&
            !symbols_.contains("x")) {
          ++at_;
        }
        result *= power();
      } else {
        return result;
      }
    }
  }
  double power() {
    const double base = factor();
    return eat('^') ? std::pow(base, factor()) : base;
  }
  double factor() {
    if (eat('(')) {
      const double inside = sum();
      if (!eat(')')) fail("a closing bracket");
      return inside;
    }
    skip();
    if (at_ < text_.size() && std::isdigit(static_cast<unsigned char>(text_[at_]))) {
      std::size_t used = 0;
      const double number = std::stod(text_.substr(at_), &used);
      at_ += used;
      return number;
    }
    // The longest symbol that is known and ends there.
    std::string found;
    for (const auto& [symbol, value] : symbols_) {
      if (text_.compare(at_, symbol.size(), symbol) == 0 && symbol.size() > found.size() &&
          ends_at(at_ + symbol.size())) {
        found = symbol;
      }
    }
    if (!found.empty()) {
      at_ += found.size();
      return symbols_.at(found);
    }
    std::string word;
    while (at_ < text_.size() && std::isalpha(static_cast<unsigned char>(text_[at_]))) {
      word += text_[at_++];
    }
    if (word == "pi") return std::numbers::pi;
    if (!eat('(')) fail("a symbol from a line above, not \"" + word + "\"");
    std::vector<double> arguments{sum()};
    while (eat(';')) arguments.push_back(sum());
    if (!eat(')')) fail("a closing bracket");
    const double first = arguments.front();
    const double angle = first * std::numbers::pi / 180.0;
    if (word == "sqrt") return std::sqrt(first);
    if (word == "exp") return std::exp(first);
    if (word == "round") return std::round(first);
    if (word == "sin") return std::sin(angle);
    if (word == "cos") return std::cos(angle);
    if (word == "tan") return std::tan(angle);
    double result = first;
    for (const double each : arguments) {
      if (word == "min") result = std::min(result, each);
      if (word == "max") result = std::max(result, each);
    }
    if (word != "min" && word != "max") fail("a function, not \"" + word + "\"");
    return result;
  }
  [[nodiscard]] bool ends_at(std::size_t end) const {
    if (end >= text_.size()) return true;
    const auto c = static_cast<unsigned char>(text_[end]);
    if (c == ',') return end + 1 >= text_.size() || text_[end + 1] == ' ';
    return !std::isalnum(c) && c != '_' && c != '\'' && c != '*';
  }

  std::string text_;
  const std::map<std::string, double>& symbols_;
  std::size_t at_ = 0;
};

/// What is wrong with the lines of a check, one fault a line; empty if every formula comes out.
inline std::string faults_of(const standards::Check& check) {
  std::map<std::string, double> symbols;
  std::string faults;
  for (const standards::Step& step : check.steps) {
    const std::string line = check.check + ": " + step.symbol + " = " + step.expression + " = " +
                             std::to_string(step.value) + " " + step.unit;
    if (step.formula) {
      try {
        const double again = Formula(step.expression, symbols).value();
        if (!(std::abs(again - step.value) <= 1e-8 * std::abs(step.value) + 1e-12)) {
          faults += line + ": comes out as " + std::to_string(again) + "\n";
        }
      } catch (const std::exception& error) {
        faults += line + ": " + error.what() + "\n";
      }
      if (step.source.key.empty()) {
        faults += line + ": a formula without a clause\n";
      }
    }
    symbols[step.symbol] = step.value;
  }
  if (check.source.key.empty()) faults += check.check + ": no clause\n";
  return faults;
}

}  // namespace underprop::test

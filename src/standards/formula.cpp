#include "standards/formula.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <stdexcept>
#include <string>

namespace underprop::standards {

namespace {

bool is_digit(char c) { return c >= '0' && c <= '9'; }
bool is_letter(char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'); }
bool is_of_symbol(char c) {
  return is_letter(c) || is_digit(c) || c == '_' || c == '\'' || c == '*';
}

// Far beyond any formula of a standard; keeps the descent off the end of the stack.
constexpr int deepest = 100;

double raised(double base, double exponent) {
  return exponent == 2.0 ? base * base : std::pow(base, exponent);
}

class Descent {
public:
  Descent(std::string_view text, std::span<const Step> lines) : text_(text), lines_(lines) {}

  double value() {
    const double result = sum();
    if (!at_end() && next() != ',') fail("an operator, or a comma and a remark");
    return result;
  }

private:
  [[noreturn]] void fail(const char* wanted) const {
    throw std::logic_error("the formula \"" + std::string(text_) + "\" wants " + wanted + " at " +
                           std::to_string(at_ + 1));
  }
  [[nodiscard]] bool at_end() const { return at_ >= text_.size(); }
  [[nodiscard]] char next() const { return at_end() ? '\0' : text_[at_]; }
  void skip() {
    while (next() == ' ') ++at_;
  }
  bool eat(char c) {
    if (next() != c) return false;
    ++at_;
    skip();
    return true;
  }

  double sum() {
    if (++depth_ > deepest) fail("fewer brackets within brackets");
    const bool negative = eat('-');
    double result = product();
    if (negative) result = -result;
    while (true) {
      if (eat('+')) {
        result += product();
      } else if (eat('-')) {
        result -= product();
      } else {
        --depth_;
        return result;
      }
    }
  }
  double product() {
    double result = power();
    while (true) {
      if (eat('/')) {
        result /= power();
      } else if (next() == '(' || is_letter(next()) || is_digit(next())) {
        result *= power();
      } else {
        return result;
      }
    }
  }
  double power() {
    const double base = factor();
    return eat('^') ? raised(base, factor()) : base;
  }
  double factor() {
    if (eat('(')) return closed(sum());
    if (is_digit(next())) return number();
    if (!is_letter(next())) fail("a number, a symbol or a bracket");
    const std::size_t from = at_;
    const std::string_view word = symbol();
    if (next() == '(') return function(word);
    skip();
    // The latest line of that name counts.
    for (std::size_t n = lines_.size(); n-- > 0;) {
      if (lines_[n].symbol == word) return lines_[n].value;
    }
    if (word == "pi") return std::numbers::pi;
    at_ = from;
    fail("the symbol of a line above");
  }
  double closed(double inside) {
    if (!eat(')')) fail("a closing bracket");
    return inside;
  }
  double number() {
    // Whole numbers below 2^53 and powers of ten up to 10^22 are exact, so one division rounds once.
    double digits = 0.0, scale = 1.0;
    int count = 0;
    bool fraction = false;
    while (is_digit(next()) || (!fraction && next() == '.')) {
      if (next() == '.') {
        fraction = true;
      } else {
        digits = 10.0 * digits + (next() - '0');
        if (fraction) scale *= 10.0;
        if (++count > 15) fail("a number of no more than 15 digits");
      }
      ++at_;
    }
    skip();
    return digits / scale;
  }
  std::string_view symbol() {
    const std::size_t from = at_;
    while (is_of_symbol(next()) ||
           (next() == ',' && at_ + 1 < text_.size() && is_of_symbol(text_[at_ + 1]))) {
      ++at_;
    }
    return text_.substr(from, at_ - from);
  }
  double function(std::string_view name) {
    eat('(');
    double value = sum();
    if (name == "min" || name == "max") {
      if (next() != ';') fail("a second argument");
      while (eat(';')) {
        const double other = sum();
        const bool further = name == "min" ? other < value : other > value;
        if (further || std::isnan(other)) value = other;
      }
      return closed(value);
    }
    closed(value);
    constexpr double degree = std::numbers::pi / 180.0;
    if (name == "sqrt") return std::sqrt(value);
    if (name == "exp") return std::exp(value);
    if (name == "round") return std::round(value);
    if (name == "sin") return std::sin(value * degree);
    if (name == "cos") return std::cos(value * degree);
    if (name == "tan") return std::tan(value * degree);
    fail("a function that there is before this bracket, or a space");
  }

  std::string_view text_;
  std::span<const Step> lines_;
  std::size_t at_ = 0;
  int depth_ = 0;
};

}  // namespace

double value_of(std::string_view formula, std::span<const Step> lines) {
  return Descent(formula, lines).value();
}

}  // namespace underprop::standards

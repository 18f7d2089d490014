#include "arithmetic.hpp"

#include "words.hpp"

#include <cmath>
#include <optional>
#include <string_view>

namespace underprop::report {

using standards::Step;

namespace {

bool is_letter(char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || c == '_'; }
bool is_digit(char c) { return c >= '0' && c <= '9'; }
/// Characters that can go on a symbol after its first: a comma only where no space follows it.
bool goes_on(std::string_view text, std::size_t at) {
  if (at >= text.size()) return false;
  const char c = text[at];
  if (is_letter(c) || is_digit(c) || c == '\'' || c == '*') return true;
  return c == ',' && at + 1 < text.size() && (is_letter(text[at + 1]) || is_digit(text[at + 1]));
}

/// The symbol, function or word that starts at `at`: "f_m,k", "F_b*", "sqrt".
std::string_view word_at(std::string_view text, std::size_t at) {
  std::size_t end = at;
  while (goes_on(text, end)) ++end;
  return text.substr(at, end - at);
}

std::string_view number_at(std::string_view text, std::size_t at) {
  std::size_t end = at;
  while (end < text.size() && (is_digit(text[end]) || text[end] == '.')) ++end;
  return text.substr(at, end - at);
}

std::optional<double> value_of(const std::vector<Step>& steps, std::size_t before,
                               std::string_view symbol) {
  for (std::size_t k = before; k-- > 0;) {
    if (steps[k].symbol == symbol) return steps[k].value;
  }
  return std::nullopt;
}

bool is_function(std::string_view word) {
  for (const std::string_view name : {"sqrt", "min", "max", "sin", "cos", "tan", "exp", "round"}) {
    if (word == name) return true;
  }
  return false;
}

}  // namespace

std::string numbers(const std::vector<Step>& steps, std::size_t index) {
  const Step& step = steps[index];
  if (!step.formula) return "";
  const std::string_view text = step.expression;
  std::string out;
  bool after_operand = false;  // a factor has just ended: what follows is multiplied with it
  const auto operand = [&](std::string_view written) {
    if (after_operand) out += " x ";
    out += written;
  };
  for (std::size_t at = 0; at < text.size();) {
    const char c = text[at];
    if (is_letter(c)) {
      const std::string_view word = word_at(text, at);
      at += word.size();
      if (word == "x") continue;  // written between factors anyhow
      const std::optional<double> value = value_of(steps, index, word);
      if (!value && is_function(word)) {
        operand(word);
        after_operand = false;
        continue;
      }
      std::string shown = value ? figure(*value) : std::string(word);
      if (value && *value < 0.0) shown = "(" + shown + ")";
      operand(shown);
      after_operand = true;
    } else if (is_digit(c)) {
      const std::string_view number = number_at(text, at);
      at += number.size();
      operand(number);
      after_operand = true;
    } else if (c == '(') {
      operand("(");
      after_operand = false;
      ++at;
    } else if (c == ')') {
      out += ")";
      after_operand = true;
      ++at;
    } else if (c == ' ') {
      ++at;
    } else if (c == ',') {
      break;  // a remark follows
    } else {
      const bool sign = c == '-' && (out.empty() || out.back() == '(');
      if (c == '^' || sign) {
        out += c;
      } else if (c == ';') {
        out += "; ";
      } else {
        out += ' ';
        out += c;
        out += ' ';
      }
      after_operand = false;
      ++at;
    }
  }
  return out;
}

std::string sides(const std::vector<Step>& steps, std::size_t index) {
  const Step& step = steps[index];
  const std::string value = figure(step.value, step.unit);
  std::string text;
  if (!step.expression.empty() && step.expression != figure(step.value)) {
    text += step.expression + " = ";
  }
  const std::string substituted = numbers(steps, index);
  if (!substituted.empty() && substituted != step.expression && substituted != figure(step.value)) {
    text += substituted + " = ";
  }
  return text + value;
}

}  // namespace underprop::report

// The evaluator behind the lines of a check.
#include "support/formula.hpp"
#include "standards/formula.hpp"
#include "support/catch.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <numbers>
#include <random>
#include <stdexcept>
#include <string>
#include <vector>

namespace formula_test_file {

using underprop::standards::Step;
using underprop::standards::value_of;

namespace {

Step step(const char* symbol, double value) { return {symbol, "given", value, "", {}, false}; }

const std::vector<Step>& lines() {
  static const std::vector<Step> some{step("a", 3.0),      step("b'", 0.5),  step("F_b*", 7.0),
                                      step("f_h,1,k", 20), step("x", 1.25),  step("a_1", 11.0),
                                      step("alpha", 30.0), step("n", 2.0),   step("n", 4.0),
                                      step("pi_k", 1e-3),  step("M_y,Rk", 6)};
  return some;
}
double of(const std::string& formula) { return value_of(formula, lines()); }

/// A random formula beside its value, worked out as it is built.
struct Grown {
  std::string text;
  double value = 0.0;
};

class Grower {
public:
  explicit Grower(unsigned seed) : dice_(seed) {}
  Grown sum(int depth) {
    const bool negative = pick(5) == 0;
    Grown g = product(depth);
    if (negative) g = {"-" + g.text, -g.value};
    for (int more = pick(3); more > 0; --more) {
      const Grown next = product(depth);
      const bool plus = pick(2) == 0;
      g = {g.text + (plus ? " + " : " - ") + next.text,
           plus ? g.value + next.value : g.value - next.value};
    }
    return g;
  }

private:
  int pick(int n) { return static_cast<int>(dice_() % static_cast<unsigned>(n)); }
  Grown product(int depth) {
    Grown g = power(depth);
    for (int more = pick(3); more > 0; --more) {
      const Grown next = power(depth);
      const bool over = pick(2) == 0 && next.value != 0.0;
      g = {g.text + (over ? (pick(2) == 0 ? "/" : " / ") : " ") + next.text,
           over ? g.value / next.value : g.value * next.value};
    }
    return g;
  }
  Grown power(int depth) {
    const Grown g = factor(depth);
    if (pick(4) != 0 || !(g.value > 0.0)) return g;
    static const std::vector<Grown> exponents{
        {"2", 2.0}, {"0.5", 0.5}, {"(-0.3)", -0.3}, {"n", 4.0}, {"(1/3)", 1.0 / 3.0}};
    const Grown& e = exponents[static_cast<std::size_t>(pick(5))];
    return {g.text + "^" + e.text, std::pow(g.value, e.value)};
  }
  Grown factor(int depth) {
    if (depth > 0) {
      const Grown inside = sum(depth - 1);
      switch (pick(8)) {
        case 0:
          return {"(" + inside.text + ")", inside.value};
        case 1:
          return {"sqrt((" + inside.text + ")^2)", std::sqrt(inside.value * inside.value)};
        case 2: {
          const Grown other = sum(depth - 1);
          return {"min(" + inside.text + "; " + other.text + "; a)",
                  std::min({inside.value, other.value, 3.0})};
        }
        case 3:
          return {"max(0; " + inside.text + ")", std::max(0.0, inside.value)};
        default:
          break;
      }
    }
    if (pick(3) == 0) {
      const int tenths = 1 + pick(200);
      return {std::to_string(tenths / 10) + "." + std::to_string(tenths % 10), tenths / 10.0};
    }
    if (pick(12) == 0) return {"pi", std::numbers::pi};
    static const std::vector<std::string> symbols{"a", "b'",  "F_b*", "f_h,1,k",
                                                  "x", "a_1", "n",    "M_y,Rk"};
    static const std::vector<double> values{3.0, 0.5, 7.0, 20.0, 1.25, 11.0, 4.0, 6.0};
    const auto k = static_cast<std::size_t>(pick(8));
    return {symbols[k], values[k]};
  }

  std::mt19937 dice_;
};

}  // namespace

TEST_CASE("a formula is worked out as it is written on paper", "[standards][closed-form]") {
  CHECK(of("2 a^2 / (a + 1)") == 4.5);
  CHECK(of("13/64 a n") == Approx(13.0 / 64.0 * 12.0));
  CHECK(of("12 / a b'") == 2.0);  // from left to right
  CHECK(of("-1 + sqrt(4 a_1 + 5)") == 6.0);
  CHECK(of("-a^2") == -9.0);
  CHECK(of("a - b' - 1") == 1.5);
  CHECK(of("2^(-1)") == 0.5);
  CHECK(of("0.000020") == 0.000020);
  CHECK(of("0.1 + 0.2") == 0.1 + 0.2);
  CHECK(of("16600") == 16600.0);
  CHECK(of("(1 + F_b*/F_b*) / 1.9") == Approx(2.0 / 1.9));
  CHECK(of("f_h,1,k x") == 25.0);
  CHECK(of("2 (a) (b')") == 3.0);
  CHECK(of("min(a; x; 9)") == 1.25);
  CHECK(of("max(a; x)") == 3.0);
  CHECK(of("50 round(6123 / 50)") == 6100.0);
  CHECK(of("round(2.5)") == 3.0);
  CHECK(of("exp(0)") == 1.0);
  CHECK(of("sin(alpha)") == Approx(0.5));
  CHECK(of("cos(2 alpha)^2") == Approx(0.25));
  CHECK(of("tan(45)") == Approx(1.0));
  CHECK(of("pi / 4") == std::numbers::pi / 4.0);
}

TEST_CASE("the latest line of a name counts, and a remark is no part of the sum",
          "[standards][closed-form]") {
  CHECK(of("n") == 4.0);
  CHECK(of("a, the whole of 12 / 0, and (more") == 3.0);
  CHECK(of("min(a; x), the smaller") == 1.25);
  CHECK(of("pi_k") == 1e-3);  // not pi
  CHECK(of("f_h,1,k, across the grain") == 20.0);
}

TEST_CASE("dividing by nothing and the root of less than nothing stay visible",
          "[standards][law]") {
  CHECK(std::isinf(of("1 / (a - 3)")));
  CHECK(std::isnan(of("sqrt(-1)")));
  CHECK(std::isnan(of("min(a; 0 / 0)")));
  CHECK(std::isnan(of("max(0 / 0; a)")));
}

TEST_CASE("what is no formula is refused with its place", "[standards][law]") {
  for (const char* wrong :
       {"",       "a +",      "(a",         "a)",     "a * n",   "A",    "a,b",
        "min(a)", "min(a; )", "sqrt(a; n)", "log(a)", "a (",     "2..5", "1.2.3",
        "a ^",    "^2",       "/ a",        "; a",    "f_h,2,k", "x y",  "1234567890123456",
        "a = 3",  "pi(a)"}) {
    INFO(wrong);
    CHECK_THROWS_AS(of(wrong), std::logic_error);
  }
  try {
    (void)of("2 a + unknown / n");
    FAIL("accepted");
  } catch (const std::logic_error& error) {
    CHECK(std::string(error.what()) ==
          "the formula \"2 a + unknown / n\" wants the symbol of a line above at 7");
  }
  const std::string deep = std::string(100000, '(') + "1" + std::string(100000, ')');
  CHECK_THROWS_AS(of(deep), std::logic_error);
  CHECK(of(std::string(50, '(') + "a" + std::string(50, ')')) == 3.0);
}

TEST_CASE("thousands of random formulas come out as they were built, and as another evaluator says",
          "[standards][oracle]") {
  Grower grower(20240607);
  std::map<std::string, double> symbols;
  for (const Step& s : lines()) symbols[s.symbol] = s.value;
  int checked = 0;
  for (int k = 0; k < 5000; ++k) {
    const Grown g = grower.sum(3);
    if (!std::isfinite(g.value)) continue;
    const double value = of(g.text);
    const double again = underprop::test::Formula(g.text, symbols).value();
    const double allowed = 1e-9 * std::abs(g.value) + 1e-9;
    if (std::abs(value - g.value) > allowed || std::abs(again - g.value) > allowed) {
      FAIL_CHECK(g.text << " = " << g.value << ", not " << value << " or " << again);
    }
    ++checked;
  }
  CHECK(checked > 4000);
}

}  // namespace formula_test_file

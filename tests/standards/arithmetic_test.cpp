// Every line of every check can be worked out again with a pocket calculator.
#include "standards/sheet.hpp"
#include "support/catch.hpp"
#include "support/every_check.hpp"
#include "support/formula.hpp"

#include <limits>
#include <map>
#include <memory>
#include <set>
#include <stdexcept>
#include <string>
#include <tuple>

namespace arithmetic_test_file {

using namespace underprop;
using namespace underprop::standards;

namespace {

std::unique_ptr<Standard> standard(const std::string& name) {
  return name == "eurocode" ? make_eurocode_uk() : make_north_america_us();
}

}  // namespace

TEST_CASE("every formula of every check comes out as its line says, in one set of units",
          "[standards][law]") {
  for (const std::string name : {"eurocode", "north_america"}) {
    std::map<std::string, int> checks;
    std::set<std::string> faults;
    test::every_check(*standard(name), [&](const Check& check) {
      ++checks[check.check];
      if (check.check != name_of(check.kind)) FAIL_CHECK(check.check << ": another kind's name");
      const std::string fault = test::faults_of(check);
      if (!fault.empty() && faults.size() < 20) faults.insert(fault);
    });
    for (const std::string& fault : faults) FAIL_CHECK(name << "\n" << fault);
    // All kinds of check that a standard makes were asked for, shear at a notch being one of its own:
    // bending, shear, shear at a notch, bearing, column, end connection, held upright, side bolts,
    // ledger fixing and its pull, hold-down, ground, one person on one board and on a board's free end.
    CHECK(checks.size() == 14);
    CHECK(checks["one person on the end of a board"] > 0);
    CHECK(checks["shear at a notch"] > 0);
  }
}

TEST_CASE("the summary of a check is its lines' demand over its lines' resistance",
          "[standards][law]") {
  for (const std::string name : {"eurocode", "north_america"}) {
    int with_resistance = 0, without = 0;
    std::set<std::string> units;
    test::every_check(*standard(name), [&](const Check& check) {
      units.insert(check.unit);
      if (check.resistance > 0.0) {
        ++with_resistance;
        const Step& last = check.steps.back();
        if (last.symbol != "utilisation" || last.value != check.utilisation ||
            std::abs(check.demand / check.resistance - check.utilisation) >
                1e-12 * check.utilisation) {
          FAIL_CHECK(name << ": " << check.check << " ends in " << last.symbol);
        }
        return;
      }
      ++without;
      // A check that finds nothing that counts says so in a line.
      bool said = false;
      for (const Step& step : check.steps) said = said || step.expression.starts_with("0: ");
      if (!said) FAIL_CHECK(name << ": " << check.check << " does not say why it finds nothing");
      if (check.utilisation != std::numeric_limits<double>::infinity()) {
        FAIL_CHECK(name << ": " << check.check << " without resistance passes");
      }
    });
    CHECK(with_resistance > 1000);
    CHECK(without > 100);
    CHECK(units == (name == "eurocode" ? std::set<std::string>{"", "kN", "kNm", "kPa"}
                                       : std::set<std::string>{"", "in", "lb", "lb ft", "psf"}));
  }
}

TEST_CASE("every kind of check has a name of its own, and what is no kind has none",
          "[standards][law]") {
  std::set<std::string> names;
  for (std::size_t k = 0; k < check_kinds; ++k) names.insert(name_of(static_cast<CheckKind>(k)));
  CHECK(names.size() == check_kinds);
  CHECK_FALSE(names.contains(""));
  CHECK(std::string(name_of(CheckKind::toppling)) == "toppling");
  CHECK_THROWS_AS(name_of(static_cast<CheckKind>(check_kinds)), std::out_of_range);
  Check check = make_eurocode_uk()->held_upright(mm(47), mm(150), true, true);
  check.call(CheckKind::post_buckling);
  CHECK(check.check == "post, buckling");
}

TEST_CASE("a wrong line, an unknown symbol and a missing clause are noticed", "[standards][law]") {
  const Citation clause{"en1995-1-1", "6.1.6(1)"};
  Sheet right(CheckKind::bending, {"kN", 1e3});
  right.given("a", 3, "N");
  CHECK(right.line("b'", "2 a^2 / (a + 1), a remark", "N", clause) == 4.5);
  CHECK(right.line("c,d", "2 min(b'; 100)", "N", clause) == 9.0);
  Check check = right.finish("a", "c,d", clause);
  CHECK(check.utilisation == 3.0 / 9.0);
  CHECK(test::faults_of(check).empty());
  // The judge of these tests sees a line whose value is not its formula's.
  for (const char* formula : {"2 a^2 / (a + 1.01)", "2 A^2 / (a + 1)", "2 a^2 / (a + 1", "given"}) {
    INFO(formula);
    Check wrong = check;
    wrong.steps[1].expression = formula;
    CHECK_FALSE(test::faults_of(wrong).empty());
  }
  check.steps[1].source = {};
  CHECK_FALSE(test::faults_of(check).empty());
  // A sheet takes no line that it cannot work out.
  Sheet wrong(CheckKind::bending, {"kN", 1e3});
  wrong.given("a", 3, "N");
  CHECK_THROWS_AS(wrong.line("b", "2 A", "N", clause), std::logic_error);
  CHECK_THROWS_AS(wrong.line("b", "2 (a", "N", clause), std::logic_error);
  CHECK_THROWS_AS(wrong.line("b", "1 / (a - 3)", "N", clause), std::invalid_argument);
  CHECK_THROWS_AS(wrong.line("b", "sqrt(-a)", "N", clause), std::invalid_argument);
  CHECK_THROWS_AS(wrong.finish("a", "b", clause), std::logic_error);
}

TEST_CASE("a sheet writes quantities in its own units", "[standards][closed-form]") {
  const Citation clause{"judgement", "trial"};
  struct Row {
    Units units;
    double length, force, moment, stress;
    const char *of_length, *of_force, *of_moment, *of_stress;
  };
  for (const Row& row :
       {Row{Units::N_mm, 304.8, 4448.2216152605, 1355817.9483314004, 0.0068947572931683625, "mm",
            "N", "N mm", "N/mm2"},
        Row{Units::kN_m, 0.3048, 4.4482216152605, 1.3558179483314004, 6.8947572931683625, "m", "kN",
            "kN m", "kPa"},
        Row{Units::lb_in, 12.0, 1000.0, 12000.0, 1.0, "in", "lb", "lb in", "psi"},
        Row{Units::lb_ft, 1.0, 1000.0, 1000.0, 144.0, "ft", "lb", "lb ft", "psf"}}) {
    Sheet sheet(CheckKind::bending, {"", 1.0}, row.units);
    sheet.given("l", feet(1.0));
    sheet.given("F", pounds_force(1000.0));
    sheet.given("M", pounds_force(1000.0) * feet(1.0));
    sheet.taken("f", "trial", psi(1.0), clause);
    for (const auto& [symbol, value, unit] :
         {std::tuple{"l", row.length, row.of_length}, std::tuple{"F", row.force, row.of_force},
          std::tuple{"M", row.moment, row.of_moment}, std::tuple{"f", row.stress, row.of_stress}}) {
      INFO(symbol << " " << unit);
      CHECK(sheet.last(symbol).value == Approx(value).epsilon(1e-12));
      CHECK(sheet.last(symbol).unit == unit);
    }
  }
}

}  // namespace arithmetic_test_file

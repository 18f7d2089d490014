// Every line of every check can be worked out again with a pocket calculator.
#include "support/catch.hpp"
#include "support/every_check.hpp"
#include "support/formula.hpp"
#include "underprop/standards/sheet.hpp"

#include <limits>
#include <map>
#include <memory>
#include <set>
#include <string>

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
    // All kinds of check were asked for, the notch apart.
    CHECK(checks.size() == 13);
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
  right.line("b'", "2 a^2 / (a + 1), a remark", 4.5, "N", clause);
  right.line("c,d", "min(b'; 100) x 2", 9, "N", clause);
  CHECK(test::faults_of(right.finish("a", "c,d", clause)).empty());
  for (const char* formula : {"2 a^2 / (a + 1.01)", "2 A^2 / (a + 1)", "2 a^2 / (a + 1", "given"}) {
    Sheet wrong(CheckKind::bending, {"kN", 1e3});
    wrong.given("a", 3, "N");
    wrong.line("b'", formula, 4.5, "N", clause);
    INFO(formula);
    CHECK_FALSE(test::faults_of(wrong.finish("a", "b'", clause)).empty());
  }
  Sheet uncited(CheckKind::bending, {"kN", 1e3});
  uncited.given("a", 3, "N");
  uncited.line("b", "2 a^2 / (a + 1)", 4.5, "N", {});
  CHECK_FALSE(test::faults_of(uncited.finish("a", "b", clause)).empty());
}

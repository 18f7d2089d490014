// The numbers that explain, report and JSON put into a formula are those of the lines above it.
#include "support/catch.hpp"
#include "support/every_check.hpp"
#include "support/formula.hpp"
#include "underprop/report/report.hpp"

#include <nlohmann/json.hpp>

#include <cmath>
#include <map>
#include <memory>
#include <set>
#include <string>

namespace explain_test_file {

using namespace underprop;

namespace {

assessment::Finding finding_of(const standards::Check& check, int number) {
  assessment::Finding f;
  f.id = "F" + std::to_string(number) + "/" + check.check;
  f.piece = "F" + std::to_string(number);
  f.where = f.situation = f.combination = f.bound = "-";
  f.check = check;
  return f;
}

}  // namespace

TEST_CASE("put into the formula, the numbers shown give the value shown, but for rounding",
          "[report][law]") {
  for (const bool eurocode : {true, false}) {
    const auto standard =
        eurocode ? standards::make_eurocode_uk() : standards::make_north_america_us();
    // One of each way of reasoning is enough: the formulas of a check, in order, tell them apart.
    std::map<std::string, standards::Check> ways;
    test::every_check(*standard, [&](const standards::Check& check) {
      std::string way = check.check;
      for (const standards::Step& step : check.steps) way += "|" + step.expression;
      ways.emplace(way, check);
    });
    CHECK(ways.size() > 100);
    assessment::Assessment assessment;
    for (const auto& [way, check] : ways) {
      assessment.shown.findings.push_back(
          finding_of(check, static_cast<int>(assessment.shown.findings.size())));
    }
    const nlohmann::ordered_json json = report::assessment_json(assessment);
    const std::map<std::string, double> no_symbols;
    int formulas = 0;
    std::set<std::string> faults;
    for (const auto& finding : json.at("findings")) {
      for (const auto& step : finding.at("steps")) {
        const std::string numbers = step.at("numbers").get<std::string>();
        if (numbers.empty()) continue;
        ++formulas;
        const std::string line = step.at("symbol").get<std::string>() + " = " +
                                 step.at("expression").get<std::string>() + " = " + numbers;
        try {
          const double value = step.at("value").get<double>();
          const double again = test::Formula(numbers, no_symbols).value();
          // Numbers have four digits; where two nearly equal ones are subtracted little is left.
          const bool subtracts = numbers.find(" - ") != std::string::npos;
          if (!(std::abs(again - value) <= (subtracts ? 0.1 : 0.01) * std::abs(value) + 1e-6)) {
            faults.insert(line + " = " + std::to_string(again) + " against " +
                          std::to_string(value));
          }
        } catch (const std::exception& error) {
          faults.insert(line + ": " + error.what());
        }
      }
    }
    CHECK(formulas > 1000);
    for (const std::string& fault : faults) FAIL_CHECK(fault);
  }
}

TEST_CASE("explain writes symbol, expression, numbers, value, unit and clause", "[report][text]") {
  report::Report report;
  standards::Check check;
  check.check = "bending";
  check.demand = 1.5;
  check.resistance = 3.0;
  check.unit = "kNm";
  check.utilisation = 0.5;
  check.source = {"en1995-1-1", "6.1.6(1) (6.11)"};
  check.steps = {{"b", "given", 47, "mm", {}, false},
                 {"h", "given", 145, "mm", {}, false},
                 {"f_m,d", "given", 8.0, "N/mm2", {}, false},
                 {"w", "given", -2.0, "mm", {}, false},
                 {"M_R,d",
                  "f_m,d b h^2 / 6, a remark",
                  1317566.67,
                  "N mm",
                  {"en1995-1-1", "6.1.6(1) (6.11)"},
                  true},
                 {"z", "2 (b + w) max(h; w)", 13050, "mm2", {"en1995-1-1", "6.1.6(1)"}, true}};
  report.assessment.shown.findings.push_back(finding_of(check, 1));
  const std::string text = report::explain_text(report, "F1/bending", 120);
  INFO(text);
  CHECK(text.find("b      = given = 47 mm") != std::string::npos);
  CHECK(text.find("M_R,d  = f_m,d b h^2 / 6, a remark = 8 x 47 x 145^2 / 6 = 1317567 N mm") !=
        std::string::npos);
  CHECK(text.find("[en1995-1-1, 6.1.6(1) (6.11)]") != std::string::npos);
  CHECK(text.find("z      = 2 (b + w) max(h; w) = 2 x (47 + (-2)) x max(145; (-2)) = 13050 mm2") !=
        std::string::npos);
}

TEST_CASE("what is never selected has a reason and something instead; the clauses fit the page",
          "[report][text]") {
  const std::string topics = report::never_selected_topics();
  for (const std::string topic : {"blocking", "corner-posts", "extra-screws", "knee-braces",
                                  "plywood", "props", "rim-shims", "short-sisters"}) {
    INFO(topic);
    CHECK(topics.find(topic) != std::string::npos);
    const std::string text = report::never_selected_text(topic);
    CHECK(text.find("Why ") != std::string::npos);
    CHECK(text.find("Instead ") != std::string::npos);
  }
  CHECK(report::never_selected_text("bending").empty());
  const std::string clauses = report::clauses_text(80);
  CHECK(clauses.find("EN 1995-1-1 6.3.3(4), (6.34)") != std::string::npos);
  CHECK(clauses.find("NDS 3.7.1.5 (3.7-1)") != std::string::npos);
  std::size_t start = 0;
  for (std::size_t end = clauses.find('\n'); end != std::string::npos;
       start = end + 1, end = clauses.find('\n', start)) {
    CHECK(end - start <= 80);
  }
}

}  // namespace explain_test_file

#include "support/catch.hpp"

#include "report/sample_report.hpp"
#include "support/recorded.hpp"

#include <algorithm>
#include <sstream>

namespace text_test_file {

using namespace underprop;

namespace {

std::size_t widest(const std::string& text) {
  std::size_t most = 0;
  std::istringstream lines(text);
  for (std::string line; std::getline(lines, line);) {
    most =
        std::max(most, static_cast<std::size_t>(std::count_if(
                           line.begin(), line.end(), [](char c) { return (c & 0xC0) != 0x80; })));
  }
  return most;
}

/// All white space as one space: text independent of where its lines break.
std::string flowed(const std::string& text) {
  std::istringstream words(text);
  std::string out;
  for (std::string word; words >> word;) out += (out.empty() ? "" : " ") + word;
  return out;
}

bool holds(const std::string& text, const std::string& part) {
  return text.find(part) != std::string::npos;
}

std::vector<std::string> surfaces(const report::Report& r, int width) {
  return {report::assessment_text(r, width), report::retrofit_text(r, width),
          report::comparison_text(r, width), report::explain_text(r, "J7/bending", width)};
}

}  // namespace

TEST_CASE("the invented report is told in these words", "[report][text][words][recorded]") {
  const report::Report r = sample::invented_report();
  const std::string file = "tests/report/text.expected";
  test::check_passage(file, "assess", report::assessment_text(r));
  test::check_passage(file, "retrofit", report::retrofit_text(r));
  test::check_passage(file, "compare", report::comparison_text(r));
  test::check_passage(file, "explain J7/bending", report::explain_text(r, "J7/bending"));
}

TEST_CASE("no line is wider than asked for", "[report][text]") {
  report::Report r = sample::invented_report();
  r.survey.name = "Ein sehr langer Name \xC3\xBC\xC3\xBC\xC3\xBC " + std::string(200, 'w');
  r.assessment.first->mechanism = std::string(300, 'm');
  for (const int width : {40, 60, 80, 120}) {
    for (const std::string& text : surfaces(r, width)) {
      CHECK(widest(text) <= static_cast<std::size_t>(width));
    }
  }
}

TEST_CASE("the notice opens every surface in full", "[report][text][notice]") {
  for (const std::string& text : surfaces(sample::invented_report(), 80)) {
    CHECK(flowed(text).starts_with(report::notice()));
  }
  report::Report bare;
  CHECK(flowed(report::retrofit_text(bare)).starts_with(report::notice()));
  CHECK(flowed(report::comparison_text(bare)).starts_with(report::notice()));
}

TEST_CASE("the notice says what it has to say", "[report][notice]") {
  CHECK(holds(report::notice(), "not a substitute for a structural engineer"));
  CHECK(holds(report::notice(), "look again every year"));
  const std::string validity = report::validity(sample::invented_survey());
  CHECK(holds(validity, "2024-05-04"));
  for (const char* item : {"guards", "stairs", "electrics", "house wall", "earthquakes", "wind"}) {
    CHECK(holds(validity, item));
  }
  CHECK(holds(report::validity({}), "no date is recorded"));
}

TEST_CASE("the assessment fits a screen and tells what matters", "[report][text]") {
  const std::string text = report::assessment_text(sample::invented_report());
  CHECK(std::count(text.begin(), text.end(), '\n') <= 40);
  const std::string flow = flowed(text);
  CHECK(holds(flow, "DOES NOT CARRY"));
  CHECK(holds(flow, "infinite"));                    // the ledger, which nothing holds
  CHECK(holds(flow, "0.82 of its limit"));           // 0.8123 rounded up
  CHECK(holds(flow, "whether joists J are sound"));  // must see
  CHECK(holds(flow, "passes if C24 or better"));     // what decides
  CHECK(holds(flow, "Push a 12 mm bar in."));        // third fact
  CHECK_FALSE(holds(flow, "/deck/boards/joints"));   // fourth fact
  CHECK(holds(flow, "boards point load (1.20)"));    // ordinary use
  CHECK(holds(flow, "underprop retrofit"));
}

TEST_CASE("what comes next names the file, as the shell reads it", "[report][text]") {
  report::Report r = sample::invented_report();
  CHECK(holds(flowed(report::assessment_text(r)), "underprop retrofit SURVEY"));
  r.file = "deck.json";
  CHECK(holds(flowed(report::assessment_text(r)), "underprop retrofit deck.json:"));
  CHECK(holds(flowed(report::comparison_text(r)), "underprop report deck.json -o deck.html"));
  r.file = "my deck's.json";
  CHECK(holds(flowed(report::retrofit_text(r)), "underprop compare 'my deck'\\''s.json':"));
}

TEST_CASE("control characters of a survey do not reach the terminal", "[report][text]") {
  report::Report r = sample::invented_report();
  r.survey.name = "a\x1B[31mred\nline\x7F\xC2\x9B";
  const std::string text = report::assessment_text(r);
  CHECK_FALSE(holds(text, "\x1B"));
  CHECK_FALSE(holds(text, "\x7F"));
  CHECK_FALSE(holds(text, "\xC2\x9B"));
  CHECK(holds(text, "a [31mred line"));
}

TEST_CASE("a figure of use or cost is rounded to the side that flatters nothing",
          "[report][text]") {
  const report::Report r = sample::invented_report();
  CHECK(holds(flowed(report::explain_text(r, "J7/bending")), "1.34, rounded up"));
  CHECK(holds(flowed(report::retrofit_text(r)), "at most 10 % dearer"));  // 415 / 380 = 1.0921
}

TEST_CASE("what is not among the findings is not explained", "[report][text]") {
  CHECK(report::explain_text(sample::invented_report(), "J99/bending").empty());
}

TEST_CASE("no plan, refer and none needed are told apart", "[report][text]") {
  report::Report r = sample::invented_report();
  r.retrofit = planner::Result{};
  r.retrofit->why_none = {"the ledger's fixings: no measure mends them"};
  CHECK(holds(report::retrofit_text(r), "NO PLAN FOUND"));
  CHECK(holds(report::retrofit_text(r), "no measure mends them"));
  r.retrofit->none_needed = true;
  CHECK(holds(report::retrofit_text(r), "NO WORKS NEEDED"));
  r.retrofit->refers = true;
  r.retrofit->refer_reasons = {"a retaining wall within 1 m"};
  CHECK(holds(report::retrofit_text(r), "REFER"));
  CHECK(holds(report::retrofit_text(r), "a retaining wall within 1 m"));
}

TEST_CASE("an option that is not possible shows no price", "[report][text]") {
  const std::string flow = flowed(report::comparison_text(sample::invented_report()));
  CHECK(holds(flow, "new low deck - - - - not possible"));
  CHECK(holds(flow, "least retrofit 311* 415* 581* 28 checks pass"));
}

}  // namespace text_test_file

#include "support/catch.hpp"

#include "report/sample_report.hpp"

#include <map>
#include <set>

namespace html_test_file {

using namespace underprop;

namespace {

bool holds(const std::string& text, const std::string& part) {
  return text.find(part) != std::string::npos;
}

/// Open tags in order; faults where a tag closes another than the last opened.
std::vector<std::string> badly_nested(const std::string& html) {
  const std::set<std::string> empty_elements{"meta", "line", "rect", "circle", "path", "polygon"};
  std::vector<std::string> open, faults;
  for (std::size_t at = html.find('<'); at != std::string::npos; at = html.find('<', at + 1)) {
    if (html.compare(at, 2, "<!") == 0) continue;
    const bool closes = html[at + 1] == '/';
    const std::size_t start = at + (closes ? 2 : 1);
    const std::size_t end = html.find_first_of(" >/\n", start);
    const std::string tag = html.substr(start, end - start);
    const std::size_t close = html.find('>', at);
    if (closes) {
      if (open.empty() || open.back() != tag) faults.push_back("</" + tag + ">");
      if (!open.empty()) open.pop_back();
    } else if (html[close - 1] != '/' && empty_elements.count(tag) == 0) {
      open.push_back(tag);
    }
  }
  for (const std::string& tag : open) faults.push_back("<" + tag + ">");
  return faults;
}

std::set<std::string> repeated_ids(const std::string& html) {
  std::set<std::string> seen, repeated;
  const std::string key = " id=\"";
  for (std::size_t at = html.find(key); at != std::string::npos; at = html.find(key, at + 1)) {
    const std::size_t start = at + key.size();
    const std::string id = html.substr(start, html.find('"', start) - start);
    if (!seen.insert(id).second) repeated.insert(id);
  }
  return repeated;
}

}  // namespace

TEST_CASE("nothing of a survey is taken for markup", "[report][html]") {
  const std::string html = report::html(sample::invented_report());
  CHECK_FALSE(holds(html, "<script"));
  CHECK(holds(html, "&lt;script&gt;alert(1)&lt;/script&gt; &amp; &quot;more&quot;"));
  CHECK_FALSE(holds(html, "<b>:"));
  CHECK(holds(html, "tub &lt;b&gt;"));
  CHECK(holds(html, "packer &lt;slate&gt;"));
}

TEST_CASE("the file needs nothing from outside", "[report][html]") {
  const std::string html = report::html(sample::invented_report());
  for (const char* part :
       {"src=", "href=", "@import", "<link", "<iframe", "<object", "http:", "https:"}) {
    INFO(part);
    CHECK_FALSE(holds(html, part));
  }
  // url() only points into the file.
  for (std::size_t at = html.find("url("); at != std::string::npos;
       at = html.find("url(", at + 1)) {
    CHECK(html[at + 4] == '#');
  }
}

TEST_CASE("the file is well nested and its ids are unique", "[report][html]") {
  const std::string html = report::html(sample::invented_report());
  CHECK(badly_nested(html).empty());
  CHECK(repeated_ids(html).empty());
}

TEST_CASE("the notice stands above everything else", "[report][html][notice]") {
  const std::string html = report::html(sample::invented_report());
  const std::size_t notice = html.find(report::notice());
  REQUIRE(notice != std::string::npos);
  CHECK(notice < html.find("Verdict"));
  CHECK(holds(html, "recorded on 2024-05-04"));
}

TEST_CASE("every part of the report is there", "[report][html]") {
  const std::string html = report::html(sample::invented_report());
  for (const char* part :
       {"Does not carry", "The deck and the load", "How it sags", "Reactions of the supports",
        "What governs", "Ordinary use", "Facts to find out", "passes if C24 or better",
        "Order of work", "Other complete plans", "Compared on equal terms",
        "Take-off: concrete pad on the ground", "Call before you dig", "Not checked",
        "1.56 - 0.75 lambda_rel,m", "Judgement of the underprop authors",
        "measured from the tub&#39;s rim", "J11 counts as absent"}) {
    INFO(part);
    CHECK(holds(html, part));
  }
  CHECK_FALSE(holds(html, "nan"));
}

TEST_CASE("a piece over its limit is hatched and no other", "[report][html][drawing]") {
  report::Report r = sample::invented_report();
  CHECK(holds(report::html(r), "class=\"u5\" fill=\"url(#plan-over)\""));
  for (assessment::Finding& finding : r.assessment.shown.findings) {
    finding.check.utilisation = 1.0;
  }
  const std::string html = report::html(r);
  const std::string over = "class=\"u5\"";
  const std::size_t key = html.find(over);  // the key below the plan has one
  REQUIRE(key != std::string::npos);
  CHECK(html.find(over, key + 1) == std::string::npos);
  CHECK(holds(html, "class=\"u4\""));
}

TEST_CASE("the same report gives the same bytes", "[report][html]") {
  CHECK(report::html(sample::invented_report()) == report::html(sample::invented_report()));
}

TEST_CASE("an empty report and one without numbers are still reports", "[report][html]") {
  CHECK(badly_nested(report::html({})).empty());
  report::Report r = sample::invented_report();
  r.assessment.verdict = assessment::Verdict::refer;
  r.assessment.shown = {};
  r.assessment.shown.mechanism = "J3 lies on one bearer only";
  r.assessment.service_findings.clear();
  r.assessment.governing.reset();
  r.assessment.utilisation.reset();
  r.retrofit = planner::Result{};
  r.retrofit->refers = true;
  r.comparison.reset();
  const std::string html = report::html(r);
  CHECK(badly_nested(html).empty());
  CHECK(holds(html, "J3 lies on one bearer only"));
  CHECK(holds(html, "This deck gets no plan"));
}

TEST_CASE("a number that is none does not stop the report", "[report][html]") {
  report::Report r = sample::invented_report();
  r.assessment.shown.findings[0].check.utilisation = std::numeric_limits<double>::quiet_NaN();
  r.assessment.shown.findings[0].check.demand = std::numeric_limits<double>::quiet_NaN();
  CHECK(holds(report::html(r), "no number"));
  CHECK(holds(report::assessment_text(r), "no number"));
}

TEST_CASE("the North American standard is shown in US customary units", "[report][html]") {
  report::Report r = sample::invented_report();
  r.survey.standard = record::StandardId::north_america_us;
  const std::string html = report::html(r);
  CHECK(holds(html, "15 ft 9 in"));  // 4800 mm to the nearest 1/16 in
  CHECK(holds(html, "4 ft"));
  CHECK(holds(html, " lb"));
}

}  // namespace html_test_file

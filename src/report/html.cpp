// The report as one self-contained HTML file: no script, no network reference.
#include "html_parts.hpp"
#include "markup.hpp"
#include "sources.hpp"
#include "words.hpp"

#include <fmt/format.h>

namespace underprop::report {

namespace {

void write_head(Html& html, const record::Survey& survey, const std::string& standard) {
  const std::string name = survey.name.empty() ? "Unnamed deck" : survey.name;
  html.raw(
      "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n"
      "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n");
  html.element("title", name + ": deck under a heavy load");
  html.raw("<style>").raw(style_sheet()).raw("</style>\n</head>\n<body>\n<header>\n");
  html.element("h1", name);
  std::string meta =
      survey.recorded_on.empty() ? "No date recorded" : "Recorded " + survey.recorded_on;
  if (!standard.empty()) meta += " · " + standard;
  html.element("p", meta, "meta");
  html.raw("<div class=\"notice\" role=\"note\">\n");
  html.element("h2", "Read this first").element("p", notice());
  html.raw("</div>\n</header>\n<main>\n");
}

std::set<std::string> keys_used(const Report& report) {
  std::set<std::string> keys;
  const assessment::Assessment& a = report.assessment;
  for (const assessment::Finding* finding : findings_of(a)) add_keys(*finding, keys);
  for (const assessment::Finding& finding : a.shown.ordinary_use) add_keys(finding, keys);
  for (const assessment::Finding& finding : a.shown.deemed) {
    add_keys(finding, keys);
    keys.insert(finding.deemed->table.key);
  }
  return keys;
}

}  // namespace

std::string html(const Report& report) {
  const deck::Deck deck = deck::resolve(report.survey, record::Reading::cautious).deck;
  const Context context{report, deck, units_of(report.survey)};
  Html page;
  write_head(page, report.survey, report.assessment.standard);
  page.section("Verdict", verdict_section(context));
  page.section("The deck and the load", plan_section(context));
  page.section("What governs", governing_section(context));
  if (report.placement) page.section("Where it can stand", placement_section(context));
  page.section("What is not known", facts_section(context));
  if (report.retrofit) page.section("Works", works_section(context));
  const std::string cost = cost_section(context);
  if (!cost.empty()) page.section("Cost", cost);

  Html cautions;
  cautions.list(report.assessment.cautions);
  if (report.assessment.cautions.empty()) cautions.element("p", "None beyond the notice above.");
  page.section("Cautions", cautions.text());

  Html outside;
  outside.element("p", "This program does not look at:").list(not_checked());
  if (const std::string question = guard_question(deck, context.units); !question.empty()) {
    outside.element("p", question, "lead");
  }
  page.section("Not checked", outside.text());
  page.section("Arithmetic", arithmetic_section(context));

  Html sources;
  const std::map<std::string, Source> titles = bibliography();
  std::vector<std::vector<std::string>> rows;
  for (const std::string& key : keys_used(report)) rows.push_back({key, full_title(titles, key)});
  if (rows.empty()) {
    sources.element("p", "No check was made, so nothing was cited.");
  } else {
    sources.table("Documents cited above", {{"Key"}, {"Document"}}, rows);
  }
  page.section("Sources", sources.text());
  page.raw("</main>\n<footer class=\"foot\">\n");
  page.element("p", validity(report.survey));
  if (!report.survey.notes.empty())
    page.element("p", "Notes of the record: " + report.survey.notes);
  page.raw("</footer>\n</body>\n</html>\n");
  return page.text();
}

}  // namespace underprop::report

// The plan of works and the comparison of costs, for a terminal.
#include "layout.hpp"
#include "words.hpp"

#include <fmt/format.h>

namespace underprop::report {

namespace {

std::string without_unit(double amount) { return money(amount, ""); }

std::string range_of(const costing::Bill& bill) {
  return fmt::format("{} likely, {} to {}", money(bill.total.likely, bill.currency),
                     without_unit(bill.total.low), money(bill.total.high, bill.currency));
}

void write_cost(Page& page, const planner::Result& result) {
  const costing::Bill& bill = result.plan->bill;
  page.labelled("Cost", range_of(bill));
  page.labelled("", optimality(result));
  for (const std::string& item : bill.missing_prices) {
    page.labelled("Not priced", item + ": not in the cost above");
  }
  page.labelled("Time", fmt::format("{} hours of work, {} days until it may be filled",
                                    format_decimals(bill.hours, 1), bill.days_until_filled));
}

void write_after(Page& page, const assessment::Assessment& after) {
  page.labelled("After it", verdict_sentence(after));
  for (const assessment::MustSee* fact : not_recorded(after)) {
    page.labelled("First", "record " + to_words(*fact));
  }
}

void write_plan(Page& page, const Report& report) {
  const planner::Result& result = *report.retrofit;
  const planner::Plan& plan = *result.plan;
  page.spread("THE LEAST WORKS FOUND", plan.name);
  int number = 0;
  for (const works::Work& work : plan.works) {
    page.labelled(fmt::format("{:>3}", ++number), works::describe(work, report.survey));
  }
  page.blank();
  write_cost(page, result);
  write_after(page, plan.assessment);
  for (const std::string& fact : plan.rests_on) page.labelled("Rests on", fact);

  page.blank();
  number = 0;
  std::string label = "Order";
  for (const works::BuildStep& step : works::order_of_work(plan.works, report.survey)) {
    page.labelled(label, fmt::format("{}. {}", ++number, step.text));
    for (const std::string& caution : step.cautions) page.labelled("", "- " + caution);
    label.clear();
  }
}

void write_alternatives(Page& page, const std::vector<planner::Plan>& alternatives) {
  if (alternatives.empty()) return;
  page.blank();
  std::vector<std::vector<std::string>> rows;
  for (const planner::Plan& plan : alternatives) {
    std::string works;
    for (const works::Work& work : plan.works) {
      works += (works.empty() ? "" : ", ") + std::string(to_words(work.measure));
    }
    rows.push_back({plan.name, works, money(plan.bill.total.likely, plan.bill.currency),
                    std::to_string(plan.bill.days_until_filled)});
  }
  page.table(
      {{"Alternative", false, 12}, {"Works", false, 16}, {"Likely", true, 6}, {"Days", true, 4}},
      rows, true);
}

}  // namespace

std::string retrofit_text(const Report& report, int width) {
  Page page(width);
  page.paragraph(notice());
  page.blank();
  if (!report.retrofit) {
    page.line("NO PLAN WAS ASKED FOR");
    page.labelled("Next", "underprop retrofit " + survey_argument(report));
    return page.text();
  }
  const planner::Result& result = *report.retrofit;
  if (result.refers) {
    page.line("REFER");
    page.paragraph("This deck gets no plan: a structural engineer has to see it.");
    for (const std::string& reason : result.refer_reasons) page.labelled("Because", reason);
  } else if (result.none_needed) {
    page.line("NO WORKS NEEDED");
    page.paragraph(verdict_sentence(report.assessment));
  } else if (result.plan) {
    write_plan(page, report);
  } else {
    page.line("NO PLAN FOUND");
    page.paragraph("No set of the measures allowed makes every check pass.");
  }
  const char* label = "Why";
  for (const std::string& reason : result.why_none) {
    page.labelled(label, reason);
    label = "";
  }
  write_alternatives(page, result.alternatives);
  page.blank();
  page.labelled("Next", result.refers ? "show what " + report_command(report) +
                                            " writes to a structural engineer"
                        : result.plan ? "underprop compare " + survey_argument(report) +
                                            ": its cost beside a concrete pad"
                                      : report_command(report));
  return page.text();
}

std::string comparison_text(const Report& report, int width) {
  Page page(width);
  page.paragraph(notice());
  page.blank();
  if (!report.comparison) {
    page.line("NOTHING WAS COMPARED");
    page.labelled("Next", "underprop compare " + survey_argument(report));
    return page.text();
  }
  const comparison::Comparison& comparison = *report.comparison;
  std::vector<std::vector<std::string>> rows;
  std::string currency;
  for (const comparison::Option& option : comparison.options) {
    const costing::Bill& bill = option.bill;
    if (currency.empty()) currency = bill.currency;
    if (!option.possible) {
      rows.push_back({option.name, "-", "-", "-", "-", "not possible"});
      continue;
    }
    const std::string star = bill.missing_prices.empty() ? "" : "*";
    rows.push_back({option.name, without_unit(bill.total.low) + star,
                    without_unit(bill.total.likely) + star, without_unit(bill.total.high) + star,
                    std::to_string(bill.days_until_filled),
                    option.carries ? "checks pass" : "checks fail"});
  }
  page.spread("COST COMPARED", currency.empty() ? "" : "in " + currency);
  page.table({{"Option", false, 16},
              {"Low", true},
              {"Likely", true},
              {"High", true},
              {"Days", true},
              {"Carries", false, 11}},
             rows, true);
  page.blank();
  page.labelled("Cheapest", comparison.cheapest.empty()
                                ? "none of them carries"
                                : comparison.cheapest + ", of those that carry");
  const char* label = "Tips it";
  for (const std::string& text : comparison.tips_the_balance) {
    page.labelled(label, text);
    label = "";
  }
  for (const comparison::Option& option : comparison.options) {
    std::string missing;
    for (const std::string& item : option.bill.missing_prices) {
      missing += (missing.empty() ? "" : ", ") + item;
    }
    if (!missing.empty()) page.labelled("* no price", option.name + ": " + missing);
    for (const std::string& note : notes_of(option))
      page.labelled("Note", option.name + ": " + note);
  }
  page.labelled("Days", "until the tub may be filled, concrete's waiting time included");
  page.labelled("Next", report_command(report) + ": quantities, prices and drawings");
  return page.text();
}

}  // namespace underprop::report

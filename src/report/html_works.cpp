// Plan of works, costs and comparison.
#include "drawing.hpp"
#include "html_parts.hpp"
#include "markup.hpp"
#include "words.hpp"

#include <fmt/format.h>

namespace underprop::report {

using Rows = std::vector<std::vector<std::string>>;

namespace {

std::vector<std::string> cost_cells(const costing::Amount& cost) {
  return {money(cost.low, ""), money(cost.likely, ""), money(cost.high, "")};
}

void write_bill(Html& html, const std::string& caption, const costing::Bill& bill) {
  Rows rows;
  for (const costing::Line& line : bill.lines) {
    std::vector<std::string> row{
        line.quantity.item, figure(line.quantity.amount, line.quantity.unit), line.quantity.note};
    const std::vector<std::string> cost =
        line.missing ? std::vector<std::string>{"no price", "no price", "no price"}
                     : cost_cells(line.cost);
    row.insert(row.end(), cost.begin(), cost.end());
    rows.push_back(std::move(row));
  }
  std::vector<std::string> total{
      bill.missing_prices.empty() ? "Total" : "Total of what has a price", "", ""};
  for (const std::string& cell : cost_cells(bill.total)) total.push_back(cell);
  rows.push_back(std::move(total));
  html.table(fmt::format("{}, {}", caption, bill.currency.empty() ? "no currency" : bill.currency),
             {{"Item"},
              {"Quantity", true},
              {"How it was got"},
              {"Low", true},
              {"Likely", true},
              {"High", true}},
             rows);
  if (!bill.missing_prices.empty()) {
    html.element("p", "No price is known for these, and the total leaves them out:");
    html.list(bill.missing_prices);
  }
}

void write_order(Html& html, const Context& context, const planner::Plan& plan) {
  html.element("h3", "Order of work");
  int number = 0;
  for (const works::BuildStep& step : works::order_of_work(plan.works, context.report.survey)) {
    html.raw("<div class=\"step\">\n");
    html.element("p", fmt::format("{}. {}", ++number, step.text));
    html.list(step.cautions);
    html.raw("</div>\n");
  }
}

void write_cuts(Html& html, const Context& context, const planner::Plan& plan) {
  Rows rows;
  for (const works::Cut& cut : works::cutting_list(plan.works, context.report.survey)) {
    rows.push_back({cut.section, std::to_string(cut.count),
                    format_length(cut.length, context.units), cut.use});
  }
  if (!rows.empty()) {
    html.table("Cutting list: check every length on the deck before you cut",
               {{"Section"}, {"Number", true}, {"Length", true}, {"For"}}, rows);
  }
}

void write_plan(Html& html, const Context& context) {
  const planner::Result& result = *context.report.retrofit;
  const planner::Plan& plan = *result.plan;
  html.element("p", "With these works done: " + verdict_sentence(plan.assessment), "lead");
  html.element("p", optimality(result));
  const deck::Deck after = deck::resolve(plan.after, record::Reading::cautious).deck;
  const std::string drawing = works_drawing(context.deck, after, plan.works, context.units);
  if (!drawing.empty()) {
    html.raw("<figure>\n" + drawing);
    html.element("figcaption",
                 "New pieces in ink on the deck as found, numbered as below. Diamonds: packing. "
                 "Brackets: hangers. Positions in the list run from corner A.");
    html.raw("</figure>\n");
  }
  std::vector<std::string> sentences;
  for (const works::Work& work : plan.works) {
    sentences.push_back(works::describe(work, context.report.survey));
  }
  html.list(sentences, true);
  if (!plan.rests_on.empty()) {
    html.element("h3", "What this plan pays for not knowing").list(plan.rests_on);
  }
  std::vector<std::string> missing;
  for (const assessment::MustSee* fact : not_recorded(plan.assessment)) {
    missing.push_back(to_words(*fact));
  }
  if (!missing.empty()) html.element("h3", "Before anything else, see and record").list(missing);
  write_order(html, context, plan);
  write_cuts(html, context, plan);
}

void write_alternatives(Html& html, const Context& context) {
  Rows rows;
  for (const planner::Plan& plan : context.report.retrofit->alternatives) {
    std::string works;
    for (const works::Work& work : plan.works) {
      works += (works.empty() ? "" : "; ") + works::describe(work, context.report.survey);
    }
    std::vector<std::string> row{plan.name, works};
    for (const std::string& cell : cost_cells(plan.bill.total)) row.push_back(cell);
    row.push_back(std::to_string(plan.bill.days_until_filled));
    rows.push_back(std::move(row));
  }
  if (rows.empty()) return;
  html.table("Other complete plans",
             {{"Plan"}, {"Works"}, {"Low", true}, {"Likely", true}, {"High", true}, {"Days", true}},
             rows);
}

}  // namespace

std::string works_section(const Context& context) {
  const planner::Result& result = *context.report.retrofit;
  Html html;
  if (result.refers) {
    html.element("p", "This deck gets no plan: a structural engineer has to see it.", "lead");
    html.list(result.refer_reasons);
  } else if (result.none_needed) {
    html.element("p", "No works are needed for the checks to pass.", "lead");
  } else if (result.plan) {
    write_plan(html, context);
  } else {
    html.element("p", "No set of the measures allowed makes every check pass.", "lead");
  }
  html.list(result.why_none);
  write_alternatives(html, context);
  return html.text();
}

std::string cost_section(const Context& context) {
  Html html;
  const Report& report = context.report;
  if (report.comparison) {
    Rows rows;
    for (const comparison::Option& option : report.comparison->options) {
      std::vector<std::string> row{option.name};
      const std::vector<std::string> cost =
          option.possible ? cost_cells(option.bill.total) : std::vector<std::string>{"", "", ""};
      row.insert(row.end(), cost.begin(), cost.end());
      row.push_back(option.possible ? std::to_string(option.bill.days_until_filled) : "");
      row.push_back(!option.possible ? "not possible"
                    : option.carries ? "checks pass"
                                     : "checks fail");
      std::string notes;
      for (const std::string& note : notes_of(option)) notes += (notes.empty() ? "" : " ") + note;
      if (!option.bill.missing_prices.empty()) notes += " Some prices are missing.";
      row.push_back(notes);
      rows.push_back(std::move(row));
    }
    bool some_missing = false;
    for (const comparison::Option& option : report.comparison->options) {
      some_missing = some_missing || !option.bill.missing_prices.empty();
    }
    const std::string currency =
        report.comparison->options.empty() ? "" : report.comparison->options.front().bill.currency;
    html.table("Compared on equal terms" + (currency.empty() ? "" : ", " + currency),
               {{"Option"},
                {"Low", true},
                {"Likely", true},
                {"High", true},
                {"Days until filled", true},
                {"Carries"},
                {"Notes"}},
               rows);
    html.element("p",
                 report.comparison->cheapest.empty()
                     ? "None of them carries the load."
                     : "Cheapest of those that carry: " + report.comparison->cheapest +
                           (some_missing ? ", as far as prices are known." : "."),
                 "lead");
    if (!report.comparison->tips_the_balance.empty()) {
      html.element("h3", "What tips the balance").list(report.comparison->tips_the_balance);
    }
    for (const comparison::Option& option : report.comparison->options) {
      if (option.possible && !option.bill.lines.empty()) {
        write_bill(html, "Take-off: " + option.name, option.bill);
      }
    }
  } else if (report.retrofit && report.retrofit->plan) {
    write_bill(html, "Take-off: " + report.retrofit->plan->name, report.retrofit->plan->bill);
  }
  return html.text();
}

}  // namespace underprop::report

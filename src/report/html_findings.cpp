// Verdict, plan, findings and facts.
#include "arithmetic.hpp"
#include "drawing.hpp"
#include "html_parts.hpp"
#include "markup.hpp"
#include "words.hpp"

#include "underprop/interview/interview.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace underprop::report {

using assessment::Finding;
using Rows = std::vector<std::vector<std::string>>;

namespace {

constexpr std::size_t governing_shown = 12;
constexpr std::size_t arithmetic_shown = 40;

std::vector<std::string> row_of(const Finding& finding) {
  return {finding.piece,
          finding.check.check,
          finding.where,
          finding.situation,
          figure(finding.check.demand, finding.check.unit),
          figure(finding.check.resistance, finding.check.unit),
          shown_utilisation(finding.check.utilisation)};
}

const std::vector<Html::Column>& finding_columns() {
  static const std::vector<Html::Column> columns{{"Piece"},
                                                 {"Check"},
                                                 {"Where"},
                                                 {"Situation"},
                                                 {"Demand", true},
                                                 {"Resistance", true},
                                                 {"Utilisation", true}};
  return columns;
}

std::string of_the_limit(double utilisation, std::string_view facts) {
  if (std::isinf(utilisation)) return fmt::format("nothing that counts resists; {}", facts);
  return fmt::format("{} of the limit, {}", shown_utilisation(utilisation), facts);
}

void write_arithmetic(Html& html, const Finding& finding) {
  const standards::Check& check = finding.check;
  html.raw(fmt::format("<details id=\"f-{}\"><summary>{}, {}: <b>{}</b></summary></details>\n",
                       esc(finding.id), esc(finding.piece), esc(check.check),
                       esc(shown_utilisation(check.utilisation))));
  html.raw("<div class=\"sum\">\n");
  html.element("p", joined({finding.where, finding.situation, finding.combination}, "; "));
  if (!finding.bound.empty()) html.element("p", "Bound: " + finding.bound);
  Rows rows;
  for (std::size_t index = 0; index < check.steps.size(); ++index) {
    const standards::Step& step = check.steps[index];
    rows.push_back({step.symbol, step.expression, numbers(check.steps, index),
                    figure(step.value, step.unit), reference(step.source)});
  }
  if (!rows.empty()) {
    html.table("Line by line",
               {{"Symbol"}, {"Expression"}, {"Numbers"}, {"Value", true}, {"Source, clause"}},
               rows);
  }
  html.element("p",
               fmt::format("Demand {}, resistance {}: utilisation {}, rounded up. {}",
                           figure(check.demand, check.unit), figure(check.resistance, check.unit),
                           shown_utilisation(check.utilisation), reference(check.source)));
  html.raw("</div>\n");
}

}  // namespace

std::string verdict_section(const Context& context) {
  const assessment::Assessment& a = context.report.assessment;
  Html html;
  std::string verdict = assessment::to_string(a.verdict);
  if (!verdict.empty() && verdict[0] >= 'a') verdict[0] = static_cast<char>(verdict[0] - 'a' + 'A');
  html.element("p", verdict, "verdict");
  html.element("p", verdict_sentence(a), "lead");
  html.list(a.refer_reasons);
  if (a.shown.mechanism) {
    html.element("p", "What is loose: " + *a.shown.mechanism + ". A loose deck has no numbers.");
  }
  html.raw("<dl>\n");
  const auto entry = [&](std::string_view term, const std::string& text) {
    if (!text.empty()) html.element("dt", term, "label").element("dd", text);
  };
  if (a.utilisation)
    entry("Safety", of_the_limit(*a.utilisation, "every fact at its cautious value"));
  if (a.shown.mechanism) {
    entry("Service", "not worked out: a piece is loose");
  } else if (a.utilisation_service) {
    entry("Service", of_the_limit(*a.utilisation_service, "facts at their likely values"));
  }
  if (a.governing) {
    entry("Nearest the limit", joined({a.governing->piece, a.governing->check.check,
                                       a.governing->where, a.governing->situation},
                                      ", "));
  }
  entry("Standard", a.standard);
  for (const deck::Load& load : context.deck.loads) {
    entry("Load", fmt::format("{}: {} itself, {} of contents, {} people", load.name,
                              format_mass(load.dry_mass, context.units),
                              format_mass(load.contents, context.units), load.people));
  }
  html.raw("</dl>\n");
  return html.text();
}

std::string plan_section(const Context& context) {
  Html html;
  const assessment::Assessment& a = context.report.assessment;
  const std::string drawing = plan_drawing(context.deck, a, context.units);
  if (drawing.empty()) {
    html.element("p", "Nothing recorded can be drawn.");
    return html.text();
  }
  html.raw("<figure>\n" + drawing);
  html.element(
      "figcaption",
      "Drawn to scale, seen from above; positions run from corner A" +
          (context.report.survey.corner_a.empty() ? std::string()
                                                  : " (" + context.report.survey.corner_a + ")") +
          ". The darker a piece, the nearer its limit; hatched and heavy: over it. Beside "
          "each name its largest safety utilisation, under each pad its characteristic "
          "reaction. Dashed pieces count as absent. Dash-dotted: the load.");
  html.raw("</figure>\n");
  const std::string shape = shape_drawing(context.deck, a.shown.shapes, context.units);
  if (!shape.empty()) {
    html.element("h3", "How it sags").raw("<figure>\n" + shape);
    html.element(
        "figcaption",
        "Full, with people, after years. The dashed line is the unloaded deck; the dark line "
        "is the piece that moves furthest.");
    html.raw("</figure>\n");
  }
  Rows rows;
  for (const assessment::Reaction& r : a.shown.reactions) {
    rows.push_back(
        {r.support, format_length(r.at.x, context.units), format_length(r.at.y, context.units),
         format_force(r.characteristic, context.units), format_force(r.factored, context.units)});
  }
  if (!rows.empty()) {
    html.table("Reactions of the supports at their largest",
               {{"Support"},
                {"x from A", true},
                {"y from A", true},
                {"Characteristic", true},
                {"Worst strength combination", true}},
               rows);
  }
  return html.text();
}

std::string governing_section(const Context& context) {
  const assessment::Assessment& a = context.report.assessment;
  Html html;
  Rows safety, service, ordinary;
  std::size_t more = 0;
  for (const Finding* finding : findings_of(a)) {
    Rows& rows = finding->kind == assessment::Kind::safety ? safety : service;
    if (rows.size() < governing_shown) {
      rows.push_back(row_of(*finding));
      if (&rows == &safety && !a.at_best.empty()) rows.back().push_back(shown_at_best(a, *finding));
    } else {
      ++more;
    }
  }
  for (const Finding& finding : a.shown.ordinary_use) {
    ordinary.push_back(row_of(finding));
    if (finding.guessed) ordinary.back().front() += " (may)";
  }
  if (safety.empty() && service.empty()) {
    html.element("p", "No check was made.");
    return html.text();
  }
  std::vector<Html::Column> columns = finding_columns();
  if (!a.at_best.empty()) columns.push_back({"At best", true});
  const std::string reading = reading_words(a);
  html.table("Safety. " + (reading.empty() ? "All facts at their cautious values." : reading) +
                 " The limit is 1.00.",
             columns, safety);
  if (!service.empty()) {
    html.table("Service: sag, tilt and gaps, at likely facts. The limit is 1.00.",
               finding_columns(), service);
  }
  if (!ordinary.empty()) {
    html.table(
        "Ordinary use: fails already without the load, and hardly worse with it; \"may\": only if "
        "what is not known turns out badly",
        finding_columns(), ordinary);
  }
  Rows by_table;
  for (const Finding& finding : a.shown.deemed) {
    by_table.push_back(row_of(finding));
    by_table.back().push_back(finding.deemed->row + ", " + reference(finding.deemed->table));
  }
  if (!by_table.empty()) {
    std::vector<Html::Column> with_row = finding_columns();
    with_row.push_back({"Row", false});
    html.table(
        "By the guide: passes as a piece of a deck by a published table, whatever calculation "
        "says; "
        "not meant for a new load",
        with_row, by_table);
  }
  if (more > 0) {
    html.element("p", fmt::format("{} more findings, none above those of its table, stand under "
                                  "Arithmetic.",
                                  more));
  }
  return html.text();
}

std::string facts_section(const Context& context) {
  const assessment::Assessment& a = context.report.assessment;
  Html html;
  for (const assessment::Decides& set : a.decides) {
    std::vector<std::string> items = facts_of(a, set);
    const std::vector<std::string> values = passes_if(a, set);
    for (std::size_t i = 0; i < items.size(); ++i) items[i] += ": passes if " + values[i];
    html.element("h3", items.size() == 1 ? "This decides" : "These together decide").list(items);
  }
  Rows rows;
  for (const assessment::Unknown& u : a.unknowns) {
    rows.push_back({u.what, u.find_out, u.cautious, u.likely, u.favourable,
                    std::isfinite(u.swing) ? format_decimals(u.swing, 2) : "decides alone"});
  }
  if (!rows.empty()) {
    html.table(
        "Facts to find out, the one that matters most first. Swing: how far it alone moves "
        "the governing utilisation.",
        {{"What"}, {"How to find out"}, {"Cautious"}, {"Likely"}, {"Favourable"}, {"Swing", true}},
        rows);
  }
  rows.clear();
  for (const assessment::MustSee& fact : a.must_see) {
    rows.push_back({to_words(fact), fact.field, fact.recorded ? "recorded" : "not recorded"});
  }
  if (!rows.empty()) {
    html.table("Facts that must have been seen before this program says that a deck carries",
               {{"What"}, {"Field"}, {"State"}}, rows);
  }
  rows.clear();
  const std::vector<record::Warning> kept =
      interview::kept_while_recording(context.report.survey, context.report.warnings);
  for (const record::Warning& warning : context.report.warnings) {
    const std::string told =
        record::in_words(context.report.survey, warning.pointer + ": " + warning.text);
    rows.push_back(
        {told, warning.pointer, is_among(kept, warning) ? "kept while recording" : "open"});
  }
  if (!rows.empty())
    html.table("Entries that look odd", {{"What is odd"}, {"Field"}, {"State"}}, rows);
  const std::vector<std::string> assumed = assumptions(a);
  if (!assumed.empty()) html.element("h3", "Assumed").list(assumed);
  if (html.text().empty()) html.element("p", "Nothing is open.");
  return html.text();
}

std::string arithmetic_section(const Context& context) {
  Html html;
  const std::vector<const Finding*> all = findings_of(context.report.assessment);
  html.element("p", "Open a line for its arithmetic; on paper the lines are open.");
  const std::size_t count = std::min(all.size(), arithmetic_shown);
  for (std::size_t i = 0; i < count; ++i) write_arithmetic(html, *all[i]);
  Rows rest;
  for (std::size_t i = count; i < all.size(); ++i) rest.push_back(row_of(*all[i]));
  if (!rest.empty()) {
    html.table("The other findings; underprop explain gives the arithmetic of each",
               finding_columns(), rest);
  }
  return html.text();
}

}  // namespace underprop::report

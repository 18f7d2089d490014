// The verdict on one screen, and one finding's arithmetic.
#include "arithmetic.hpp"
#include "layout.hpp"
#include "sources.hpp"
#include "words.hpp"

#include "underprop/interview/interview.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace underprop::report {

using assessment::Finding;

namespace {

constexpr std::size_t findings_shown = 5;
constexpr std::size_t facts_shown = 3;
constexpr std::size_t cautions_shown = 3;
constexpr std::size_t one_line = 65;  // what a labelled line holds at 80 columns

void write_findings(Page& page, const assessment::Assessment& assessment) {
  const std::vector<const Finding*> all = findings_of(assessment);
  std::vector<std::vector<std::string>> rows;
  for (const Finding* finding : all) {
    if (finding->kind != assessment::Kind::safety) continue;
    if (rows.size() == findings_shown) break;
    // A loose piece has no figure: it is told in words.
    if (assessment.shown.mechanism && std::isinf(finding->check.utilisation)) continue;
    rows.push_back({finding->piece, finding->check.check, finding->where, finding->situation,
                    shown_utilisation(finding->check.utilisation)});
    if (!assessment.at_best.empty()) rows.back().push_back(shown_at_best(assessment, *finding));
  }
  if (rows.empty()) return;
  page.blank();
  if (const std::string text = reading_words(assessment); !text.empty()) page.paragraph(text);
  std::vector<Page::Column> columns{{"Piece", false, 6},
                                    {"Check", false, 14},
                                    {"Where", false, 12},
                                    {"Situation", false, 12},
                                    {"Use", true, 4}};
  if (!assessment.at_best.empty()) columns.push_back({"At best", true, 7});
  page.table(columns, rows);
}

std::string service_line(const assessment::Assessment& assessment) {
  const Finding* worst = worst_service(assessment);
  if (!worst) return "";
  return fmt::format("{} of its limit at likely facts: {}, {}",
                     shown_utilisation(worst->check.utilisation), worst->piece, worst->check.check);
}

std::string ordinary_line(const std::vector<Finding>& findings) {
  if (findings.empty()) return "";
  const Finding& first = findings.front();
  std::string text =
      fmt::format("{} already without the load: {} {} ({})", first.guessed ? "may fail" : "fails",
                  first.piece, first.check.check, shown_utilisation(first.check.utilisation));
  if (findings.size() > 1) text += fmt::format(" and {} more", findings.size() - 1);
  return text;
}

/// What passes in ordinary use by a published table although calculation says otherwise.
std::string by_table_line(const std::vector<Finding>& findings) {
  if (findings.empty()) return "";
  const Finding& first = findings.front();
  std::string text =
      fmt::format("{} {} ({}) passes as a piece of a deck, people and nothing new on it, by {}: {}",
                  first.piece, first.check.check, shown_utilisation(first.check.utilisation),
                  reference(first.deemed->table), first.deemed->row);
  if (findings.size() > 1) text += fmt::format("; and {} more", findings.size() - 1);
  return text;
}

std::string capital(std::string text) {
  if (!text.empty() && text[0] >= 'a' && text[0] <= 'z') {
    text[0] = static_cast<char>(text[0] - 'a' + 'A');
  }
  return text;
}

void write_facts(Page& page, const assessment::Assessment& assessment) {
  std::string missing;
  for (const assessment::MustSee* fact : not_recorded(assessment)) {
    missing += (missing.empty() ? "" : "; ") + to_words(*fact);
  }
  // The sentence above may have said them all already.
  const bool said = assessment.grounds == assessment::Grounds::nobody_has_looked;
  if (!missing.empty() && !said) page.labelled("Not recorded", missing);

  const char* label = "Decides";
  for (const assessment::Decides& set : assessment.decides) {
    std::vector<std::string> facts = facts_of(assessment, set);
    const std::vector<std::string> values = passes_if(assessment, set);
    for (std::size_t i = 0; i < facts.size(); ++i) facts[i] += " (passes if " + values[i] + ")";
    page.labelled(label, joined(facts, "; "));
    label = "or";
  }

  label = "Find out";
  for (std::size_t i = 0; i < std::min(facts_shown, assessment.unknowns.size()); ++i) {
    const assessment::Unknown& unknown = assessment.unknowns[i];
    page.labelled(label, capital(unknown.what) + ": " + unknown.find_out);
    label = "";
  }
  if (assessment.unknowns.size() > facts_shown) {
    page.labelled(
        "", fmt::format("and {} more, in the report", assessment.unknowns.size() - facts_shown));
  }
}

void write_cautions(Page& page, const assessment::Assessment& assessment,
                    const std::string& question) {
  const char* label = "Cautions";
  std::vector<std::string> cautions = assessment.cautions;
  if (!question.empty()) cautions.push_back(question);
  for (std::size_t i = 0; i < std::min(cautions_shown, cautions.size()); ++i) {
    page.labelled(label, clip(plain(cautions[i]), one_line));
    label = "";
  }
  if (cautions.size() > cautions_shown) {
    page.labelled("", fmt::format("and {} more; all of them in full in the report",
                                  cautions.size() - cautions_shown));
  }
}

std::string next_command(const Report& report) {
  const std::string file = survey_argument(report);
  switch (report.assessment.verdict) {
    case assessment::Verdict::carries:
      return "underprop explain " + file + " " +
             (report.assessment.governing ? "\"" + report.assessment.governing->id + "\""
                                          : std::string("FINDING")) +
             "; " + report_command(report);
    case assessment::Verdict::does_not_carry:
      return "underprop retrofit " + file + ": the least works after which every check passes";
    case assessment::Verdict::cannot_tell:
      return "find these out, then " +
             (report.survey.recording ? "underprop record " + file +
                                            " (open asks again what is not known), or write them "
                                            "into " +
                                            file
                                      : "write them into " + file);
    case assessment::Verdict::refer:
      return "show what " + report_command(report) + " writes to a structural engineer";
  }
  return "";
}

/// Odd entries in words; those that were kept when the deck was recorded are only counted.
void write_odd_entries(Page& page, const Report& report) {
  const std::vector<record::Warning> kept =
      interview::kept_while_recording(report.survey, report.warnings);
  for (const record::Warning& warning : report.warnings) {
    if (is_among(kept, warning)) continue;
    page.labelled("Odd entry",
                  record::in_words(report.survey, warning.pointer + ": " + warning.text));
  }
  if (!kept.empty()) {
    page.labelled("Odd, kept", (kept.size() == 1 ? std::string("one entry")
                                                 : std::to_string(kept.size()) + " entries") +
                                   " that you confirmed while recording");
  }
}

}  // namespace

std::string assessment_text(const Report& report, int width) {
  const assessment::Assessment& assessment = report.assessment;
  Page page(width);
  page.paragraph(notice());
  page.blank();
  page.spread(
      heading(assessment.verdict),
      fmt::format("{}, {}", report.survey.name.empty() ? "unnamed deck" : report.survey.name,
                  report.survey.recorded_on.empty() ? "no date" : report.survey.recorded_on));
  page.paragraph(verdict_sentence(assessment));
  for (const std::string& reason : assessment.refer_reasons) page.labelled("Because", reason);
  const auto& loose = assessment.shown.mechanism;
  const bool told = assessment.first && assessment.first->mechanism &&
                    assessment.first->mechanism->starts_with(loose.value_or(""));
  const bool refers = assessment.verdict == assessment::Verdict::refer;
  if (loose && !told && !refers) page.labelled("Loose", *loose);

  write_findings(page, assessment);
  page.blank();
  if (const std::string text = service_line(assessment); !text.empty()) {
    page.labelled("Service", text);
  }
  if (const std::string text = ordinary_line(assessment.shown.ordinary_use); !text.empty()) {
    page.labelled("Ordinary use", text);
  }
  if (const std::string text = by_table_line(assessment.shown.deemed); !text.empty()) {
    page.labelled("By the guide", text);
  }
  write_facts(page, assessment);
  const deck::Deck deck = deck::resolve(report.survey, record::Reading::cautious).deck;
  write_cautions(page, assessment, guard_question(deck, units_of(report.survey)));
  write_odd_entries(page, report);
  page.labelled("Not checked", [] {
    std::string text;
    for (const std::string& item : not_checked()) text += (text.empty() ? "" : ", ") + item;
    return text;
  }());
  page.labelled("Next", next_command(report));
  return page.text();
}

std::string explain_text(const Report& report, const std::string& finding_id, int width) {
  const Finding* finding = find(report.assessment, finding_id);
  if (!finding) return "";
  const standards::Check& check = finding->check;
  Page page(width);
  page.paragraph(notice());
  page.blank();
  page.spread(fmt::format("{}: {}", finding->piece, check.check),
              std::string(assessment::to_string(finding->kind)) + " finding");
  page.labelled("Where", finding->where);
  page.labelled("Situation", finding->situation);
  page.labelled("Combination", finding->combination);
  page.labelled("Bound", finding->bound);
  if (finding->deemed) {
    page.labelled("By the guide",
                  fmt::format("passes in ordinary use: {} ({})", finding->deemed->row,
                              reference(finding->deemed->table)));
  }
  page.blank();

  // "symbol = expression = numbers = value unit   [key, clause]", the first three aligned on their signs. A
  // line too long for the page continues under its expression, the clause on a line of its own.
  std::size_t symbols = 6;
  for (const standards::Step& step : check.steps) {
    symbols = std::max(symbols, columns(plain(step.symbol)));
  }
  symbols = std::min(symbols, page.width() / 3);
  std::set<std::string> keys;
  add_keys(*finding, keys);
  for (std::size_t index = 0; index < check.steps.size(); ++index) {
    const standards::Step& step = check.steps[index];
    const std::string lead = clip(plain(step.symbol), symbols);
    const std::string pad(symbols - columns(lead), ' ');
    const std::string formula = sides(check.steps, index);
    const std::string clause =
        reference(step.source).empty() ? "" : "[" + reference(step.source) + "]";
    const std::size_t room = page.width() - symbols - 3;
    std::vector<std::string> lines = wrap(formula, room);
    if (!clause.empty()) {
      const std::size_t used = columns(lines.back()), needs = columns(clause);
      if (used + 2 + needs <= room) {
        lines.back() += std::string(room - used - needs, ' ') + clause;
      } else {
        for (const std::string& part : wrap(clause, room)) {
          lines.push_back(std::string(room - columns(part), ' ') + part);
        }
      }
    }
    for (std::size_t i = 0; i < lines.size(); ++i) {
      page.line(i == 0 ? lead + pad + " = " + lines[i] : std::string(symbols + 3, ' ') + lines[i]);
    }
  }
  page.blank();
  page.labelled("Demand", figure(check.demand, check.unit));
  page.labelled("Resistance", figure(check.resistance, check.unit));
  page.labelled("Utilisation", fmt::format("{}, rounded up; the limit is 1.00",
                                           shown_utilisation(check.utilisation)));
  page.labelled("Clause", reference(check.source));
  page.blank();
  const std::map<std::string, Source> sources = bibliography();
  const char* label = "Sources";
  for (const std::string& key : keys) {
    page.labelled(label, key + ": " + full_title(sources, key));
    label = "";
  }
  return page.text();
}

}  // namespace underprop::report

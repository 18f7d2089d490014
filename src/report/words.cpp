#include "words.hpp"
#include "underprop/record/standard_facts.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>

namespace underprop::report {

using assessment::Finding;

UnitSystem units_of(const record::Survey& survey) {
  return record::facts_of(survey.standard).units;
}

std::string figure(double value) {
  if (std::isnan(value)) return "no number";
  const double size = std::abs(value);
  if (size >= 1e3 && size < 1e7) return format_decimals(value, 0);
  return format_significant(value, 4);
}

std::string figure(double value, std::string_view unit) {
  return unit.empty() ? figure(value) : fmt::format("{} {}", figure(value), unit);
}

std::string shown_utilisation(double utilisation) {
  return std::isnan(utilisation) ? "no number" : format_utilisation(utilisation);
}

std::string money(double amount, const std::string& currency) {
  if (!std::isfinite(amount)) return "not priced";
  const std::string number = format_decimals(amount, 0);
  return currency.empty() ? number : number + " " + currency;
}

std::string heading(assessment::Verdict verdict) {
  std::string text = assessment::to_string(verdict);
  for (char& c : text) {
    if (c >= 'a' && c <= 'z') c = static_cast<char>(c - 'a' + 'A');
  }
  return text;
}

const char* to_words(works::Measure measure) {
  switch (measure) {
    case works::Measure::pack:
      return "packing";
    case works::Measure::move_load:
      return "load moved";
    case works::Measure::pad:
      return "new pad";
    case works::Measure::sleeper:
      return "sleeper";
    case works::Measure::bearer_on_pads:
      return "new bearer on pads";
    case works::Measure::sister:
      return "sister";
    case works::Measure::added_joist:
      return "added joist";
    case works::Measure::blocking:
      return "blocking";
    case works::Measure::hangers:
      return "hangers";
    case works::Measure::bigger_pad:
      return "bigger pad";
    case works::Measure::brace:
      return "brace";
    case works::Measure::ledger_bolts:
      return "ledger bolts";
  }
  return "work";
}

std::string joined(const std::vector<std::string>& parts, std::string_view between) {
  std::string text;
  for (const std::string& part : parts) {
    if (part.empty()) continue;
    if (!text.empty()) text += between;
    text += part;
  }
  return text;
}

std::string reference(const Citation& source) {
  if (source.key.empty()) return source.where;
  return source.where.empty() ? source.key : source.key + ", " + source.where;
}

namespace {

double rank(const Finding& finding) {
  const double utilisation = finding.check.utilisation;
  return std::isnan(utilisation) ? std::numeric_limits<double>::infinity() : utilisation;
}

bool worse(const Finding* a, const Finding* b) {
  if (rank(*a) != rank(*b)) return rank(*a) > rank(*b);
  return a->id < b->id;
}

double distance(Point p, Point a, Point b) {
  const double dx = (b.x - a.x).value(), dy = (b.y - a.y).value();
  const double px = (p.x - a.x).value(), py = (p.y - a.y).value();
  const double square = dx * dx + dy * dy;
  const double t = square > 0.0 ? std::clamp((px * dx + py * dy) / square, 0.0, 1.0) : 0.0;
  return std::hypot(px - t * dx, py - t * dy);
}

double inner_distance(const std::vector<Point>& inner, const std::vector<Point>& outer) {
  double least = std::numeric_limits<double>::infinity();
  for (std::size_t i = 0; i < outer.size(); ++i) {
    for (const Point& p : inner) {
      least = std::min(least, distance(p, outer[i], outer[(i + 1) % outer.size()]));
    }
    for (std::size_t k = 0; k < inner.size(); ++k) {
      least = std::min(least, distance(outer[i], inner[k], inner[(k + 1) % inner.size()]));
    }
  }
  return least;
}

}  // namespace

std::vector<const Finding*> findings_of(const assessment::Assessment& assessment) {
  std::vector<const Finding*> all;
  for (const Finding& finding : assessment.shown.findings) {
    if (finding.kind == assessment::Kind::safety) all.push_back(&finding);
  }
  for (const Finding& finding : assessment.service_findings) all.push_back(&finding);
  std::stable_sort(all.begin(), all.end(), worse);
  // The cause before its symptoms: what the verdict names comes first.
  if (assessment.governing) {
    const auto first = std::find_if(all.begin(), all.end(), [&](const Finding* finding) {
      return finding->kind == assessment::Kind::safety && finding->id == assessment.governing->id;
    });
    if (first != all.end()) std::rotate(all.begin(), first, first + 1);
  }
  return all;
}

std::string reading_words(const assessment::Assessment& assessment) {
  if (assessment.open.empty()) return "";
  switch (assessment.reading) {
    case record::Reading::favourable:
      return "The figures stand for every open fact at its best.";
    case record::Reading::likely:
      return "The figures stand for every open fact at its likely value.";
    case record::Reading::cautious:
      break;
  }
  return assessment.at_best.empty()
             ? ""
             : "The figures stand for every open fact at its cautious value, then at its best.";
}

std::string shown_at_best(const assessment::Assessment& assessment, const Finding& finding) {
  const auto found = assessment.at_best.find(finding.id);
  return found == assessment.at_best.end() ? "-" : shown_utilisation(found->second);
}

const Finding* worst_service(const assessment::Assessment& assessment) {
  const Finding* worst = nullptr;
  for (const Finding& finding : assessment.service_findings) {
    if (!worst || worse(&finding, worst)) worst = &finding;
  }
  return worst;
}

const Finding* find(const assessment::Assessment& assessment, std::string_view id) {
  for (const Finding* finding : findings_of(assessment)) {
    if (finding->id == id) return finding;
  }
  for (const Finding& finding : assessment.shown.ordinary_use) {
    if (finding.id == id) return &finding;
  }
  for (const Finding& finding : assessment.shown.deemed) {
    if (finding.id == id) return &finding;
  }
  // Service findings at the cautious facts: not in the verdict, but worth an explanation.
  for (const Finding& finding : assessment.shown.findings) {
    if (finding.id == id) return &finding;
  }
  return nullptr;
}

std::vector<const assessment::MustSee*> not_recorded(const assessment::Assessment& assessment) {
  std::vector<const assessment::MustSee*> missing;
  for (const assessment::MustSee& fact : assessment.must_see) {
    if (!fact.recorded) missing.push_back(&fact);
  }
  return missing;
}

std::vector<std::string> not_checked() {
  return {"guards and handrails", "stairs", "electrics", "the house wall", "earthquakes", "wind"};
}

std::string guard_question(const deck::Deck& deck, UnitSystem units) {
  constexpr double near_edge_mm = 1000.0;
  for (const deck::Load& load : deck.loads) {
    if (load.kind != record::LoadKind::tub || load.footprint.empty()) continue;
    const double gap = inner_distance(load.footprint, deck.outline);
    if (gap > near_edge_mm) continue;
    return fmt::format(
        "The tub stands {} from an edge of the deck, and its rim is a place to stand on: how high "
        "is "
        "the guard there, measured from the tub's rim?",
        format_length(mm(gap), units));
  }
  return "";
}

namespace {

std::string one_word(const std::string& text) {
  const bool plain = std::all_of(text.begin(), text.end(), [](char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '/' ||
           c == '.' || c == '_' || c == '-' || c == '+' || c == ',' ||
           static_cast<unsigned char>(c) >= 0x80;
  });
  if (plain && !text.empty()) return text;
  std::string quoted = "'";
  for (const char c : text) quoted += c == '\'' ? std::string("'\\''") : std::string(1, c);
  return quoted + "'";
}

}  // namespace

bool is_among(const std::vector<record::Warning>& some, const record::Warning& warning) {
  return std::any_of(some.begin(), some.end(), [&](const record::Warning& each) {
    return each.pointer == warning.pointer && each.text == warning.text;
  });
}

std::string survey_argument(const Report& report) {
  return report.file.empty() ? "SURVEY" : one_word(report.file);
}

std::string report_command(const Report& report) {
  if (report.file.empty()) return "underprop report SURVEY -o FILE";
  constexpr std::string_view ending = ".json";
  std::string page = report.file.substr(report.file.rfind('/') + 1);  // beside where one stands
  if (page.size() > ending.size() && page.ends_with(ending))
    page.resize(page.size() - ending.size());
  return "underprop report " + one_word(report.file) + " -o " + one_word(page + ".html");
}

std::vector<std::string> notes_of(const comparison::Option& option) {
  std::vector<std::string> notes = option.notes;
  if (option.judged) notes.push_back(verdict_sentence(*option.judged));
  return notes;
}

std::string optimality(const planner::Result& result) {
  if (!result.plan) return "";
  if (result.proved_optimal) {
    return "It is the cheapest that passes these checks among the measures allowed.";
  }
  const double likely = result.plan->bill.total.likely;
  if (!(result.lower_bound > 0.0) || !(likely >= result.lower_bound)) {
    return "How much dearer it is than the cheapest that passes these checks is not known.";
  }
  const double percent = std::ceil((likely / result.lower_bound - 1.0) * 100.0 - 1e-9);
  return fmt::format(
      "It is at most {} % dearer than the cheapest that passes these checks among the measures "
      "allowed.",
      format_decimals(std::max(percent, 0.0), 0));
}

}  // namespace underprop::report

// Results as JSON. Keys are fixed by data/schema/result.json; numbers that are not finite are null.
#include "arithmetic.hpp"
#include "words.hpp"

#include "underprop/deck/pieces.hpp"

#include <nlohmann/json.hpp>

#include <cmath>

namespace underprop::report {

using Json = nlohmann::ordered_json;
using assessment::Finding;

namespace {

constexpr const char *assess_format = "underprop/assess/1", *place_format = "underprop/place/1",
                     *retrofit_format = "underprop/retrofit/1",
                     *compare_format = "underprop/compare/1";

Json number(double value) { return std::isfinite(value) ? Json(value) : Json(nullptr); }
Json number(const std::optional<double>& value) { return value ? number(*value) : Json(nullptr); }

Json texts(const std::vector<std::string>& list) {
  Json out = Json::array();
  for (const std::string& text : list) out.push_back(text);
  return out;
}

Json point(Point at) { return {{"x_mm", number(at.x.value())}, {"y_mm", number(at.y.value())}}; }

Json source(const Citation& citation) { return {{"key", citation.key}, {"where", citation.where}}; }

Json finding_json(const Finding& finding) {
  const standards::Check& check = finding.check;
  Json steps = Json::array();
  for (std::size_t index = 0; index < check.steps.size(); ++index) {
    const standards::Step& step = check.steps[index];
    steps.push_back({{"symbol", step.symbol},
                     {"expression", step.expression},
                     {"numbers", numbers(check.steps, index)},
                     {"value", number(step.value)},
                     {"unit", step.unit},
                     {"source", source(step.source)}});
  }
  return {{"id", finding.id},
          {"kind", assessment::to_string(finding.kind)},
          {"already", finding.already},
          {"piece", finding.piece},
          {"check", check.check},
          {"where", finding.where},
          {"at", point(finding.at)},
          {"situation", finding.situation},
          {"combination", finding.combination},
          {"bound", finding.bound},
          {"demand", number(check.demand)},
          {"resistance", number(check.resistance)},
          {"unit", check.unit},
          {"utilisation", number(check.utilisation)},
          // Tells a null utilisation apart: nothing that counts resists the demand.
          {"no_resistance", std::isinf(check.utilisation)},
          {"passes", !assessment::fails(check.utilisation)},
          {"source", source(check.source)},
          {"steps", std::move(steps)}};
}

Json amount(const costing::Amount& cost, const std::string& currency) {
  return {{"low", number(cost.low)},
          {"likely", number(cost.likely)},
          {"high", number(cost.high)},
          {"currency", currency}};
}

Json quantities(const costing::Bill& bill) {
  Json out = Json::array();
  for (const costing::Line& line : bill.lines) {
    Json entry = {{"item", line.quantity.item},
                  {"amount", number(line.quantity.amount)},
                  {"unit", line.quantity.unit},
                  {"note", line.quantity.note}};
    entry["cost"] = line.missing ? Json(nullptr) : amount(line.cost, bill.currency);
    out.push_back(std::move(entry));
  }
  return out;
}

Json work_json(const works::Work& work, const record::Survey& after) {
  Json places = Json::array();
  for (const Point& place : work.places) places.push_back(point(place));
  Json out = {{"id", work.id},
              {"measure", to_words(work.measure)},
              {"text", works::describe(work, after)},
              {"pieces", texts(work.pieces)},
              {"places", std::move(places)}};
  const auto length = [&](const char* key, Length value) {
    if (value.value() != 0.0) out[key] = number(value.value());
  };
  const bool is_line = work.to > work.from;
  if (is_line) {
    out["direction"] = work.direction == Axis::x ? "x" : "y";
    out["position_mm"] = number(work.position.value());
    out["from_mm"] = number(work.from.value());
    out["to_mm"] = number(work.to.value());
  }
  if (!work.timber.empty()) {
    out["timber"] = work.timber;
    out["plies"] = work.plies;
  }
  length("breadth_mm", work.breadth);
  length("depth_mm", work.depth);
  length("pad_width_mm", work.pad_width);
  length("pad_length_mm", work.pad_length);
  length("pad_thickness_mm", work.pad_thickness);
  length("pad_depth_mm", work.pad_depth);
  length("post_height_mm", work.post_height);
  length("bolt_diameter_mm", work.bolt_diameter);
  length("bolt_spacing_mm", work.bolt_spacing);
  if (work.fasteners > 0) out["fasteners"] = work.fasteners;
  if (work.rewedge_after_fill) out["rewedge_after_fill"] = true;
  if (work.measure == works::Measure::move_load) {
    out["load"] = work.load;
    out["load_at"] = point(work.load_at);
    out["load_rotation_deg"] = number(work.load_rotation_deg);
  }
  return out;
}

Json spot_json(const placement::Spot& spot) {
  return {{"x_mm", number(spot.centre.x.value())},
          {"y_mm", number(spot.centre.y.value())},
          {"rotation_deg", number(spot.rotation_deg)},
          {"utilisation", spot.refers && spot.at_least ? Json(nullptr) : number(spot.utilisation)},
          // Done with at the first check that failed: the utilisation may be more than this.
          {"at_least", spot.at_least},
          {"passes", spot.passes},
          {"refers", spot.refers},
          {"why", spot.why},
          {"utilisation_service", spot.at_least ? Json(nullptr) : number(spot.service)},
          {"piece", spot.piece},
          {"check", spot.check}};
}

Json plan_json(const planner::Plan& plan) {
  Json works = Json::array();
  for (const works::Work& work : plan.works) works.push_back(work_json(work, plan.after));
  return {{"name", plan.name},
          {"works", std::move(works)},
          {"cost", amount(plan.bill.total, plan.bill.currency)},
          {"quantities", quantities(plan.bill)},
          {"missing_prices", texts(plan.bill.missing_prices)},
          {"labour_h", number(plan.bill.hours)},
          {"days_until_filled", plan.bill.days_until_filled},
          {"rests_on", texts(plan.rests_on)}};
}

}  // namespace

namespace {

const char* reading_word(record::Reading reading) {
  switch (reading) {
    case record::Reading::cautious:
      return "cautious";
    case record::Reading::likely:
      return "likely";
    case record::Reading::favourable:
      return "favourable";
  }
  return "cautious";
}

}  // namespace

Json assessment_json(const assessment::Assessment& a) {
  Json fails = Json::array();
  for (const assessment::Kind kind : a.fails) fails.push_back(assessment::to_string(kind));
  Json findings = Json::array();
  for (const Finding* finding : findings_of(a)) {
    findings.push_back(finding_json(*finding));
    if (const auto best = a.at_best.find(finding->id);
        best != a.at_best.end() && finding->kind == assessment::Kind::safety)
      findings.back()["utilisation_at_best"] = number(best->second);
  }
  Json ordinary = Json::array();
  for (const Finding& finding : a.shown.ordinary_use) {
    ordinary.push_back(finding_json(finding));
    ordinary.back()["guessed"] = finding.guessed;
  }
  Json deemed = Json::array();
  for (const Finding& finding : a.shown.deemed) {
    deemed.push_back(finding_json(finding));
    deemed.back()["table"] = source(finding.deemed->table);
    deemed.back()["row"] = finding.deemed->row;
  }
  Json decides = Json::array(), decides_what = Json::array(), values = Json::array();
  for (const assessment::Decides& set : a.decides) {
    decides.push_back(texts(set.fields));
    decides_what.push_back(texts(facts_of(a, set)));
    values.push_back(texts(passes_if(a, set)));
  }
  Json unknowns = Json::array();
  for (const assessment::Unknown& unknown : a.unknowns) {
    unknowns.push_back({{"field", unknown.field},
                        {"what", unknown.what},
                        {"swing", number(unknown.swing)},
                        {"refers", unknown.refers},
                        {"act", record::act_on_site(unknown.act).word},
                        {"find_out", unknown.find_out},
                        {"cautious", unknown.cautious},
                        {"likely", unknown.likely},
                        {"favourable", unknown.favourable}});
  }
  Json must_see = Json::array();
  for (const assessment::MustSee& fact : a.must_see) {
    must_see.push_back(
        {{"field", fact.field}, {"recorded", fact.recorded}, {"what", to_words(fact)}});
  }
  Json reactions = Json::array();
  for (const assessment::Reaction& reaction : a.shown.reactions) {
    reactions.push_back({{"support", reaction.support},
                         {"at", point(reaction.at)},
                         {"characteristic_kN", number(in_kilonewtons(reaction.characteristic))},
                         {"factored_kN", number(in_kilonewtons(reaction.factored))}});
  }
  return {{"format", assess_format},
          {"notice", notice()},
          {"standard", a.standard},
          {"verdict", assessment::to_string(a.verdict)},
          {"sentence", verdict_sentence(a)},
          {"reading", reading_word(a.reading)},
          {"with_load", a.with_load},
          {"utilisation", number(a.utilisation)},
          {"utilisation_service", number(a.utilisation_service)},
          {"fails", std::move(fails)},
          {"governing", a.governing ? finding_json(*a.governing) : Json(nullptr)},
          {"mechanism", a.shown.mechanism ? Json(*a.shown.mechanism) : Json(nullptr)},
          {"findings", std::move(findings)},
          {"ordinary_use", std::move(ordinary)},
          {"deemed_to_satisfy", std::move(deemed)},
          {"decides", std::move(decides)},
          {"decides_what", std::move(decides_what)},
          {"decides_passes_if", std::move(values)},
          {"unknowns", std::move(unknowns)},
          {"must_see", std::move(must_see)},
          {"reactions", std::move(reactions)},
          {"loaded_pieces", texts(a.shown.loaded_pieces)},
          {"assumptions", texts(assumptions(a))},
          {"cautions", texts(a.cautions)},
          {"not_checked", texts(not_checked())},
          {"refer_reasons", texts(a.refer_reasons)}};
}

Json placement_json(const placement::Placement& placement) {
  Json positions = Json::array();
  for (const placement::Spot& spot : placement.spots) positions.push_back(spot_json(spot));
  const placement::Capacity& c = placement.capacity;
  const auto spot = [](const std::optional<placement::Spot>& s) {
    return s ? spot_json(*s) : Json(nullptr);
  };
  return {{"format", place_format},
          {"notice", notice()},
          {"why_not", placement.why_not},
          {"step_mm", number(placement.step.value())},
          {"wanted", placement.why_not == "no load is recorded" ? Json(nullptr)
                                                                : spot_json(placement.wanted)},
          {"positions_passing", placement.passing},
          {"best", spot(placement.best)},
          {"nearest_passing", spot(placement.nearest_passing)},
          {"capacity",
           {{"water_l", number(c.water_l)},
            {"water_limited_by", c.water_limited_by},
            {"people", c.people ? Json(*c.people) : Json(nullptr)},
            {"people_limited_by", c.people_limited_by},
            {"pressure_kPa", number(c.pressure_kPa)},
            {"pressure_limited_by", c.pressure_limited_by}}},
          {"positions", std::move(positions)}};
}

Json retrofit_json(const planner::Result& result) {
  Json plan = nullptr;
  if (result.plan) {
    plan = plan_json(*result.plan);
    plan["lower_bound"] = number(result.lower_bound);
    plan["proved_optimal"] = result.proved_optimal;
    plan["assessment"] = assessment_json(result.plan->assessment);
  }
  Json alternatives = Json::array();
  for (const planner::Plan& alternative : result.alternatives) {
    Json entry = plan_json(alternative);
    entry["verdict"] = assessment::to_string(alternative.assessment.verdict);
    entry["utilisation"] = number(alternative.assessment.utilisation);
    alternatives.push_back(std::move(entry));
  }
  return {{"format", retrofit_format},
          {"notice", notice()},
          {"found", result.found},
          {"none_needed", result.none_needed},
          {"refers", result.refers},
          {"refer_reasons", texts(result.refer_reasons)},
          {"plan", std::move(plan)},
          {"alternatives", std::move(alternatives)},
          {"why_none", texts(result.why_none)},
          {"sets_assessed", result.sets_assessed}};
}

Json comparison_json(const comparison::Comparison& comparison) {
  Json options = Json::array();
  for (const comparison::Option& option : comparison.options) {
    Json entry = {{"name", option.name}, {"possible", option.possible}};
    entry["cost"] =
        option.possible ? amount(option.bill.total, option.bill.currency) : Json(nullptr);
    entry["quantities"] = quantities(option.bill);
    entry["carries"] = option.carries;
    entry["missing_prices"] = texts(option.bill.missing_prices);
    entry["labour_h"] = number(option.bill.hours);
    entry["days_until_filled"] = option.bill.days_until_filled;
    entry["notes"] = texts(notes_of(option));
    options.push_back(std::move(entry));
  }
  return {{"format", compare_format},
          {"notice", notice()},
          {"options", std::move(options)},
          {"cheapest", comparison.cheapest},
          {"tips_the_balance", texts(comparison.tips_the_balance)}};
}

std::vector<std::string> result_formats() {
  return {assess_format, place_format, retrofit_format, compare_format, "underprop/model/1"};
}

}  // namespace underprop::report

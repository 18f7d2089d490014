// A report made by hand: an invented deck, invented findings. What is tested with it is how things
// are shown, never whether the numbers are right.
#pragma once

#include "underprop/report/report.hpp"

#include <fmt/format.h>

#include <limits>
#include <string>

namespace sample {

using namespace underprop;

inline record::Survey invented_survey() {
  record::Survey s;
  s.name = "Invented deck <script>alert(1)</script> & \"more\"";
  s.recorded_on = "2024-05-04";
  s.corner_a = "the corner by the invented water butt";
  s.notes = "An invented example.";
  s.deck.outline = {{mm(0), mm(0)}, {mm(4800), mm(0)}, {mm(4800), mm(3600)}, {mm(0), mm(3600)}};
  s.deck.height = mm(480);
  s.deck.boards.width = mm(120);
  s.deck.boards.thickness = mm(28);
  s.deck.boards.gap = mm(6);
  s.deck.boards.direction = Axis::x;

  record::Joists joists;
  joists.name = "J";
  joists.direction = Axis::y;
  for (int i = 0; i < 13; ++i) joists.positions.push_back(mm(i == 12 ? 4776 : 24 + 396 * i));
  joists.timber = std::string("C16");
  joists.breadth = mm(47);
  joists.depth = mm(145);
  joists.start.held = record::Hold::hanger;
  joists.end.held = record::Hold::free;
  s.deck.joists = {joists};

  for (int i = 0; i < 2; ++i) {
    record::Bearer bearer;
    bearer.name = fmt::format("B{}", i + 1);
    bearer.position = mm(i == 0 ? 1700 : 3300);
    bearer.timber = std::string("C16");
    bearer.plies = 2;
    bearer.ply_breadth = mm(47);
    bearer.depth = mm(170);
    s.deck.bearers.push_back(bearer);

    record::Supports pads;
    pads.name = i == 0 ? "P" : "Q";
    pads.under = bearer.name;
    pads.positions = {mm(300), mm(1700), mm(3100), mm(4500)};
    pads.footing.kind = record::FootingKind::cast_pad;
    pads.footing.width = mm(400);
    pads.footing.length = mm(400);
    pads.footing.thickness = mm(200);
    s.deck.supports.push_back(pads);
  }
  record::Ledger ledger;
  ledger.name = "L";
  ledger.position = mm(24);
  ledger.timber = std::string("C16");
  ledger.breadth = mm(47);
  ledger.depth = mm(145);
  s.deck.ledgers = {ledger};
  record::Rim rim;
  rim.name = "R";
  rim.joists = "J";
  rim.breadth = mm(35);
  rim.depth = mm(145);
  s.deck.rims = {rim};
  record::Blocking blocking;
  blocking.name = "K";
  blocking.joists = "J";
  blocking.position = mm(1700);
  s.deck.blocking = {blocking};
  s.deck.closed_zones = {
      {"roots", {{mm(0), mm(2900)}, {mm(700), mm(2900)}, {mm(700), mm(3600)}, {mm(0), mm(3600)}}}};
  record::Condition decay;
  decay.piece = "J11";
  decay.from = mm(2500);
  decay.to = mm(2700);
  s.deck.condition = {decay};

  record::HeavyLoad tub;
  tub.name = "tub <b>";
  tub.width = mm(2000);
  tub.length = mm(2100);
  tub.at = {mm(2700), mm(2250)};
  tub.dry_mass = kilograms(320);
  tub.contents = litres(1300);
  tub.people = 5;
  s.loads = {tub};
  return s;
}

inline standards::Check check(std::string name, double demand, double resistance,
                              std::string unit) {
  standards::Check c;
  c.check = std::move(name);
  c.demand = demand;
  c.resistance = resistance;
  c.unit = std::move(unit);
  c.utilisation = resistance > 0.0 ? demand / resistance : std::numeric_limits<double>::infinity();
  c.source = {"judgement", "a clause <&>"};
  c.steps = {{"M_d",
              "q l^2 / 8 + P l / 4 with the load's share of this joist",
              demand,
              "kNm",
              {"judgement", "1.2.3"}},
             {"k_crit", "1.56 - 0.75 lambda_rel,m", 0.93471, "", {"common-practice", "6.3.3(4)"}},
             {"f_m,d", "k_mod k_h f_m,k / gamma_M", 7.3846153, "MPa", {}}};
  return c;
}

inline assessment::Finding finding(const std::string& piece, const std::string& name, double demand,
                                   double resistance,
                                   assessment::Kind kind = assessment::Kind::safety) {
  assessment::Finding f;
  f.id = piece + "/" + name;
  f.kind = kind;
  f.piece = piece;
  f.where = "1250 mm from its start";
  f.at = {mm(2700), mm(1250)};
  f.situation = "full, people on the side towards y";
  f.combination = "6.10-permanent";
  f.bound = "soft ground, stiff shell, joists continuous, pad P2 absent";
  f.check = check(name, demand, resistance, "kNm");
  return f;
}

inline assessment::Assessment invented_assessment() {
  using assessment::Kind;
  assessment::Assessment a;
  a.standard = "Eurocode 5 with UK values";
  a.verdict = assessment::Verdict::does_not_carry;
  a.grounds = assessment::Grounds::fails_at_best;
  a.first = assessment::GivesOut{{}, finding("J7", "bending", 4.02, 3.0)};
  a.utilisation = std::numeric_limits<double>::infinity();
  a.utilisation_service = 0.8123;
  a.fails = {Kind::safety};
  for (int i = 1; i <= 13; ++i) {
    const double near = 1.34 - 0.13 * (i > 7 ? i - 7 : 7 - i);
    a.shown.findings.push_back(finding(fmt::format("J{}", i), "bending", 3.0 * near, 3.0));
    a.shown.findings.push_back(
        finding(fmt::format("J{}", i), "bearing across the grain", 2.0 * near, 3.0));
  }
  a.shown.findings.push_back(finding("L", "fixings", 1.0, 0.0));
  a.shown.findings.push_back(finding("B1", "bending", 2.4, 3.0));
  a.shown.findings.push_back(finding("B2", "bending", 1.4, 3.0));
  a.shown.findings.push_back(finding("P2", "ground pressure", 1.1, 1.0));
  a.shown.findings.push_back(finding("P3", "ground pressure", 0.96, 1.0));
  a.governing = finding("L", "fixings", 1.0, 0.0);
  a.service_findings = {finding("J7", "deflection long term", 0.8123, 1.0, Kind::service)};
  a.shown.ordinary_use = {finding("boards", "point load", 1.2, 1.0, Kind::ordinary_use)};
  const char* rows[2] = {"P", "Q"};
  for (int r = 0; r < 2; ++r) {
    for (int i = 0; i < 4; ++i) {
      assessment::Reaction reaction;
      reaction.support = fmt::format("{}{}", rows[r], i + 1);
      reaction.at = {mm(300 + 1400 * i), mm(r == 0 ? 1700 : 3300)};
      reaction.characteristic = newtons(2100 + 900 * (i % 3) + 400 * r);
      reaction.factored = 1.4 * reaction.characteristic;
      a.shown.reactions.push_back(reaction);
    }
  }
  for (int j = 1; j <= 13; ++j) {
    assessment::Shape shape;
    shape.piece = fmt::format("J{}", j);
    const double share = 1.0 - 0.09 * (j > 7 ? j - 7 : 7 - j);
    for (int k = 0; k <= 24; ++k) {
      const double y = 24.0 + k * 149.0;
      const double u = (y - 1700.0) / 900.0;
      shape.at.push_back({mm(24 + 396.0 * (j - 1)), mm(y)});
      shape.w_mm.push_back(share * (9.0 / (1.0 + u * u) + 2.0 * y / 3600.0 - 1.0));
    }
    a.shown.shapes.push_back(shape);
  }
  const auto open = [&](const char* field, const char* kind, const char* what, double swing,
                        const char* find_out, const char* cautious, const char* likely,
                        const char* favourable) {
    deck::OpenFact fact;
    fact.field = field;
    fact.kind = kind;
    fact.what = what;
    fact.find_out = find_out;
    fact.cautious = cautious;
    fact.likely = likely;
    fact.favourable = favourable;
    a.open.push_back(fact);
    a.unknowns.push_back({fact, swing});
  };
  open("/deck/joists/0/timber", "joists/timber", "strength class of the joists", 0.31,
       "Look for a stamp; else measure the largest knot against the face.", "C14", "C16", "C24");
  open("/deck/supports/0/footing/depth", "supports/footing/depth",
       "depth of the footings' underside below ground", std::numeric_limits<double>::infinity(),
       "Dig beside one pad.", "0 mm", "300 mm", "450 mm");
  open("/site/soil", "site/soil", "soil at the underside of the footings", 0.12,
       "Push a 12 mm bar in.", "soft clay", "firm clay", "gravel");
  open("/deck/boards/joints", "boards/joints", "butt joints of the boards", 0.02, "Look.",
       "staggered", "none", "none");
  a.must_see = {{"/deck/probed/J", false, assessment::Sight::joists_sound, "J"},
                {"/loads/0/dry_mass", true, assessment::Sight::load_mass, "tub"}};
  a.decides = {{{"/deck/joists/0/timber"}, {"C24"}}};
  a.assumptions = {"J11 counts as absent from 2200 mm to 3000 mm"};
  a.cautions = {
      "Electrics: a licensed electrician only.",
      "Drain the tub before any work under the deck; nobody under a loaded or jacked deck.",
      "Call before you dig: buried services.", "Treat every cut end."};
  return a;
}

inline costing::Bill invented_bill(double likely) {
  costing::Bill bill;
  bill.currency = "GBP";
  costing::Line concrete;
  concrete.quantity = {"concrete, bagged", 14, "bag", "2 pads, 10 % waste"};
  concrete.cost = {60, 80, 110};
  costing::Line missing;
  missing.quantity = {"packer <slate>", 12, "each", ""};
  missing.missing = true;
  bill.lines = {concrete, missing};
  bill.total = {0.75 * likely, likely, 1.4 * likely};
  bill.missing_prices = {"packer <slate>"};
  bill.hours = 11.5;
  bill.days_until_filled = 28;
  return bill;
}

inline planner::Plan invented_plan() {
  planner::Plan plan;
  plan.name = "least cost";
  for (const double x : {2100.0, 3300.0}) {
    works::Work pad;
    pad.id = fmt::format("pad-B1-{}", x);
    pad.measure = works::Measure::pad;
    pad.pieces = {"B1"};
    pad.places = {{mm(x), mm(1700)}};
    pad.pad_width = pad.pad_length = mm(450);
    pad.pad_thickness = mm(225);
    pad.pad_depth = mm(350);
    plan.works.push_back(pad);
  }
  works::Work sister;
  sister.id = "sister-J7";
  sister.measure = works::Measure::sister;
  sister.pieces = {"J7"};
  sister.breadth = mm(47);
  sister.depth = mm(145);
  sister.timber = "C24";
  plan.works.push_back(sister);
  works::Work pack;
  pack.id = "pack-Q2";
  pack.measure = works::Measure::pack;
  pack.pieces = {"Q2"};
  plan.works.push_back(pack);
  plan.bill = invented_bill(415);
  plan.after = invented_survey();
  plan.assessment = invented_assessment();
  plan.assessment.verdict = assessment::Verdict::carries;
  plan.assessment.grounds = assessment::Grounds::every_check_passes;
  plan.rests_on = {"if the footings prove to be 450 mm square, one pad falls away: dig one first"};
  return plan;
}

inline report::Report invented_report() {
  report::Report r;
  r.survey = invented_survey();
  r.warnings = {{"/loads/0/contents", "1300 l is less than the tub's size suggests"}};
  r.assessment = invented_assessment();
  planner::Result result;
  result.found = true;
  result.plan = invented_plan();
  result.lower_bound = 380;
  planner::Plan other = invented_plan();
  other.name = "no digging";
  result.alternatives = {other};
  r.retrofit = result;
  comparison::Comparison comparison;
  comparison.options = {
      {"least retrofit", invented_bill(415), true, true, {}, {}},
      {"concrete pad on the ground", invented_bill(980), true, true, {"Access."}, {}},
      {"new low deck", {}, false, false, {"There is no room for it."}, {}}};
  comparison.cheapest = "least retrofit";
  comparison.tips_the_balance = {"Own labour: the retrofit then costs 190 GBP."};
  r.comparison = comparison;
  return r;
}

}  // namespace sample

// The planner seen from outside: what it hands over is judged again here, by the assessment alone.
#include "deck/crossing.hpp"
#include "support/catch.hpp"
#include "support/paths.hpp"

#include "underprop/deck/read.hpp"
#include "underprop/planner/planner.hpp"
#include "underprop/works/work.hpp"

#include <algorithm>
#include <fstream>
#include <iterator>

namespace plan_test_file {

using namespace underprop;
using record::Reading;

namespace {

// An invented low deck: five joists on two bearers, a stone basin in the middle of their span. Its
// heights add up: 35 mm boards, 145 mm joists, 195 mm bearers on pads level with the ground, 375 mm.
// Boards end 200 mm beyond the middle of a joist: a person of 1.4 kN there, 1.5 x 1.4 x 0.2 = 0.42 kNm,
// uses 0.84 of a board of 145 x 35 mm C24 (0.7 x 1.3 x 24 / 1.3 = 16.8 MPa on 29 604 mm3, 0.497 kNm).
record::Survey small_deck(double kilograms_in_it) {
  record::Survey s;
  s.name = "Invented deck";
  s.site.use = record::Use::one_household;
  s.site.storeys = 1;
  s.site.space_below = record::SpaceBelow::none;
  s.site.soil = record::Soil::stiff_clay;
  s.site.heel_marks = false;
  s.site.water_in_hole = false;
  s.site.shrinkable_clay = false;
  s.site.fill = record::Fill::none;
  s.site.slope = 0.0;
  s.site.frost_depth = mm(450);
  s.site.roof_or_screen = false;
  s.site.retaining_walls.looked = s.site.house_walls.looked = s.site.drains.looked = true;
  s.site.ponds.looked = s.site.trees.looked = true;
  record::DeckRecord& d = s.deck;
  d.outline = {{mm(0), mm(0)}, {mm(2000), mm(0)}, {mm(2000), mm(3000)}, {mm(0), mm(3000)}};
  d.height = mm(375);
  d.boards.timber = std::string("C24");
  d.boards.width = mm(145);
  d.boards.thickness = mm(35);
  d.boards.gap = mm(5);
  d.boards.joints = record::BoardJoints::none;
  record::Joists j;
  j.name = "J";
  for (const double x : {200.0, 600.0, 1000.0, 1400.0, 1800.0}) j.positions.push_back(mm(x));
  j.timber = std::string("C24");
  j.incised = false;
  j.breadth = mm(47);
  j.depth = mm(145);
  j.over_bearers = record::OverBearers::continuous;
  j.start.held = j.end.held = record::Hold::free;
  d.joists = {j};
  for (const double y : {200.0, 2800.0}) {
    record::Bearer b;
    b.name = y < 1000.0 ? "B1" : "B2";
    b.position = mm(y);
    b.timber = std::string("C24");
    b.incised = false;
    b.plies = 2;
    b.ply_breadth = mm(47);
    b.depth = mm(195);
    b.plies_fixed_together = true;
    b.joists_held_down = record::HeldDown::screwed;
    d.bearers.push_back(b);
    record::Supports p;
    p.name = y < 1000.0 ? "P" : "Q";
    p.under = b.name;
    p.positions = {mm(200), mm(1000), mm(1800)};
    p.packers = 0;
    p.bearing_length = mm(150);
    p.footing.kind = record::FootingKind::cast_pad;
    p.footing.width = p.footing.length = mm(500);
    p.footing.thickness = mm(450);
    p.footing.depth = mm(450);
    p.footing.offset = mm(0);
    p.footing.contact = record::Contact::tight;
    p.footing.below_topsoil = true;
    d.supports.push_back(p);
    d.blocking.push_back({y < 1000.0 ? "N1" : "N2", "J", mm(y), false});
  }
  d.probed.pieces = {"all"};
  record::HeavyLoad t;
  t.name = "basin";
  t.kind = record::LoadKind::other;
  t.width = t.length = mm(1000);
  t.height = mm(500);
  t.at = {mm(1000), mm(1500)};
  t.dry_mass = kilograms(50);
  t.contents_mass = kilograms(kilograms_in_it);
  t.people = 0;
  t.base = record::BaseKind::full;
  t.pinned = true;
  s.loads = {t};
  return s;
}

const standards::Standard& eurocode() {
  static const auto standard = assessment::standard_for(record::StandardId::eurocode_uk);
  return *standard;
}

planner::Result planned(const record::Survey& s) {
  return planner::plan(s, eurocode(), costing::price_book(s.standard));
}

bool strong(const deck::Deck& deck, const assessment::PlanCases& cases) {
  const auto d = assessment::assess_deck(
      deck, eurocode(), {.depth = assessment::Depth::utilisation, .plan_cases = cases});
  return !d.mechanism && d.safety <= 1.0 && d.refer_reasons.empty();
}

assessment::PlanCases gap_and_ground() {
  assessment::PlanCases cases;
  cases.gap_under_new_supports = cases.new_and_old_ground_differ = true;
  return cases;
}

// Everything section by section that a plan has to pass; service at likely facts.
bool passes(const record::Survey& s, const std::vector<works::Work>& works) {
  const record::Survey after = works::apply(s, works);
  const deck::Deck cautious = deck::resolve(after, Reading::cautious).deck;
  if (!strong(cautious, {}) || !strong(cautious, gap_and_ground())) return false;
  const deck::Deck likely = deck::resolve(after, Reading::likely).deck;
  for (const auto& cases : {assessment::PlanCases{}, gap_and_ground()}) {
    const auto d = assessment::assess_deck(
        likely, eurocode(), {.depth = assessment::Depth::utilisation, .plan_cases = cases});
    if (d.mechanism || d.service > 1.0) return false;
  }
  return true;
}

bool stands_with_each_new_pad_missing(const record::Survey& after) {
  const deck::Deck deck = deck::resolve(after, Reading::cautious).deck;
  for (std::size_t k = 0; k < deck.supports.size(); ++k) {
    if (!deck.supports[k].added) continue;
    deck::Deck lacking = deck;
    lacking.supports.erase(lacking.supports.begin() + static_cast<std::ptrdiff_t>(k));
    deck::find_meetings(lacking);
    if (assessment::assess_deck(lacking, eurocode(), {.depth = assessment::Depth::utilisation})
            .mechanism) {
      return false;
    }
  }
  return true;
}

}  // namespace

TEST_CASE("a deck that carries needs nothing", "[planner][law]") {
  const record::Survey s = small_deck(100);
  REQUIRE(assessment::assess(s, eurocode()).verdict == assessment::Verdict::carries);
  const planner::Result r = planned(s);
  CHECK(r.found);
  CHECK(r.none_needed);
  CHECK(r.proved_optimal);
  REQUIRE(r.plan);
  CHECK(r.plan->works.empty());
  CHECK(r.plan->bill.total.likely == 0.0);
}

TEST_CASE("a deck that refers gets no plan", "[planner][law]") {
  record::Survey s = small_deck(900);
  s.site.use = record::Use::public_use;
  const planner::Result r = planned(s);
  CHECK(r.refers);
  CHECK_FALSE(r.found);
  CHECK_FALSE(r.plan.has_value());
  CHECK_FALSE(r.refer_reasons.empty());
}

TEST_CASE("what is planned passes, and no single work of it can be left out", "[planner][law]") {
  const record::Survey s = small_deck(900);
  REQUIRE_FALSE(passes(s, {}));
  const planner::Result r = planned(s);
  REQUIRE(r.found);
  REQUIRE(r.plan);
  const std::vector<works::Work>& works = r.plan->works;
  REQUIRE_FALSE(works.empty());
  CHECK(passes(s, works));
  CHECK(stands_with_each_new_pad_missing(r.plan->after));
  CHECK(r.plan->assessment.verdict == assessment::Verdict::carries);
  CHECK(r.plan->bill.total.likely > 0.0);
  CHECK(r.lower_bound <= r.plan->bill.total.likely);
  for (std::size_t k = 0; k < works.size(); ++k) {
    std::vector<works::Work> rest = works;
    rest.erase(rest.begin() + static_cast<std::ptrdiff_t>(k));
    INFO(works[k].id);
    const bool less_does =
        passes(s, rest) && stands_with_each_new_pad_missing(works::apply(s, rest));
    CHECK_FALSE(less_does);
  }
  for (const planner::Plan& other : r.alternatives) {
    INFO(other.name);
    CHECK(passes(s, other.works));
    CHECK(other.bill.total.likely >= r.plan->bill.total.likely);
  }
}

TEST_CASE("the same survey gets the same plan", "[planner][law]") {
  const record::Survey s = small_deck(900);
  const planner::Result a = planned(s), b = planned(s);
  REQUIRE(a.plan);
  REQUIRE(b.plan);
  CHECK(a.plan->works == b.plan->works);
  CHECK(a.plan->bill.total.likely == b.plan->bill.total.likely);
  CHECK(a.sets_assessed == b.sets_assessed);
}

TEST_CASE("what is not allowed is not planned; with nothing allowed it says why",
          "[planner][law]") {
  record::Survey s = small_deck(900);
  s.allow.digging = false;
  const planner::Result r = planned(s);
  if (r.plan) {
    for (const works::Work& w : r.plan->works) CHECK(w.pad_width.value() == 0.0);
  } else {
    CHECK_FALSE(r.why_none.empty());
  }
  record::Allowed none;
  none.move_load = none.turn_load = none.packing = none.pads = none.sleepers = none.bearers = false;
  none.sisters = none.added_joists = none.blocking = none.hangers = none.bigger_pads = false;
  none.braces = none.digging = false;
  s.allow = none;
  const planner::Result nothing = planned(s);
  CHECK_FALSE(nothing.found);
  CHECK_FALSE(nothing.plan.has_value());
  CHECK_FALSE(nothing.why_none.empty());
}

TEST_CASE("a search that is told to stop stops", "[planner][law]") {
  const record::Survey s = small_deck(900);
  int lines = 0;
  const planner::Result r = planner::plan(s, eurocode(), costing::price_book(s.standard),
                                          [&](const std::string&) { return ++lines < 1; });
  CHECK(lines <= 2);
  CHECK(r.sets_assessed <= planned(s).sets_assessed);
}

TEST_CASE("where a stretch of a joist is gone a whole joist beside it is planned", "[planner]") {
  const std::string path = std::string(test::source_dir) + "/examples/rotten-stretch/survey.json";
  std::ifstream file(path);
  const std::string text((std::istreambuf_iterator<char>(file)), std::istreambuf_iterator<char>());
  REQUIRE_FALSE(text.empty());
  const record::Survey s = deck::read_survey(text, path).survey;
  const planner::Result r = planned(s);
  REQUIRE(r.plan);
  REQUIRE(r.plan->works.size() == 1);
  CHECK(r.plan->works.front().measure == works::Measure::sister);
  CHECK(r.plan->works.front().pieces == std::vector<std::string>{"J6"});
  CHECK(passes(s, r.plan->works));
  // The decayed wood goes first.
  const std::vector<works::BuildStep> steps = works::order_of_work(r.plan->works, s);
  const auto says = [&](const char* words) {
    return std::find_if(steps.begin(), steps.end(), [&](const works::BuildStep& step) {
      return step.text.find(words) != std::string::npos;
    });
  };
  REQUIRE(says("decayed wood of J6") != steps.end());
  CHECK(says("decayed wood of J6") < says("second joist"));
}

TEST_CASE("a splice away from the posts gets a pad right below it", "[planner]") {
  record::Survey s = small_deck(100);
  s.deck.bearers.front().splices = {mm(600)};
  REQUIRE(assessment::assess(s, eurocode()).verdict == assessment::Verdict::does_not_carry);
  const planner::Result r = planned(s);
  REQUIRE(r.plan);
  REQUIRE_FALSE(r.plan->works.empty());
  CHECK(passes(s, r.plan->works));
  CHECK(std::any_of(r.plan->works.begin(), r.plan->works.end(), [](const works::Work& work) {
    return work.measure == works::Measure::pad && work.pieces.front() == "B1" &&
           std::abs(work.places.front().x.value() - 600.0) < 1.0;
  }));
}

}  // namespace plan_test_file

// The options side by side: their order, what counts as carrying, and what is called the cheapest.
//
// The decks are inventions of ours. Sums are done here by hand; no published source has such cases.
#include "../../src/comparison/low_deck.hpp"
#include "support/catch.hpp"
#include "works/demo_deck.hpp"

#include "underprop/comparison/comparison.hpp"

#include <algorithm>

namespace comparison_test_file {

using namespace underprop;
using comparison::Comparison;
using comparison::Option;

namespace {

/// Everything about the site looked at, nothing in the way, firm ground.
record::Survey on_known_ground(record::Survey s) {
  s.site.use = record::Use::one_household;
  s.site.storeys = 1;
  s.site.space_below = record::SpaceBelow::none;
  s.site.soil = record::Soil::stiff_clay;
  s.site.heel_marks = false;
  s.site.water_in_hole = false;
  s.site.shrinkable_clay = false;
  s.site.fill = record::Fill::none;
  s.site.slope = 0.0;
  s.site.frost_depth = mm(0);
  s.site.roof_or_screen = false;
  s.site.retaining_walls.looked = s.site.house_walls.looked = true;
  s.site.drains.looked = s.site.ponds.looked = s.site.trees.looked = true;
  if (s.standard == record::StandardId::north_america_us) {
    s.site.seismic_category = std::string("A");
  }
  return s;
}

/// A tub of 1 m instead of 2 m: a new deck for it is small, and the search for one is short.
record::Survey with_small_tub(record::Survey s) {
  record::HeavyLoad& tub = s.loads.front();
  tub.width = tub.length = metres(1);
  tub.dry_mass = kilograms(100);
  tub.contents = litres(300);
  tub.people = 1;
  return s;
}

planner::Result no_plan(const std::string& why) {
  planner::Result result;
  result.why_none = {why};
  return result;
}

planner::Plan plan_for(const std::string& name, double likely) {
  planner::Plan plan;
  plan.name = name;
  plan.bill.total = {0.8 * likely, likely, 1.3 * likely};
  plan.bill.hours = 3.0;
  plan.bill.days_until_filled = 1;
  plan.assessment.verdict = assessment::Verdict::carries;
  return plan;
}

planner::Result planned(double likely) {
  planner::Result result;
  result.found = true;
  result.plan = plan_for("least cost", likely);
  return result;
}

Comparison compared(const record::Survey& s, const planner::Result& retrofit) {
  return comparison::compare(s, retrofit, *assessment::standard_for(s.standard),
                             costing::price_book(s.standard));
}

const Option& named(const Comparison& c, const std::string& name) {
  const auto found = std::find_if(c.options.begin(), c.options.end(),
                                  [&](const Option& option) { return option.name == name; });
  REQUIRE(found != c.options.end());
  return *found;
}

bool told(const std::vector<std::string>& lines, const std::string& words) {
  return std::any_of(lines.begin(), lines.end(), [&](const std::string& line) {
    return line.find(words) != std::string::npos;
  });
}

}  // namespace

TEST_CASE("the options come in a fixed order, alternatives under their own names") {
  planner::Result retrofit = planned(500.0);
  retrofit.alternatives = {plan_for("no digging", 800.0)};
  const Comparison c = compared(on_known_ground(demo::demo_deck()), retrofit);
  std::vector<std::string> names;
  for (const Option& option : c.options) names.push_back(option.name);
  CHECK(names == std::vector<std::string>{"least retrofit", "no digging",
                                          "concrete pad on the ground", "new low deck"});
  CHECK(named(c, "no digging").bill.total.likely == 800.0);
}

TEST_CASE("the cheapest is the least likely cost of what carries, by both standards") {
  for (const record::Survey& bare : {demo::demo_deck(), demo::american_deck()}) {
    const record::Survey s = on_known_ground(bare);
    for (const double likely : {10.0, 1.0e6}) {
      const Comparison c = compared(s, planned(likely));
      const Option* least = nullptr;
      for (const Option& option : c.options) {
        CHECK(option.bill.currency == costing::price_book(s.standard).currency);
        if (!option.possible || !option.carries) continue;
        if (least == nullptr || option.bill.total.likely < least->bill.total.likely) {
          least = &option;
        }
      }
      REQUIRE(least != nullptr);
      CHECK(c.cheapest == least->name);
      CHECK((c.cheapest == "least retrofit") == (likely == 10.0));
    }
  }
}

TEST_CASE("what tips the balance gives the margin to the next in price") {
  const record::Survey s = on_known_ground(demo::demo_deck());
  const Comparison without = compared(s, no_plan("x"));
  const double pad = named(without, "concrete pad on the ground").bill.total.likely;
  const Comparison c = compared(s, planned(pad - 100.0));
  REQUIRE(c.cheapest == "least retrofit");
  CHECK(told(c.tips_the_balance, "100 GBP"));
  CHECK(told(c.tips_the_balance, "least retrofit: 1 day"));
  CHECK(told(c.tips_the_balance, "concrete pad on the ground: 28 days"));
}

TEST_CASE("a deck without a plan is no option, and why is told") {
  const record::Survey s = on_known_ground(demo::demo_deck());
  const Comparison none = compared(s, no_plan("bearing of J3 cannot be mended"));
  CHECK_FALSE(named(none, "least retrofit").possible);
  CHECK_FALSE(named(none, "least retrofit").carries);
  CHECK(told(named(none, "least retrofit").notes, "bearing of J3 cannot be mended"));
  CHECK(none.cheapest != "least retrofit");

  planner::Result refers;
  refers.refers = true;
  refers.refer_reasons = {"the deck stands above a cellar"};
  const Comparison referred = compared(s, refers);
  CHECK_FALSE(named(referred, "least retrofit").possible);
  CHECK(told(named(referred, "least retrofit").notes, "above a cellar"));
}

TEST_CASE("a deck that needs nothing carries for nothing") {
  planner::Result result = planned(0.0);
  result.none_needed = true;
  const Comparison c = compared(on_known_ground(demo::demo_deck()), result);
  CHECK(named(c, "least retrofit").carries);
  CHECK(named(c, "least retrofit").bill.total.high == 0.0);
  CHECK(c.cheapest == "least retrofit");
}

TEST_CASE("a pad on ground that a heel marks is never called the cheapest") {
  record::Survey s = with_small_tub(on_known_ground(demo::demo_deck()));
  s.site.heel_marks = true;
  const Comparison c = compared(s, no_plan("x"));
  CHECK_FALSE(named(c, "concrete pad on the ground").carries);
  CHECK(c.cheapest != "concrete pad on the ground");
}

TEST_CASE("a new low deck carries by the verdict of the assessment itself, or is not offered") {
  for (const record::Survey& bare : {demo::demo_deck(), demo::american_deck()}) {
    const record::Survey s = on_known_ground(bare);
    const auto standard = assessment::standard_for(s.standard);
    const auto deck = comparison::low_deck_for(s, *standard);
    REQUIRE(deck);
    CHECK(assessment::assess(deck->survey, *standard).verdict == assessment::Verdict::carries);
    // Nothing about the ground is made better than it was recorded, and the tub stands inside.
    CHECK(deck->survey.site.soil == s.site.soil);
    CHECK(deck->survey.site.frost_depth == s.site.frost_depth);
    CHECK(deck->width > s.loads.front().width.value());
    CHECK(deck->length > s.loads.front().length.value());
  }
}

TEST_CASE("a new low deck is priced in full, its pads and all of its timber") {
  const record::Survey s = on_known_ground(demo::demo_deck());
  const auto deck = comparison::low_deck_for(s, *assessment::standard_for(s.standard));
  REQUIRE(deck);
  const Comparison c = compared(s, no_plan("x"));
  const costing::Bill& bill = named(c, "new low deck").bill;
  CHECK(bill.missing_prices.empty());
  CHECK(bill.total.low > 0.0);
  CHECK(bill.total.low < bill.total.likely);
  CHECK(bill.total.likely < bill.total.high);
  CHECK(bill.days_until_filled == 28);
  // No less timber is bought than stands in the joists and the two-ply bearers.
  double bought_m = 0.0;
  for (const costing::Line& line : bill.lines) {
    if (line.quantity.item.starts_with("timber 47 x")) bought_m += line.quantity.amount;
  }
  const double in_place_m = deck->joists * in_metres(deck->joist_length) +
                            2.0 * deck->bearers * in_metres(deck->bearer_length);
  CHECK(bought_m >= in_place_m);
  CHECK(bought_m < 2.0 * in_place_m);
}

TEST_CASE("on peat nothing is offered") {
  record::Survey s = with_small_tub(on_known_ground(demo::demo_deck()));
  s.site.soil = record::Soil::peat;
  const Comparison c = compared(s, no_plan("x"));
  CHECK_FALSE(named(c, "new low deck").possible);
  CHECK_FALSE(named(c, "new low deck").carries);
  CHECK_FALSE(named(c, "new low deck").notes.empty());
  CHECK_FALSE(named(c, "concrete pad on the ground").carries);
  CHECK(c.cheapest.empty());
  CHECK_FALSE(c.tips_the_balance.empty());
}

TEST_CASE("a new low deck is judged beside what stands round it") {
  record::Survey s = with_small_tub(on_known_ground(demo::demo_deck()));
  const auto standard = assessment::standard_for(s.standard);
  // 800 mm behind the tub's side, nearer than the height that the wall retains.
  s.site.retaining_walls.items = {
      {"garden wall", {mm(-500), mm(2800)}, {mm(5000), mm(2800)}, mm(1500)}};
  CHECK_FALSE(comparison::low_deck_for(s, *standard));
  CHECK_FALSE(named(compared(s, no_plan("x")), "new low deck").carries);
  // The same wall far away is in nobody's way.
  s.site.retaining_walls.items.front().from.y = mm(30000);
  s.site.retaining_walls.items.front().to.y = mm(30000);
  CHECK(comparison::low_deck_for(s, *standard));
  s.site.retaining_walls = {};  // nobody looked
  CHECK_FALSE(comparison::low_deck_for(s, *standard));
}

TEST_CASE("a comparison is the same each time") {
  const record::Survey s = on_known_ground(demo::demo_deck());
  const Comparison a = compared(s, planned(700.0)), b = compared(s, planned(700.0));
  CHECK(a.cheapest == b.cheapest);
  CHECK(a.tips_the_balance == b.tips_the_balance);
  REQUIRE(a.options.size() == b.options.size());
  for (std::size_t i = 0; i < a.options.size(); ++i) {
    CHECK(a.options[i].bill.total.likely == b.options[i].bill.total.likely);
    CHECK(a.options[i].notes == b.options[i].notes);
  }
}

}  // namespace comparison_test_file

// How works are told: sentences, order, cutting list.
#include "works/demo_deck.hpp"

#include "works/rules.hpp"
#include "works/touched.hpp"

#include "support/catch.hpp"
#include "support/recorded.hpp"

#include <cctype>

namespace tell_test_file {

using namespace demo;

namespace {

std::string everything(const std::vector<works::BuildStep>& steps) {
  std::string text;
  for (const works::BuildStep& step : steps) {
    text += step.text + "\n";
    for (const std::string& caution : step.cautions) text += "  " + caution + "\n";
  }
  return text;
}

bool says(const std::string& text, const std::string& part) {
  return text.find(part) != std::string::npos;
}

// The place of a step that says so; the number of steps if none does.
std::size_t step_that_says(const std::vector<works::BuildStep>& steps, const std::string& part) {
  for (std::size_t i = 0; i < steps.size(); ++i) {
    if (says(steps[i].text, part)) return i;
  }
  return steps.size();
}

}  // namespace

TEST_CASE("every measure is told with positions by tape from corner A",
          "[works][words][recorded]") {
  std::string metric, american;
  for (const Work& work : one_of_each()) {
    metric += describe(work, demo_deck()) + "\n";
    american += describe(work, american_deck()) + "\n";
  }
  Work w = pad_under_bearer();
  w.pad_width = w.pad_length = inches(18);
  w.pad_thickness = inches(6);
  w.pad_depth = inches(12);
  w.places = {{inches(49.25), inches(12)}};
  american += describe(w, american_deck()) + "\n";
  underprop::test::check_passage("tests/works/tell.expected", "in mm", metric);
  underprop::test::check_passage("tests/works/tell.expected", "in feet and inches", american);
}

TEST_CASE("every measure is told in one sentence that names its pieces", "[works][law]") {
  for (const Work& work : one_of_each()) {
    const std::string text = describe(work, demo_deck());
    INFO(text);
    CHECK(text.ends_with("."));
    CHECK(std::isupper(static_cast<unsigned char>(text.front())));
    CHECK(text.find('\n') == std::string::npos);
    if (work.measure != Measure::sleeper && work.measure != Measure::bearer_on_pads) {
      for (const std::string& piece : work.pieces) CHECK(says(text, piece));
    }
    if (!work.timber.empty() && work.measure != Measure::blocking) CHECK(says(text, work.timber));
  }
}

TEST_CASE("the order of work says the rules of building where they apply", "[works][law]") {
  const auto steps = works::order_of_work(one_of_each(), demo_deck());
  const std::string text = everything(steps);
  for (const char* part :
       {"Drain", "Nobody goes below a deck that is loaded or jacked up", "cables, pipes and drains",
        "45 degrees", "pad width of a pad that carries load", "through the topsoil"}) {
    INFO(part);
    CHECK(says(text, part));
  }
  const std::size_t odd = step_that_says(steps, "pits 1, 3, 5");
  const std::size_t even = step_that_says(steps, "pits 2, 4, 6");
  const std::size_t wait = step_that_says(steps, "for 7 days");
  const std::size_t packing = step_that_says(steps, "Pack every joist and bearer snug");
  const std::size_t fill = step_that_says(steps, "Fill in 3 equal steps");
  const std::size_t repack = step_that_says(steps, "After 30 days");
  CHECK(step_that_says(steps, "Drain") == 0);
  CHECK(step_that_says(steps, "cables, pipes") < odd);
  CHECK(odd < even);
  CHECK(even < wait);
  CHECK(wait < packing);
  CHECK(packing < fill);
  CHECK(fill < repack);
  CHECK(repack < steps.size());
  CHECK(says(everything({steps[even]}), "never open at the same time"));
  CHECK(says(everything({steps[packing]}), "3 mm above the line of its neighbours"));
  CHECK(says(everything({steps[packing]}), "7 days old"));
  CHECK(says(everything({steps[fill]}), "28 days old"));
  CHECK(says(text, "Treat every cut end"));
}

TEST_CASE("what is fixed to what is told: sisters, posts, bearers", "[works][law]") {
  // The figures are those by which the bill counts screws.
  const std::string sisters = everything(works::order_of_work({sister({"J4"})}, demo_deck()));
  CHECK(says(sisters, "in two rows"));
  CHECK(says(sisters, "300 mm apart"));
  const std::string bearer = everything(works::order_of_work(
      {new_bearer(mm(900), mm(3100), {mm(1000), mm(3000)}, mm(800))}, demo_deck()));
  CHECK(says(bearer, "shoe that is fixed to its pad"));
  CHECK(says(bearer, "every joist to what it crosses with 2 screws"));
  CHECK(says(bearer, "Brace posts taller than 600 mm in both directions"));
  const std::string low = everything(works::order_of_work(
      {new_bearer(mm(900), mm(3100), {mm(1000), mm(3000)}, mm(400))}, demo_deck()));
  CHECK_FALSE(says(low, "Brace posts"));
}

TEST_CASE("works without pits say nothing of digging or concrete", "[works][law]") {
  const std::string text = everything(works::order_of_work({pack({"P2"})}, demo_deck()));
  CHECK_FALSE(says(text, "concrete"));
  CHECK_FALSE(says(text, "pit"));
  CHECK(says(text, "Nobody goes below"));
  CHECK(works::order_of_work({}, demo_deck()).empty());
  const auto moved = works::order_of_work({move_load()}, demo_deck());
  CHECK(moved.size() == 3);
  CHECK_FALSE(says(everything(moved), "Pack"));
}

TEST_CASE("boards are lifted where nobody can work from below", "[works][law]") {
  record::Survey low = demo_deck();
  low.deck.height = mm(400);
  CHECK(says(everything(works::order_of_work({pack({"P2"})}, low)), "Lift the boards"));
  CHECK_FALSE(
      says(everything(works::order_of_work({pack({"P2"})}, demo_deck())), "Lift the boards"));
  // 900 mm less 28 mm of board and 145 mm of joist.
  CHECK(works::clear_height(demo_deck()) == mm(727));
}

TEST_CASE("the cutting list holds every piece of new timber once", "[works][law]") {
  const auto cuts = works::cutting_list(one_of_each(), demo_deck());
  const auto find = [&](const std::string& use) {
    int count = 0;
    for (const works::Cut& cut : cuts) {
      if (cut.use == use) count += cut.count;
    }
    return count;
  };
  CHECK(find("bearer") == 2);
  CHECK(find("sleeper") == 2);
  CHECK(find("sister") == 2);
  CHECK(find("joist") == 1);
  CHECK(find("post") == 3);
  CHECK(find("block") == 10);  // eleven joists
  CHECK(find("brace") == 2);
  for (const works::Cut& cut : cuts) {
    if (cut.use == "block") CHECK(cut.length == mm(353));  // 400 - 47
    if (cut.use == "sister") CHECK(cut.length == mm(3000));
    if (cut.use == "bearer") CHECK(cut.section == "47 x 195 C24");
  }
  CHECK(works::cutting_list({pack({"P"}), hangers({"J6"}), move_load()}, demo_deck()).empty());
}

TEST_CASE("what a work touches is counted on the deck as it stands", "[works][law]") {
  const auto touched = works::touched(
      {new_bearer(mm(900), mm(3100), {mm(1000), mm(3000)}), pack({"P"}), hangers({"J6", "J7"})},
      demo_deck());
  REQUIRE(touched.size() == 3);
  CHECK(touched[0].joists.size() == 5);  // at 1200, 1600, 2000, 2400, 2800
  CHECK(touched[0].pads == 2);
  CHECK(touched[1].supports.size() == 3);
  CHECK(touched[2].hangers == 4);
  CHECK(touched[2].nails == 80);
}

TEST_CASE("every rule of building has a reason and a source", "[works][law]") {
  for (const auto standard :
       {record::StandardId::eurocode_uk, record::StandardId::north_america_us}) {
    for (const char* name :
         {"pad/least_width_mm", "pit/slope_from_old_footing_deg", "bag/volume_l"}) {
      const works::BuildingRule& rule = works::building_rule(standard, name);
      CHECK(rule.value > 0.0);
      CHECK_FALSE(rule.reason.empty());
      CHECK_FALSE(rule.source.key.empty());
    }
    CHECK_FALSE(works::stock(standard).lengths.empty());
  }
  CHECK_THROWS_AS(works::building_value(record::StandardId::eurocode_uk, "no/such"),
                  std::logic_error);
}

}  // namespace tell_test_file

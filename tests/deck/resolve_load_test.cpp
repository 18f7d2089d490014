// Loads resolved: footprints, patches, masses. Checks against closed forms.
#include "resolve_example.hpp"

#include "support/catch.hpp"

#include <cmath>
#include <numbers>

namespace underprop::deck {
namespace resolve_load_test_file {
namespace {

using namespace example;

Load load_of(const record::Survey& survey, record::Reading reading = record::Reading::cautious) {
  return resolve(survey, reading).deck.loads.at(0);
}

TEST_CASE("Footprints keep their area and centre when turned", "[survey][closed-form]") {
  record::Survey survey = recorded();
  for (const double turn : {0.0, 30.0, 90.0, -45.0}) {
    survey.loads[0].rotation_deg = turn;
    const Load load = load_of(survey);
    CHECK(signed_area(load.footprint).value() == Approx(3.6e6));
    CHECK(centroid(load.footprint).x.value() == Approx(2000));
    CHECK(centroid(load.footprint).y.value() == Approx(1500));
  }
  survey.loads[0].rotation_deg = 90.0;
  const Interval x = extent(load_of(survey).footprint, Axis::x);
  CHECK((x.high - x.low).value() == Approx(1800));
  survey.loads[0].shape = record::Shape::circle;
  survey.loads[0].diameter = mm(2000);
  CHECK(area(load_of(survey).footprint).value() == Approx(std::numbers::pi * 1e6));
  survey.loads[0].shape = record::Shape::polygon;
  survey.loads[0].rotation_deg = 0.0;
  survey.loads[0].outline = {at(0, 0), at(0, 900), at(900, 0)};  // clockwise
  const Load triangle = load_of(survey);
  CHECK(signed_area(triangle.footprint).value() == Approx(405000));
  CHECK(triangle.centre.x.value() == Approx(2300));
}

TEST_CASE("What a load presses on is exact: circles, round corners, runners of a round tub",
          "[survey][closed-form]") {
  constexpr double pi = std::numbers::pi;
  record::Survey survey = recorded();
  record::HeavyLoad& tub = survey.loads[0];  // 2000 x 1800 mm
  tub.corner_radius = mm(300);
  tub.rotation_deg = 100.0;
  // Each corner lacks (1 - pi/4) r^2.
  const Load round = load_of(survey);
  REQUIRE(round.contact.size() == 1);
  CHECK(whole(round.contact[0]).area.value() == Approx(3.6e6 - (4.0 - pi) * 9e4).epsilon(1e-12));
  CHECK(round.axes_deg == Approx(10.0));
  CHECK(area(round.footprint).value() == Approx(3.6e6 - (4.0 - pi) * 9e4).epsilon(1e-3));

  tub.corner_radius = mm(0);
  tub.shape = record::Shape::circle;
  tub.diameter = mm(2000);
  CHECK(whole(load_of(survey).contact[0]).area.value() == Approx(pi * 1e6).epsilon(1e-12));
  tub.base = record::BaseKind::runners;
  tub.runners = 2;
  tub.runner_width = mm(100);
  tub.runners_along = Axis::x;
  // A slice of the circle between 450 and 550 mm from its middle: the integral of 2 sqrt(R^2 - v^2).
  const auto slice = [](double v) {
    return v * std::sqrt(1e6 - v * v) + 1e6 * std::asin(v / 1000.0);
  };
  const Load two = load_of(survey);
  REQUIRE(two.contact.size() == 2);
  for (const Region& runner : two.contact)
    CHECK(whole(runner).area.value() == Approx(slice(550.0) - slice(450.0)).epsilon(1e-10));
}

TEST_CASE("Runners and feet lie in the footprint and turn with it", "[survey][closed-form]") {
  record::Survey survey = recorded();
  record::HeavyLoad& tub = survey.loads[0];
  tub.base = record::BaseKind::runners;
  tub.runners = 4;
  tub.runner_width = mm(90);
  tub.runners_along = Axis::y;
  tub.rotation_deg = 90.0;
  const Load load = load_of(survey);
  REQUIRE(load.patches.size() == 4);
  Point sum{};
  for (const Polygon& patch : load.patches) {
    CHECK(signed_area(patch).value() == Approx(90.0 * 1800.0));
    CHECK(extent(patch, Axis::x).high - extent(patch, Axis::x).low == mm(1800));
    sum = sum + centroid(patch);
  }
  CHECK(sum.x.value() / 4 == Approx(2000));
  CHECK(sum.y.value() / 4 == Approx(1500));
  // Each in the middle of a quarter of the 2000 mm.
  CHECK(abs(centroid(load.patches[1]).y - centroid(load.patches[0]).y).value() == Approx(500));

  tub.base = record::BaseKind::feet;
  tub.foot_size = mm(80);
  tub.feet = {at(-900, -800), at(900, 800), at(900, -800)};
  const Load feet = load_of(survey);
  REQUIRE(feet.patches.size() == 3);
  CHECK(area(feet.patches[0]).value() == Approx(6400));
  CHECK(centroid(feet.patches[1]).x.value() == Approx(2000 - 800));
  CHECK(centroid(feet.patches[1]).y.value() == Approx(1500 + 900));
}

TEST_CASE("A base nobody has seen is two runners along the joists", "[survey][law]") {
  record::Survey survey = recorded();
  survey.loads[0].base = {};
  for (const double turn : {0.0, 90.0, 180.0}) {
    survey.loads[0].rotation_deg = turn;
    const Load load = load_of(survey);
    CHECK(load.base == record::BaseKind::runners);
    REQUIRE(load.patches.size() == 2);
    const Interval x = extent(load.patches[0], Axis::x), y = extent(load.patches[0], Axis::y);
    CHECK(y.high - y.low > x.high - x.low);  // the joists run along y
    CHECK(load_of(survey, record::Reading::likely).patches.empty());
  }
}

TEST_CASE("Water weighs one kilogram a litre; unknown amounts follow the largest footprint",
          "[survey][closed-form]") {
  record::Survey survey = recorded();
  record::HeavyLoad& tub = survey.loads[0];
  CHECK(load_of(survey).contents.value() == Approx(1100));
  CHECK(load_of(survey).dry_mass.value() == Approx(300));
  tub.contents = {};
  Load load = load_of(survey);
  CHECK(load.contents.value() == Approx(2.0 * 1.8 * 0.9 * 1000));
  CHECK_FALSE(load.contents_recorded);
  CHECK(load.mass_recorded);
  CHECK(load_of(survey, record::Reading::likely).contents.value() == Approx(0.75 * 3240));
  tub.water_depth = mm(500);
  CHECK(load_of(survey).contents.value() == Approx(1800));
  tub.dry_mass = {};
  load = load_of(survey);
  CHECK(load.dry_mass.value() == Approx(0.4 * 1800));
  CHECK_FALSE(load.mass_recorded);
  tub.width = {};  // 2.3 m at most
  CHECK(load_of(survey).contents.value() == Approx(2.3 * 1.8 * 0.5 * 1000));
  CHECK(extent(load_of(survey).footprint, Axis::x).high == mm(2750));
  tub.people = {};
  CHECK(load_of(survey).people == 8);  // 4.14 m2 / 0.55 m2 = 7.5
}

TEST_CASE("Things without water: mass by footprint, contents only where they have any",
          "[survey][closed-form]") {
  record::Survey survey = recorded();
  record::HeavyLoad& oven = survey.loads[0];
  oven.kind = record::LoadKind::oven;
  oven.contents = {};
  oven.people = {};
  oven.dry_mass = {};
  Load load = load_of(survey);
  CHECK(load.contents.value() == 0.0);
  CHECK(load.contents_recorded);
  CHECK(load.people == 0);
  CHECK(load.dry_mass.value() == Approx(1250 * 3.6));
  oven.kind = record::LoadKind::other;
  CHECK(load_of(survey).dry_mass.value() == Approx(800 * 3.6));
  oven.kind = record::LoadKind::planter;
  oven.dry_mass = kilograms(100);
  load = load_of(survey);
  CHECK(load.contents.value() == Approx(960 * 3.6));
  CHECK_FALSE(load.contents_recorded);
  oven.contents_mass = kilograms(900);
  load = load_of(survey);
  CHECK(load.contents.value() == Approx(900));
  CHECK(load.contents_recorded);
}

// Wet sand and gravel 120 lb/ft3 = 1922 kg/m3: ASCE 7 Table C3.1-2, from memory.
TEST_CASE("Soil in a planter counts with the density of wet soil, not of water",
          "[survey][closed-form]") {
  record::Survey survey = recorded();
  record::HeavyLoad& planter = survey.loads[0];
  planter.kind = record::LoadKind::planter;
  planter.people = {};
  planter.water_depth = {};
  planter.dry_mass = kilograms(50);
  planter.contents = litres(500);
  planter.contents_mass = {};
  const auto mass = [&](record::Reading reading) {
    return resolve(survey, reading).deck.loads.at(0).contents.value();
  };
  CHECK(mass(record::Reading::cautious) == Approx(960.0));
  CHECK(mass(record::Reading::likely) == Approx(880.0));
  CHECK(mass(record::Reading::favourable) == Approx(625.0));
  CHECK(resolve(survey, record::Reading::cautious).deck.loads.at(0).contents_recorded);
  // By its depth over the whole plan of 3.6 m2.
  planter.contents = {};
  planter.water_depth = mm(250);
  CHECK(mass(record::Reading::cautious) == Approx(1.92 * 3.6 * 250));
  // A mass that was weighed counts, whatever the litres say.
  planter.contents = litres(500);
  planter.contents_mass = kilograms(700);
  CHECK(mass(record::Reading::cautious) == Approx(700.0));
  CHECK(mass(record::Reading::favourable) == Approx(700.0));
}

TEST_CASE("Every kind of thing has a mass that goes up from favourable to cautious, said in words",
          "[survey][law]") {
  for (const record::LoadKind kind :
       {record::LoadKind::tub, record::LoadKind::plunge_pool, record::LoadKind::water_tank,
        record::LoadKind::planter, record::LoadKind::oven, record::LoadKind::stove,
        record::LoadKind::sauna, record::LoadKind::store, record::LoadKind::outdoor_kitchen,
        record::LoadKind::piano, record::LoadKind::statue, record::LoadKind::other}) {
    INFO(static_cast<int>(kind));
    record::Survey survey = recorded();
    record::HeavyLoad& load = survey.loads[0];
    load.kind = kind;
    load.dry_mass = load.contents_mass = {};
    load.contents = {};
    load.people = {};
    load.base = {};
    const auto all = [&](record::Reading reading) {
      const Load resolved = resolve(survey, reading).deck.loads.at(0);
      return resolved.dry_mass.value() + resolved.contents.value();
    };
    CHECK(all(record::Reading::cautious) > all(record::Reading::likely));
    CHECK(all(record::Reading::likely) > all(record::Reading::favourable));
    CHECK(all(record::Reading::favourable) > 0.0);
    bool mass_open = false;
    for (const OpenFact& fact : resolve(survey, record::Reading::cautious).open) {
      if (fact.field == "/loads/0/dry_mass") mass_open = fact.must_see && !fact.find_out.empty();
    }
    CHECK(mass_open);
  }
}

TEST_CASE("A piano stands on castors, a tub of unknown base on runners", "[survey][law]") {
  record::Survey survey = recorded();
  survey.loads[0].base = {};
  CHECK(resolve(survey, record::Reading::cautious).deck.loads.at(0).base ==
        record::BaseKind::runners);
  survey.loads[0].kind = record::LoadKind::piano;
  const Load piano = resolve(survey, record::Reading::favourable).deck.loads.at(0);
  CHECK(piano.base == record::BaseKind::feet);
  CHECK(piano.patches.size() == 4);
}

}  // namespace

}  // namespace resolve_load_test_file
}  // namespace underprop::deck

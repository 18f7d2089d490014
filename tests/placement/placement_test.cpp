// Where a load can stand: the map is the assessment, asked many times.
#include "underprop/placement/placement.hpp"

#include "support/catch.hpp"
#include "support/decks.hpp"
#include "underprop/base/geometry.hpp"
#include "underprop/deck/read.hpp"

#include <algorithm>
#include <cmath>

namespace placement_test_file {

using namespace underprop;
using test::Json;

namespace {

record::Survey read(const Json& json) { return deck::read_survey(json.dump(), "test").survey; }

}  // namespace

TEST_CASE("A place that is shown as passing passes the whole assessment, and a failing one fails",
          "[placement][law]") {
  // 3 rows of pads carry at some places, 2 rows nowhere; 30: 3 rows, and boards that may be jointed.
  for (const int which : {3, 2, 30}) {
    const int rows = which == 30 ? 3 : which;
    test::Json json = test::platform(rows);
    if (which == 30) json["deck"]["boards"]["joints"] = "staggered";
    INFO("rows " << which);
    const record::Survey survey = read(json);
    const auto standard = assessment::standard_for(survey.standard);
    placement::Wishes wishes;
    wishes.step = mm(600.0);
    wishes.capacity = false;
    const placement::Placement placement = placement::place(survey, *standard, wishes);
    REQUIRE(placement.spots.size() >= 6);
    const deck::Deck deck = deck::resolve(survey, record::Reading::cautious).deck;
    std::size_t k = 0;
    for (const placement::Spot& spot : placement.spots) {
      if (k++ % 4 != 0) continue;
      record::Survey there = survey;
      there.loads.front().rotation_deg = spot.rotation_deg;
      const Point centre = deck::resolve(there, record::Reading::cautious).deck.loads[0].centre;
      there.loads.front().at = there.loads.front().at + (spot.centre - centre);
      const assessment::DeckAssessment fresh =
          assessment::assess_deck(deck::resolve(there, record::Reading::cautious).deck, *standard);
      INFO(spot.centre.x.value() << " " << spot.centre.y.value() << " " << spot.rotation_deg);
      const bool safe = !fresh.mechanism && fresh.safety <= 1.0 && fresh.refer_reasons.empty();
      CHECK(safe == (!spot.at_least && spot.utilisation <= 1.0 && !spot.refers));
      if (!spot.at_least) CHECK(spot.utilisation == Approx(fresh.safety).epsilon(1e-6));
      // A failing place is done with at its first failing check: it is no worse than the truth.
      if (spot.at_least) CHECK(spot.utilisation <= fresh.safety * (1.0 + 1e-6));
    }
  }
}

TEST_CASE("No place reaches over an edge, into an obstacle or its service gap",
          "[placement][law]") {
  Json json = test::platform(5);
  json["deck"]["obstacles"] =
      Json::array({{{"name", "post of the pergola"},
                    {"outline", Json::array({Json::array({"2700 mm", "1300 mm"}),
                                             Json::array({"2800 mm", "1300 mm"}),
                                             Json::array({"2800 mm", "1400 mm"}),
                                             Json::array({"2700 mm", "1400 mm"})})}}});
  json["loads"][0]["service_gap"] = "200 mm";
  const record::Survey survey = read(json);
  const auto standard = assessment::standard_for(survey.standard);
  placement::Wishes wishes;
  wishes.step = mm(400.0);
  wishes.capacity = false;
  const placement::Placement placement = placement::place(survey, *standard, wishes);
  const deck::Deck deck = deck::resolve(survey, record::Reading::cautious).deck;
  REQUIRE(deck.obstacles.size() == 1);
  const deck::Load& load = deck.loads.front();
  for (const placement::Spot& spot : placement.spots) {
    if (spot.rotation_deg != survey.loads.front().rotation_deg) continue;
    const deck::Load there = placement::moved(load, spot.centre - load.centre);
    CHECK(distance(there.footprint, deck.obstacles[0].outline) >= mm(200.0));
    for (const Point p : there.footprint) CHECK(contains(deck.outline, p));
  }
}

TEST_CASE("A load does not fit over a corner that is cut out of the deck", "[placement][law]") {
  deck::Deck deck;
  deck.outline = {{mm(0), mm(0)},       {mm(4000), mm(0)},    {mm(4000), mm(3000)},
                  {mm(2100), mm(3000)}, {mm(2100), mm(1500)}, {mm(1900), mm(1500)},
                  {mm(1900), mm(3000)}, {mm(0), mm(3000)}};
  deck::Load load;
  const auto square = [](double x, double y) {
    return std::vector<Point>{{mm(x - 500), mm(y - 500)},
                              {mm(x + 500), mm(y - 500)},
                              {mm(x + 500), mm(y + 500)},
                              {mm(x - 500), mm(y + 500)}};
  };
  load.footprint = square(2000, 900);
  CHECK(placement::fits(deck, load, {}));
  // Its corners stand on the deck on both sides of the slot, its middle does not.
  load.footprint = square(2000, 2200);
  CHECK_FALSE(placement::fits(deck, load, {}));
  load.footprint = square(3600, 900);
  CHECK_FALSE(placement::fits(deck, load, {}));
}

// Boards end 50 mm beyond the middle of the outer joists, not 150 mm. A person of 1.4 kN, 2.1 kN by
// design, at a free end of a board of 120 x 28 mm C16 (0.7 x 1.3 x 16 / 1.3 = 11.2 MPa on 15 680 mm3,
// 0.1756 kNm): 2.1 x 0.15 = 0.315 kNm uses 1.79, which fails wherever the load comes near, and
// 2.1 x 0.05 = 0.105 kNm uses 0.60; shear then decides, 2.1 / 2.59 kN = 0.81, as on every board.
void shorten_board_ends(Json& json, const std::string& from, const std::string& to) {
  json["deck"]["outline"] =
      Json::array({{from, "0 m"}, {to, "0 m"}, {to, "3.3 m"}, {from, "3.3 m"}});
}

TEST_CASE("The capacity found passes, and a little more does not", "[placement][law]") {
  // Six joists: few places to look at. It carries the lesser filling and some more people, of the other
  // a part.
  Json json = test::platform(3);
  shorten_board_ends(json, "0.1 m", "1.725 m");
  json["deck"]["joists"][0]["count"] = 6;
  json["loads"][0]["width"] = "1.2 m";
  json["loads"][0]["at"] = {"912 mm", "1.65 m"};
  json["loads"][0]["people"] = 2;
  for (const char* contents : {"900 l", "1500 l"}) {
    INFO(contents);
    json["loads"][0]["contents"] = contents;
    const record::Survey survey = read(json);
    const auto standard = assessment::standard_for(survey.standard);
    placement::Wishes wishes;
    wishes.step = mm(2000.0);
    const placement::Placement placement = placement::place(survey, *standard, wishes);
    const placement::Capacity& c = placement.capacity;
    const deck::Deck recorded = deck::resolve(survey, record::Reading::cautious).deck;
    const auto safety = [&](double litres, int people) {
      deck::Deck deck = recorded;
      deck.loads[0].contents = kilograms(litres);
      deck.loads[0].people = people;
      const auto d = assessment::assess_deck(deck, *standard);
      return d.mechanism ? 99.0 : d.safety;
    };
    const int people = recorded.loads[0].people;
    const double full = recorded.loads[0].contents.value();
    REQUIRE(c.water_full.has_value());
    CHECK(*c.water_full == (full < 1000.0));
    if (*c.water_full) {
      CHECK(safety(full, people) <= 1.0);
    } else {
      REQUIRE(c.water_l.has_value());
      CHECK(safety(*c.water_l, people) <= 1.0);
      CHECK(safety(*c.water_l + 6.0, people) > 1.0);
    }
    if (c.people) {
      CHECK(safety(full, *c.people) <= 1.0);
      if (!c.people_limited_by.empty()) CHECK(safety(full, *c.people + 1) > 1.0);
    } else {
      CHECK(safety(full, 0) > 1.0);
    }
  }
}

TEST_CASE("A joist out of level refers where the load stands over it, and only there",
          "[placement][law]") {
  Json json = test::platform(5);
  shorten_board_ends(json, "0.1 m", "3.25 m");
  json["deck"]["condition"] =
      Json::array({{{"defect", "out of level"}, {"piece", "J2"}, {"size", "8 mm"}}});
  json["loads"][0]["width"] = json["loads"][0]["length"] = "0.9 m";
  json["loads"][0]["contents"] = "200 l";
  json["loads"][0]["at"] = Json::array({"2.2 m", "1.65 m"});
  const record::Survey survey = read(json);
  const auto standard = assessment::standard_for(survey.standard);
  placement::Wishes wishes;
  wishes.step = mm(600.0);
  wishes.capacity = false;
  const placement::Placement placement = placement::place(survey, *standard, wishes);
  std::size_t over = 0, beside = 0;
  for (const placement::Spot& spot : placement.spots) {
    if (spot.at_least) continue;
    const double x = spot.centre.x.value();
    const bool on_it = x - 450.0 < 455.0 && x + 450.0 > 455.0;  // J2 stands at 455 mm
    (on_it ? over : beside) += 1;
    CHECK(spot.refers == on_it);
    if (on_it) CHECK_FALSE(spot.passes);
  }
  CHECK(over > 0);
  CHECK(beside > 0);
}

TEST_CASE("A place refers where a whole assessment refers, before anything else is looked at",
          "[placement][law]") {
  Json json = test::platform(5);
  shorten_board_ends(json, "0.1 m", "3.25 m");
  json["site"]["retaining_walls"] = Json::array({{{"name", "garden wall"},
                                                  {"from", {"-1 m", "-0.4 m"}},
                                                  {"to", {"5 m", "-0.4 m"}},
                                                  {"height", "600 mm"}}});
  json["loads"][0]["width"] = json["loads"][0]["length"] = "0.9 m";
  json["loads"][0]["contents"] = "200 l";
  const record::Survey survey = read(json);
  const auto standard = assessment::standard_for(survey.standard);
  placement::Wishes wishes;
  wishes.step = mm(600.0);
  wishes.capacity = false;
  const placement::Placement placement = placement::place(survey, *standard, wishes);
  std::size_t near = 0, clear = 0, number = 0;
  for (const placement::Spot& spot : placement.spots) {
    if (number++ % 3 != 0) continue;
    record::Survey there = survey;
    there.loads.front().at =
        there.loads.front().at +
        (spot.centre - deck::resolve(survey, record::Reading::cautious).deck.loads[0].centre);
    const assessment::DeckAssessment fresh =
        assessment::assess_deck(deck::resolve(there, record::Reading::cautious).deck, *standard);
    INFO(spot.centre.x.value() << " " << spot.centre.y.value());
    CHECK(spot.refers == !fresh.refer_reasons.empty());
    (spot.refers ? near : clear) += 1;
    if (spot.refers) {
      CHECK(spot.why == fresh.refer_reasons.front());
      CHECK_FALSE(spot.passes);
    }
  }
  CHECK(near > 0);
  CHECK(clear > 0);
  CHECK_FALSE((placement.best && placement.best->refers));
}

TEST_CASE("A map is the same however its places are shared out, and stops when told",
          "[placement][law]") {
  const record::Survey survey = test::read(test::platform(2));
  const auto standard = assessment::standard_for(survey.standard);
  placement::Wishes wishes;
  wishes.capacity = false;
  wishes.step = mm(60.0);
  const placement::Placement a = placement::place(survey, *standard, wishes);
  const placement::Placement b = placement::place(survey, *standard, wishes);
  REQUIRE(a.spots.size() > 128);  // more than one strip
  REQUIRE(a.spots.size() == b.spots.size());
  for (std::size_t k = 0; k < a.spots.size(); ++k) {
    INFO(k);
    CHECK(a.spots[k].utilisation == b.spots[k].utilisation);  // to the last bit
    CHECK(a.spots[k].service == b.spots[k].service);
    CHECK(a.spots[k].centre.x == b.spots[k].centre.x);
    CHECK(a.spots[k].centre.y == b.spots[k].centre.y);
  }
  const placement::Placement stopped =
      placement::place(survey, *standard, wishes, [](double) { return false; });
  CHECK(stopped.spots.size() >= 50);
  CHECK(stopped.spots.size() < a.spots.size());
  std::size_t same = 0;
  for (const placement::Spot& s : stopped.spots) {
    same += std::any_of(a.spots.begin(), a.spots.end(), [&](const placement::Spot& known) {
      return known.centre.x == s.centre.x && known.centre.y == s.centre.y &&
             known.rotation_deg == s.rotation_deg &&
             // The least overloaded of those looked at are looked at in full, whichever they are.
             (!known.at_least || !s.at_least || known.utilisation == s.utilisation);
    });
  }
  CHECK(same == stopped.spots.size());
}

}  // namespace placement_test_file

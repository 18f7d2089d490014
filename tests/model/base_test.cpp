// The base of a load on the frame: totals and moments, a mesh that stays, and the rigid base.
#include "model/grillage.hpp"

#include "support/catch.hpp"
#include "support/decks.hpp"
#include "underprop/solver/analysis.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>

namespace underprop {
namespace base_test_file {
namespace {

using model::CaseKind;
using test::Json;

/// Timber of one kind, firm ground; only what a frame needs to stand.
model::Properties properties(const deck::Deck& deck) {
  const model::Stiff timber{8000.0, 500.0, 270.0};
  model::Properties p;
  p.joists.assign(deck.joists.size(), timber);
  p.sisters.resize(deck.joists.size());
  p.bearers.assign(deck.bearers.size(), timber);
  p.ledgers.assign(deck.ledgers.size(), timber);
  p.boards = timber;
  p.supports.assign(deck.supports.size(), 5000.0);
  p.walls.assign(deck.walls.size(), 20.0);
  p.joist_ends.assign(deck.joists.size(), {model::EndJoint{4000.0}, model::EndJoint{4000.0}});
  p.ledger_fixings.assign(deck.ledgers.size(), 8000.0);
  p.hold_down.assign(deck.bearers.size(), 0.0);
  p.shell_contact = 20000.0;
  p.wet_density = 550e-9;
  p.board_density = 550e-9;
  return p;
}

model::Model built(const Json& json, const model::Bounds& bounds) {
  const deck::Deck deck = deck::resolve(test::read(json), record::Reading::cautious).deck;
  model::Model model = model::build(deck, properties(deck), bounds);
  INFO(model.not_modelled);
  REQUIRE(model.not_modelled.empty());
  REQUIRE_FALSE(model.loose.has_value());
  return model;
}

/// With its joists along x and its boards along y: the deck mirrored across its diagonal.
Json lying(Json json) {
  Json& deck = json["deck"];
  for (Json& corner : deck["outline"]) std::swap(corner[0], corner[1]);
  deck["boards"]["direction"] = "y";
  for (Json& joists : deck["joists"]) joists["direction"] = "x";
  for (Json& load : json["loads"]) std::swap(load["at"][0], load["at"][1]);
  return json;
}

Json with_load(const Json& load) {
  Json json = test::platform(5);
  for (const auto& [key, value] : load.items()) json["loads"][0][key] = value;
  for (const char* key : {"width", "length"}) {
    if (load.contains("shape") && load["shape"] != "rectangle") json["loads"][0].erase(key);
  }
  return json;
}

/// Force down, and where it acts.
struct Resultant {
  double force = 0.0, x = 0.0, y = 0.0;
};

Resultant resultant(const solver::Frame& frame, const solver::LoadCase& load_case) {
  double F = 0.0, Mx = 0.0, My = 0.0;
  const auto force = [&](double Fz, double x, double y) {
    F += Fz;
    Mx += y * Fz;
    My -= x * Fz;
  };
  const auto on_member = [&](int index, double P, double a) {
    const solver::Member& member = frame.members[static_cast<std::size_t>(index)];
    const solver::Node& i = frame.nodes[static_cast<std::size_t>(member.i)];
    const solver::Node& j = frame.nodes[static_cast<std::size_t>(member.j)];
    const double f = a / std::hypot(j.x - i.x, j.y - i.y);
    force(P, i.x + f * (j.x - i.x), i.y + f * (j.y - i.y));
  };
  for (const solver::NodalLoad& load : load_case.nodal) {
    if (load.plate >= 0) {
      const solver::Plate& plate = frame.plates[static_cast<std::size_t>(load.plate)];
      force(load.Fz, plate.x, plate.y);
    } else {
      const solver::Node& node = frame.nodes[static_cast<std::size_t>(load.node)];
      force(load.Fz, node.x, node.y);
    }
    Mx += load.Mx;
    My += load.My;
  }
  for (const solver::LineLoad& load : load_case.line) {
    const double length = load.b - load.a;
    on_member(load.member, 0.5 * load.q1 * length, load.a + length / 3.0);
    on_member(load.member, 0.5 * load.q2 * length, load.a + length * 2.0 / 3.0);
  }
  for (const solver::PointLoad& load : load_case.point) on_member(load.member, load.P, load.a);
  return {-F, -My / F, Mx / F};
}

/// Where the load's cases must act, in its own axes about its middle: towards +x (half) and towards
/// +x and +y (quarter); the other sides by symmetry.
struct Expected {
  double half_x, half_y, quarter_x, quarter_y;
};

void check_cases(const Json& json, double x, double y, double axes_deg, const Expected& expected) {
  const double c = std::cos(axes_deg * std::numbers::pi / 180.0);
  const double s = std::sin(axes_deg * std::numbers::pi / 180.0);
  for (const bool lie : {false, true}) {
    for (const bool stiff : {false, true}) {
      model::Bounds bounds;
      bounds.stiff_shell = stiff;
      const model::Model m = built(lie ? lying(json) : json, bounds);
      INFO((lie ? "joists along x" : "joists along y") << (stiff ? ", stiff" : ", soft"));
      int seen = 0;
      for (std::size_t k = 0; k < m.cases.size(); ++k) {
        const model::CaseInfo& info = m.infos[k];
        double u = 0.0, v = 0.0;
        if (info.kind == CaseKind::half) {
          u = info.part == 0 ? -expected.half_x : info.part == 1 ? expected.half_x : 0.0;
          v = info.part == 2 ? -expected.half_y : info.part == 3 ? expected.half_y : 0.0;
        } else if (info.kind == CaseKind::quarter) {
          u = (info.part == 1 || info.part == 2 ? 1.0 : -1.0) * expected.quarter_x;
          v = (info.part >= 2 ? 1.0 : -1.0) * expected.quarter_y;
        } else if (info.kind != CaseKind::whole) {
          continue;
        }
        ++seen;
        const Resultant r = resultant(m.frame, m.cases[k]);
        INFO(m.cases[k].id);
        CHECK(r.force == Approx(1.0).epsilon(1e-9));
        const double middle_x = lie ? y : x, middle_y = lie ? x : y;
        CHECK(std::abs(r.x - (middle_x + c * u - s * v)) < 1e-9 * 3000.0);
        CHECK(std::abs(r.y - (middle_y + s * u + c * v)) < 1e-9 * 3000.0);
      }
      CHECK(seen == 9);
    }
  }
}

TEST_CASE("A round tub's cases have the total and both moments of the circle",
          "[model][closed-form]") {
  // A half disc has its centroid 4R/3pi from the middle, a quarter disc along both axes.
  const double off = 4.0 * 950.0 / (3.0 * std::numbers::pi);
  for (const auto& [x, y] : {std::pair(1675.0, 1650.0), std::pair(1371.3, 1893.7)}) {
    const Json json = with_load({{"shape", "circle"},
                                 {"diameter", "1900 mm"},
                                 {"people", 4},
                                 {"at", {fmt::format("{} mm", x), fmt::format("{} mm", y)}}});
    check_cases(json, x, y, 0.0, {off, off, off, off});
  }
}

TEST_CASE("A turned tub with round corners is cut along its own axes", "[model][closed-form]") {
  const double a = 950.0, b = 700.0, r = 210.0;
  // Outside a corner a spandrel of (1 - pi/4) r^2, its centroid (10 - 3pi)/3(4 - pi) r from the sides
  // (J. M. Gere and B. J. Goodno, Mechanics of Materials, 8th ed. 2013, appendix E).
  const double pi = std::numbers::pi;
  const double spandrel = (1.0 - pi / 4.0) * r * r;
  const double in = (10.0 - 3.0 * pi) / (3.0 * (4.0 - pi)) * r;
  const double quarter = a * b - spandrel;
  const double x = (a * b * a / 2 - spandrel * (a - in)) / quarter;
  const double y = (a * b * b / 2 - spandrel * (b - in)) / quarter;
  for (const double turn : {0.0, 23.0, -38.5}) {
    const Json json = with_load({{"width", "1900 mm"},
                                 {"length", "1400 mm"},
                                 {"corner_radius", "210 mm"},
                                 {"rotation_deg", turn},
                                 {"people", 5},
                                 {"at", {"1702 mm", "1611 mm"}}});
    check_cases(json, 1702.0, 1611.0, turn, {x, y, x, y});
  }
}

TEST_CASE("Runners and feet keep total and moments, wherever they land", "[model][closed-form]") {
  // A runner's half and a foot are rectangles: their centroids are those of the parts by hand.
  const Json runners = with_load({{"width", "1800 mm"},
                                  {"length", "1600 mm"},
                                  {"base", "runners"},
                                  {"runners", 3},
                                  {"runner_width", "70 mm"},
                                  {"runners_along", "x"},
                                  {"people", 4},
                                  {"rotation_deg", 11.0},
                                  {"at", {"1655 mm", "1707 mm"}}});
  // In three thirds of 1600 mm: at -533.3, 0, +533.3. A half along x is half of each; the half towards
  // +y is one runner and half the width of the middle one.
  const double third = 1600.0 / 3.0;
  const double half_y = (70.0 * third + 35.0 * 17.5) / 105.0;
  check_cases(runners, 1655.0, 1707.0, 11.0, {450.0, half_y, 450.0, half_y});
  const Json feet = with_load({{"base", "feet"},
                               {"feet", Json::array({{"-700 mm", "-600 mm"},
                                                     {"700 mm", "-600 mm"},
                                                     {"700 mm", "600 mm"},
                                                     {"-700 mm", "600 mm"}})},
                               {"foot_size", "60 mm"},
                               {"people", 4},
                               {"rotation_deg", -7.0},
                               {"at", {"1655 mm", "1707 mm"}}});
  check_cases(feet, 1655.0, 1707.0, -7.0, {700.0, 600.0, 700.0, 600.0});
}

TEST_CASE("A base at a slanted edge of the deck keeps its total and moments",
          "[model][closed-form]") {
  Json json = with_load(
      {{"shape", "polygon"},
       {"outline", Json::array({{"0 mm", "0 mm"}, {"900 mm", "0 mm"}, {"0 mm", "900 mm"}})},
       {"at", {"2200 mm", "2150 mm"}}});
  json["deck"]["outline"] = Json::array({{"0 m", "0 m"},
                                         {"3.35 m", "0 m"},
                                         {"3.35 m", "2000 mm"},
                                         {"2050 mm", "3.3 m"},
                                         {"0 m", "3.3 m"}});
  json["deck"].erase("rims");
  const deck::Deck deck = deck::resolve(test::read(json), record::Reading::cautious).deck;
  const model::Model m = model::build(deck, properties(deck), {});
  INFO(m.not_modelled);
  INFO(m.loose.value_or(""));
  REQUIRE(m.cases.size() > 1);
  REQUIRE(m.infos[1].kind == CaseKind::whole);
  const Resultant r = resultant(m.frame, m.cases[1]);
  CHECK(r.force == Approx(1.0).epsilon(1e-9));
  CHECK(r.x == Approx(2200.0 + 300.0).epsilon(1e-9));
  CHECK(r.y == Approx(2150.0 + 300.0).epsilon(1e-9));
}

TEST_CASE("Nodes and members do not follow the load", "[model][law]") {
  for (const bool stiff : {false, true}) {
    model::Bounds bounds;
    bounds.stiff_shell = stiff;
    const model::Model here = built(with_load({{"at", {"1675 mm", "1650 mm"}}}), bounds);
    const model::Model there =
        built(with_load({{"at", {"1402 mm", "1838 mm"}}, {"rotation_deg", 12.0}}), bounds);
    REQUIRE(here.frame.nodes.size() == there.frame.nodes.size());
    REQUIRE(here.frame.members.size() == there.frame.members.size());
    CHECK(here.frame.links.size() == there.frame.links.size());
    for (std::size_t k = 0; k < here.frame.nodes.size(); ++k) {
      CHECK(here.frame.nodes[k].x == there.frame.nodes[k].x);
      CHECK(here.frame.nodes[k].y == there.frame.nodes[k].y);
    }
    for (std::size_t k = 0; k < here.frame.members.size(); ++k)
      CHECK(here.frame.members[k].j == there.frame.members[k].j);
  }
}

TEST_CASE("A rigid base meets every board at each joist and between two joists: twice in every bay",
          "[model][law]") {
  model::Bounds bounds;
  bounds.stiff_shell = true;
  const Json json = with_load({{"shape", "circle"}, {"diameter", "1900 mm"}});
  const deck::Deck deck = deck::resolve(test::read(json), record::Reading::cautious).deck;
  const model::Model m = built(json, bounds);
  REQUIRE(m.frame.plates.size() == 1);
  const Point middle = deck.loads[0].centre;
  std::size_t inside = 0, bays = 0;
  for (const model::Line& board : m.boards) {
    const double y = m.frame.nodes[static_cast<std::size_t>(board.nodes.front())].y;
    const double from_middle = std::abs(y - middle.y.value());
    if (from_middle >= 950.0) continue;
    const double half = std::sqrt(950.0 * 950.0 - from_middle * from_middle);
    std::vector<double> met;
    for (const solver::PlateContact& contact : m.frame.plates[0].contacts) {
      const solver::Node& node = m.frame.nodes[static_cast<std::size_t>(contact.node)];
      if (std::abs(node.y - y) < 1.0) met.push_back(node.x);
      CHECK(std::hypot(node.x - middle.x.value(), node.y - middle.y.value()) < 950.0 + 1e-6);
    }
    inside += met.size();
    // Joists stand at 150 + 305 k.
    for (double x = 150.0; x < 3200.0 - 1.0; x += 305.0) {
      if (x < middle.x.value() - half || x + 305.0 > middle.x.value() + half) continue;
      ++bays;
      CHECK(std::count_if(met.begin(), met.end(),
                          [&](double at) { return at > x - 1.0 && at < x + 304.0; }) >= 2);
    }
  }
  CHECK(inside == m.frame.plates[0].contacts.size());
  CHECK(bays > 40);
}

/// What governs under the stiff shell: largest joist moment, N mm, and reaction, N.
struct Governing {
  double moment = 0.0, reaction = 0.0;
  std::size_t nodes = 0, contacts = 0;
};

Governing governing(const Json& json, int between) {
  model::Bounds bounds;
  bounds.stiff_shell = true;
  bounds.contacts_between_joists = between;
  const model::Model m = built(json, bounds);
  const solver::Analysis analysis(m.frame, m.cases);
  Governing most;
  most.nodes = m.frame.nodes.size();
  most.contacts = m.frame.plates[0].contacts.size();
  std::vector<int> members;
  for (const model::Line& joist : m.joists)
    members.insert(members.end(), joist.members.begin(), joist.members.end());
  for (std::size_t k = 0; k < m.cases.size(); ++k) {
    if (m.infos[k].kind != CaseKind::quarter && m.infos[k].kind != CaseKind::whole) continue;
    // Full, and with people in a corner: self-weight, 15 kN of tub and water, 4 kN of people.
    std::vector<solver::CaseFactor> factors{{0, 1.0}, {1, 15000.0}};
    REQUIRE(m.infos[1].kind == CaseKind::whole);
    if (m.infos[k].kind == CaseKind::quarter) factors.push_back({static_cast<int>(k), 4000.0});
    const solver::Response response = analysis.solve(factors);
    REQUIRE_FALSE(response.mechanism.has_value());
    for (const solver::MemberForces& f : analysis.member_forces(response, factors, members))
      most.moment = std::max(most.moment, f.Mmax);
    for (const double reaction : response.supports)
      most.reaction = std::max(most.reaction, reaction);
  }
  return most;
}

TEST_CASE("Contacts between joists are enough for a rigid base, and on the safe side",
          "[model][law]") {
  // Against eight: at the joists alone the edge of the base is found too coarsely.
  const Json decks[] = {
      with_load({{"at", {"1500 mm", "1502 mm"}}, {"people", 4}}),
      with_load({{"shape", "circle"},
                 {"diameter", "1900 mm"},
                 {"at", {"1611 mm", "1577 mm"}},
                 {"people", 4}}),
  };
  for (const Json& json : decks) {
    const Governing fine = governing(json, 8);
    const int chosen = model::Bounds{}.contacts_between_joists;
    for (const int between : {0, 1, 2, 4}) {
      const Governing g = governing(json, between);
      const double moment = g.moment / fine.moment - 1.0;
      const double reaction = g.reaction / fine.reaction - 1.0;
      const std::string told = fmt::format(
          "{} between joists: {} nodes, {} contacts, moment {:+.3f} %, reaction {:+.3f} % of 8",
          between, g.nodes, g.contacts, 100.0 * moment, 100.0 * reaction);
      INFO(told);
      if (between == 0) CHECK(reaction > 0.10);
      if (between < chosen) continue;
      CHECK(moment > -0.01);
      CHECK(moment < (between == 1 ? 0.11 : 0.03));
      CHECK(reaction > -0.01);
      CHECK(reaction < (between == 1 ? 0.13 : 0.06));
    }
  }
}

}  // namespace

}  // namespace base_test_file
}  // namespace underprop

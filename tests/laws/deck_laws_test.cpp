// Laws that every deck must obey whatever its numbers.
#include "support/catch.hpp"
#include "support/decks.hpp"
#include "underprop/assessment/assessment.hpp"
#include "underprop/assessment/exported.hpp"
#include "underprop/report/report.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>

namespace deck_laws_test_file {

using namespace underprop;
using assessment::Assessment;
using standards::Combination;

namespace {

using test::assess;
using test::read;

/// Off centre, so that a mirror image is another deck.
test::Json lopsided() {
  test::Json json = test::platform(3);
  json["loads"][0]["at"] = {"1.45 m", "1.40 m"};
  json["loads"][0]["people"] = 4;
  return json;
}
test::Json lopsided_raised() {
  test::Json json = test::raised(6);  // its posts end 4 ft before the end of the deck
  json["loads"][0]["at"] = {"7 ft", "6.5 ft"};
  return json;
}

/// The mirror image across the middle of the deck, which lies between 0 and `size` along `axis`.
record::Survey mirrored(record::Survey s, Axis axis, Length size) {
  const auto turn = [&](Length& at) { at = size - at; };
  const auto turn_point = [&](Point& p) { turn(axis == Axis::x ? p.x : p.y); };
  const auto turn_extent = [&](std::optional<Length>& from, std::optional<Length>& to) {
    std::swap(from, to);
    if (from) turn(*from);
    if (to) turn(*to);
  };
  std::map<std::string, Axis> runs;
  for (Point& p : s.deck.outline) turn_point(p);
  for (record::Joists& j : s.deck.joists) {
    runs[j.name] = j.direction;
    if (j.direction == axis) {
      turn_extent(j.from, j.to);
      std::swap(j.start, j.end);
    } else {
      for (Length& at : j.positions) turn(at);
    }
  }
  for (record::Bearer& b : s.deck.bearers) {
    runs[b.name] = b.direction;
    if (b.direction == axis) {
      turn_extent(b.from, b.to);
      for (Length& at : b.splices) turn(at);
    } else {
      turn(b.position);
    }
  }
  for (record::Supports& p : s.deck.supports) {
    if (runs.at(p.under) != axis) continue;
    for (Length& at : p.positions) turn(at);
  }
  for (record::Rim& r : s.deck.rims) {
    if (runs.at(r.joists) == axis) r.at_start = !r.at_start;
  }
  for (record::Blocking& b : s.deck.blocking) {
    if (runs.at(b.joists) == axis) turn(b.position);
  }
  for (record::HeavyLoad& load : s.loads) turn_point(load.at);
  return s;
}

/// Every length and mass in feet, inches or pounds written in mm or kg.
void write_metric(test::Json& json) {
  if (json.is_structured()) {
    for (test::Json& item : json) write_metric(item);
    return;
  }
  if (!json.is_string()) return;
  const std::string text = json.get<std::string>();
  const std::size_t space = text.find(' ');
  if (space == std::string::npos) return;
  const std::string unit = text.substr(space + 1);
  // Exact by definition of the inch and the pound.
  const std::map<std::string, std::pair<double, const char*>> units{
      {"ft", {304.8, "mm"}}, {"in", {25.4, "mm"}}, {"lb", {0.45359237, "kg"}}};
  const auto found = units.find(unit);
  if (found == units.end()) return;
  json = fmt::format("{:.12f} {}", std::stod(text.substr(0, space)) * found->second.first,
                     found->second.second);
}

/// The utilisation of every safety finding.
std::map<std::string, double> all(const Assessment& a) {
  std::map<std::string, double> result;
  for (const assessment::Finding& f : a.shown.findings) result[f.id] = f.check.utilisation;
  return result;
}

void check_same(const Assessment& a, const Assessment& b, double tolerance) {
  CHECK(a.verdict == b.verdict);
  CHECK(a.fails == b.fails);
  REQUIRE(a.utilisation.has_value());
  REQUIRE(b.utilisation.has_value());
  CHECK(*a.utilisation == Approx(*b.utilisation).epsilon(tolerance));
  REQUIRE(a.utilisation_service.has_value());
  REQUIRE(b.utilisation_service.has_value());
  CHECK(*a.utilisation_service == Approx(*b.utilisation_service).epsilon(tolerance));
}

/// The same standard with all strengths of timber scaled, stiffness held.
class Weaker : public standards::Standard {
public:
  Weaker(std::unique_ptr<standards::Standard> real, double factor)
      : real_(std::move(real)), factor_(factor) {}
  std::string name() const override { return real_->name(); }
  bool us_customary() const override { return real_->us_customary(); }
  std::vector<Combination> combinations(standards::Purpose p,
                                        const standards::Circumstances& c) const override {
    return real_->combinations(p, c);
  }
  standards::Timber timber(const std::string& n, standards::Role r, Length b, Length d,
                           bool i) const override {
    standards::Timber t = real_->timber(n, r, b, d, i);
    t.bending *= factor_;
    t.shear *= factor_;
    t.compression *= factor_;
    t.compression_across *= factor_;
    t.tension *= factor_;
    return t;
  }
  std::vector<std::string> timber_names() const override { return real_->timber_names(); }
  standards::Elastic elastic(const standards::Timber& t, standards::Term term) const override {
    return real_->elastic(t, term);
  }
  Stress E_stability(const standards::Timber& t) const override { return real_->E_stability(t); }
  Stress E_across(const standards::Timber& t) const override { return real_->E_across(t); }
  standards::Check bending(const standards::BendingDemand& d, const Combination& c) const override {
    return real_->bending(d, c);
  }
  standards::Check shear(const standards::ShearDemand& d, const Combination& c) const override {
    return real_->shear(d, c);
  }
  standards::Check bearing(const standards::BearingDemand& d, const Combination& c) const override {
    return real_->bearing(d, c);
  }
  standards::Check column(const standards::ColumnDemand& d, const Combination& c) const override {
    return real_->column(d, c);
  }
  standards::Check joist_end(const standards::EndDemand& d, const Combination& c) const override {
    return real_->joist_end(d, c);
  }
  bool joist_end_counts(const standards::EndDemand& d) const override {
    return real_->joist_end_counts(d);
  }
  standards::Check ledger_fixing(const standards::LedgerFixingDemand& d,
                                 const Combination& c) const override {
    return real_->ledger_fixing(d, c);
  }
  standards::Check ledger_pull_off(const standards::LedgerFixingDemand& d,
                                   const Combination& c) const override {
    return real_->ledger_pull_off(d, c);
  }
  bool ledger_fixing_counts(const standards::LedgerFixingDemand& d) const override {
    return real_->ledger_fixing_counts(d);
  }
  standards::Check side_bolts(const standards::SideBoltDemand& d,
                              const Combination& c) const override {
    return real_->side_bolts(d, c);
  }
  standards::Check hold_down(const standards::HoldDownDemand& d,
                             const Combination& c) const override {
    return real_->hold_down(d, c);
  }
  standards::Check ground(const standards::GroundDemand& d, const Combination& c) const override {
    return real_->ground(d, c);
  }
  standards::Check held_upright(Length b, Length d, bool e, bool f) const override {
    return real_->held_upright(b, d, e, f);
  }
  standards::Check board_overhang(const standards::Timber& t, Length w, Length h, Length a,
                                  Force f) const override {
    return real_->board_overhang(t, w, h, a, f);
  }
  standards::Check board_point_load(const standards::Timber& t, Length w, Length h, Length s,
                                    bool c, Force f) const override {
    return real_->board_point_load(t, w, h, s, c, f);
  }
  Stiffness hanger_slip(int n, const standards::Timber& t) const override {
    return real_->hanger_slip(n, t);
  }
  Stiffness bolt_slip(Length d, const standards::Timber& t) const override {
    return real_->bolt_slip(d, t);
  }
  standards::GroundModuli moduli(standards::SoilKind k) const override { return real_->moduli(k); }
  standards::ServiceLimits limits() const override { return real_->limits(); }
  standards::LoadValues loads(Length h) const override { return real_->loads(h); }

private:
  std::unique_ptr<standards::Standard> real_;
  double factor_;
};

/// Vertical force and moments about the origin; rotations as in the solver: w = tx y - ty x.
struct Force3 {
  double Fz = 0.0, Mx = 0.0, My = 0.0;
  void add(double factor, const Force3& other) {
    Fz += factor * other.Fz;
    Mx += factor * other.Mx;
    My += factor * other.My;
  }
};

Force3 total(const solver::Frame& frame, const solver::LoadCase& load_case) {
  Force3 sum;
  const auto force = [&](double Fz, double x, double y) { sum.add(1.0, {Fz, Fz * y, -Fz * x}); };
  const auto node = [&](int k) -> const solver::Node& {
    return frame.nodes[static_cast<std::size_t>(k)];
  };
  const auto on_member = [&](int m, double Fz, double at) {
    const solver::Member& member = frame.members[static_cast<std::size_t>(m)];
    const solver::Node &i = node(member.i), &j = node(member.j);
    const double share = at / std::hypot(j.x - i.x, j.y - i.y);
    force(Fz, i.x + share * (j.x - i.x), i.y + share * (j.y - i.y));
  };
  for (const solver::NodalLoad& load : load_case.nodal) {
    if (load.plate >= 0) {
      const solver::Plate& plate = frame.plates[static_cast<std::size_t>(load.plate)];
      force(load.Fz, plate.x, plate.y);
    } else {
      force(load.Fz, node(load.node).x, node(load.node).y);
    }
    sum.add(1.0, {0.0, load.Mx, load.My});
  }
  for (const solver::LineLoad& load : load_case.line) {
    // A uniform part at its middle and a triangle at its third point.
    const double length = load.b - load.a;
    on_member(load.member, load.q1 * length, 0.5 * (load.a + load.b));
    on_member(load.member, 0.5 * (load.q2 - load.q1) * length, load.a + length * 2.0 / 3.0);
  }
  for (const solver::PointLoad& load : load_case.point) on_member(load.member, load.P, load.a);
  return sum;
}

}  // namespace

TEST_CASE("A mirror image gets the same verdict and the same utilisation", "[law]") {
  // Boards are laid from the middle: 26.4 of 125 mm in 3300 mm, 34.1 of 5 5/8 in. in 16 ft.
  const test::Json low = lopsided(), raised = lopsided_raised();
  const struct {
    record::Survey deck;
    Length x, y;
  } decks[] = {{read(low), metres(3.35), metres(3.3)}, {read(raised), feet(16.0), feet(16.0)}};
  for (const auto& [deck, x, y] : decks) {
    INFO(deck.name);
    const Assessment as_is = assess(deck);
    const record::Survey in_x = mirrored(deck, Axis::x, x);
    const record::Survey in_y = mirrored(deck, Axis::y, y);
    check_same(as_is, assess(in_x), 1e-9);
    check_same(as_is, assess(in_y), 1e-9);
    check_same(as_is, assess(mirrored(in_x, Axis::y, y)), 1e-9);
  }
}

TEST_CASE("The order of entries changes nothing", "[law]") {
  for (const test::Json& json : {lopsided(), lopsided_raised()}) {
    const record::Survey deck = read(json);
    INFO(deck.name);
    record::Survey shuffled = deck;
    const auto reverse = [](auto& list) { std::reverse(list.begin(), list.end()); };
    reverse(shuffled.deck.joists.front().positions);
    for (record::Supports& supports : shuffled.deck.supports) {
      std::rotate(supports.positions.begin(), supports.positions.begin() + 1,
                  supports.positions.end());
    }
    reverse(shuffled.deck.supports);
    if (!shuffled.deck.bearers.empty()) {
      std::rotate(shuffled.deck.bearers.begin(), shuffled.deck.bearers.begin() + 1,
                  shuffled.deck.bearers.end());
    }
    reverse(shuffled.deck.rims);
    reverse(shuffled.deck.braces);
    reverse(shuffled.deck.outline);
    const Assessment a = assess(deck), b = assess(shuffled);
    check_same(a, b, 1e-9);
    const auto left = all(a), right = all(b);
    REQUIRE(left.size() == right.size());
    for (const auto& [id, utilisation] : left) {
      INFO(id);
      REQUIRE(right.count(id) == 1);
      CHECK(right.at(id) == Approx(utilisation).epsilon(1e-9));
    }
  }
}

TEST_CASE("Feet and inches and millimetres are one deck", "[law]") {
  const test::Json feet = lopsided_raised();
  test::Json metric = feet;
  write_metric(metric);
  REQUIRE(metric.dump().find(" ft\"") == std::string::npos);
  REQUIRE(metric.dump().find(" in\"") == std::string::npos);
  const Assessment a = assess(read(feet)), b = assess(read(metric));
  check_same(a, b, 1e-9);
  const auto left = all(a), right = all(b);
  REQUIRE(left.size() == right.size());
  for (const auto& [id, utilisation] : left) {
    INFO(id);
    REQUIRE(right.count(id) == 1);
    CHECK(right.at(id) == Approx(utilisation).epsilon(1e-9));
  }
}

TEST_CASE("Less strength with stiffness held is never safer", "[law]") {
  for (const test::Json& json : {lopsided(), test::raised(6)}) {
    const record::Survey deck = read(json);
    double before = 0.0;
    for (const double factor : {1.0, 0.9, 0.7, 0.5}) {
      const Weaker standard(assessment::standard_for(deck.standard), factor);
      const deck::Deck resolved = deck::resolve(deck, record::Reading::cautious).deck;
      const auto result =
          assessment::assess_deck(resolved, standard, {.depth = assessment::Depth::utilisation});
      CHECK(result.safety >= before);
      before = result.safety;
    }
  }
}

TEST_CASE("The same load made heavier in place is never safer", "[law]") {
  // The whole load scaled: shell and contents by the same factor. Every check that the load presses
  // on gets worse or stays; the worst of them all and the service findings too.
  for (const int pads : {2, 3, 5}) {
    double safety = 0.0, service = 0.0;
    for (const double factor : {0.5, 0.8, 1.0, 1.1, 1.3, 1.8}) {
      const Assessment a = assess(test::platform(pads, 300 * factor, 1250 * factor));
      INFO(pads << " rows of pads, load times " << factor);
      REQUIRE(a.utilisation.has_value());
      REQUIRE(a.utilisation_service.has_value());
      CHECK(*a.utilisation >= safety * (1.0 - 1e-12));
      CHECK(*a.utilisation_service >= service * (1.0 - 1e-12));
      safety = *a.utilisation;
      service = *a.utilisation_service;
    }
  }
}

TEST_CASE("Pads carry what stands on the deck, no less and no more", "[law]") {
  const record::Survey deck = read(test::platform(5));
  const auto models = assessment::exported_models(deck, *assessment::standard_for(deck.standard));
  INFO(models.why);
  REQUIRE(!models.models.empty());
  for (const auto& model : models.models) {
    std::vector<Force3> of_case;
    for (const solver::LoadCase& load_case : model.cases)
      of_case.push_back(total(model.frame, load_case));
    for (const auto& combination : model.combinations) {
      INFO(model.bound << ": " << combination.id);
      REQUIRE_FALSE(combination.response.mechanism.has_value());
      Force3 sum;
      for (const solver::CaseFactor& f : combination.factors)
        sum.add(f.factor, of_case[static_cast<std::size_t>(f.load_case)]);
      const double load = -sum.Fz;
      for (std::size_t k = 0; k < model.frame.supports.size(); ++k) {
        const double reaction = combination.response.supports[k];
        CHECK(reaction >= 0.0);  // a pad pulls nothing down
        const solver::Node& node =
            model.frame.nodes[static_cast<std::size_t>(model.frame.supports[k].node)];
        sum.add(1.0, {reaction, reaction * node.y, -reaction * node.x});
      }
      CHECK(std::abs(sum.Fz) < 1e-6 * load);
      CHECK(std::abs(sum.Mx) < 1e-6 * load * 3300.0);
      CHECK(std::abs(sum.My) < 1e-6 * load * 3350.0);
      if (combination.id != "6.10 G; full") continue;
      // EN 1990, 6.10 with gamma_G = 1.35 (Table A1.2(B)): 1,550 kg of tub; timber by hand: joists
      // 11 x 0.047 x 0.150 x 3.3, boards 3.35 x 3.3 x 0.028 x 120/125, rims 2 x 0.047 x 0.150 x 3.35
      // m3 at 550 kg/m3 = 330 kg.
      CHECK(load == Approx(1.35 * (1550.0 + 330.0) * 9.80665).epsilon(0.005));
    }
  }
  // Told per support, each at its own worst: together at least the whole load and the timber.
  double told = 0.0;
  for (const assessment::Reaction& r : assess(deck).shown.reactions)
    told += r.characteristic.value();
  CHECK(told >= (1550.0 + 320.0) * 9.80665);
}

TEST_CASE("The same survey gives the same bytes", "[law]") {
  const record::Survey deck = read(lopsided());
  CHECK(report::assessment_json(assess(deck)).dump() ==
        report::assessment_json(assess(deck)).dump());
}

}  // namespace deck_laws_test_file

// Another standard needs nothing of model, assessment or report: an invented one, simpler than any
// real one, judges a deck through the same interface. Its rules are this file's own; nobody publishes
// them.
#include "catalog/table.hpp"
#include "standards/sheet.hpp"
#include "support/catch.hpp"
#include "support/decks.hpp"
#include "support/formula.hpp"
#include "underprop/assessment/assessment.hpp"
#include "underprop/deck/deck.hpp"
#include "underprop/record/standard_facts.hpp"

#include <nlohmann/json.hpp>

#include <memory>
#include <set>
#include <string>

namespace third_standard_test_file {

using namespace underprop;
using namespace underprop::standards;

namespace {

Citation invented(const char* where) { return {"invented", where}; }

/// Every resistance is one stress on a simple section, or one force a fixing; one combination.
class Invented final : public Standard {
public:
  explicit Invented(double strength) : strength_(strength) {}
  mutable std::set<CheckKind> asked;  ///< kinds of the checks that were asked for

  [[nodiscard]] std::string name() const override { return "the invented standard"; }
  [[nodiscard]] bool us_customary() const override { return false; }
  [[nodiscard]] std::vector<Combination> combinations(Purpose purpose,
                                                      const Circumstances&) const override {
    Combination c;
    c.id = "all at once";
    c.text = "1.0 of everything";
    c.purpose = purpose;
    c.factors.fill(1.0);
    c.duration = "any";
    c.source = invented("rule 1");
    return {c};
  }
  [[nodiscard]] Timber timber(const std::string& name, Role role, Length breadth, Length depth,
                              bool incised) const override {
    Timber t;
    t.label = t.name = name;
    t.bending = t.tension = t.compression = megapascals(strength_);
    t.shear = t.compression_across = megapascals(strength_ / 5.0);
    t.E = t.E_low = megapascals(9000);
    t.G = megapascals(600);
    t.density = kg_per_m3(400);
    t.incised = incised;
    t.role = role;
    t.breadth = breadth;
    t.depth = depth;
    t.source = invented("rule 2");
    return t;
  }
  [[nodiscard]] std::vector<std::string> timber_names() const override { return {"wood"}; }
  [[nodiscard]] Elastic elastic(const Timber& t, Term) const override { return {t.E, t.G}; }
  [[nodiscard]] Stress E_across(const Timber&) const override { return megapascals(300); }

  [[nodiscard]] Check bending(const BendingDemand& d, const Combination&) const override {
    Sheet sheet = begin(CheckKind::bending);
    sheet.given("M", d.moment.value(), "N mm");
    sheet.given("b", in_mm(d.breadth), "mm");
    sheet.given("h", in_mm(d.depth), "mm");
    sheet.taken("f", "any wood", strength_, "N/mm2", invented("rule 2"));
    sheet.line("M_R", "f b h^2 / 6", "N mm", invented("rule 3"));
    return sheet.finish("M", "M_R", invented("rule 3"));
  }
  [[nodiscard]] Check shear(const ShearDemand& d, const Combination&) const override {
    return on_area(CheckKind::shear, d.shear, d.breadth, d.depth);
  }
  [[nodiscard]] Check bearing(const BearingDemand& d, const Combination&) const override {
    return on_area(CheckKind::bearing, d.force, d.width, d.length);
  }
  [[nodiscard]] Check column(const ColumnDemand& d, const Combination&) const override {
    return on_area(CheckKind::column, d.axial, d.breadth, d.depth);
  }
  [[nodiscard]] Check joist_end(const EndDemand& d, const Combination&) const override {
    return by_force(CheckKind::joist_end, d.shear, kilonewtons(2));
  }
  [[nodiscard]] bool joist_end_counts(const EndDemand& d) const override { return d.sound; }
  [[nodiscard]] Check ledger_fixing(const LedgerFixingDemand& d,
                                    const Combination&) const override {
    return by_force(CheckKind::ledger_fixing, d.shear, kilonewtons(1));
  }
  [[nodiscard]] Check ledger_pull_off(const LedgerFixingDemand& d,
                                      const Combination&) const override {
    return by_force(CheckKind::ledger_pull_off, d.pull, kilonewtons(0.5));
  }
  [[nodiscard]] bool ledger_fixing_counts(const LedgerFixingDemand& d) const override {
    return d.sound;
  }
  [[nodiscard]] Check side_bolts(const SideBoltDemand& d, const Combination&) const override {
    return by_force(CheckKind::side_bolts, d.shear, d.bolts * kilonewtons(3));
  }
  [[nodiscard]] Check hold_down(const HoldDownDemand& d, const Combination&) const override {
    return by_force(CheckKind::hold_down, d.uplift, kilonewtons(0.5));
  }
  [[nodiscard]] Check ground(const GroundDemand& d, const Combination&) const override {
    asked.insert(CheckKind::ground);
    Sheet sheet(CheckKind::ground, {"kPa", 1.0});
    sheet.given("F", in_kilonewtons(d.load), "kN");
    sheet.given("B", in_metres(d.width), "m");
    sheet.given("L", in_metres(d.length), "m");
    sheet.line("q", "F / (B L)", "kPa", invented("rule 5"));
    sheet.taken("q_R", "any ground", 100.0, "kPa", invented("rule 5"));
    return sheet.finish("q", "q_R", invented("rule 5"));
  }
  [[nodiscard]] Check held_upright(Length breadth, Length depth, bool, bool) const override {
    asked.insert(CheckKind::held_upright);
    Sheet sheet(CheckKind::held_upright, {"", 1.0});
    sheet.given("b", in_mm(breadth), "mm");
    sheet.given("h", in_mm(depth), "mm");
    sheet.line("ratio", "h / b", "", invented("rule 6"));
    sheet.taken("limit", "any member", 8.0, "", invented("rule 6"));
    return sheet.finish("ratio", "limit", invented("rule 6"));
  }
  [[nodiscard]] Check board_overhang(const Timber&, Length, Length, Length,
                                     Force load) const override {
    return by_force(CheckKind::board_overhang, load, kilonewtons(5));
  }
  [[nodiscard]] Check board_point_load(const Timber&, Length, Length, Length, bool,
                                       Force load) const override {
    return by_force(CheckKind::board_point_load, load, kilonewtons(5));
  }
  [[nodiscard]] Stress E_stability(const Timber&) const override { return megapascals(6000); }
  [[nodiscard]] Stiffness hanger_slip(int, const Timber&) const override { return Stiffness(2000); }
  [[nodiscard]] Stiffness bolt_slip(Length, const Timber&) const override {
    return Stiffness(4000);
  }
  [[nodiscard]] GroundModuli moduli(SoilKind) const override {
    return {megapascals(5), megapascals(10), megapascals(20), 0.3, invented("rule 5")};
  }
  [[nodiscard]] ServiceLimits limits() const override {
    ServiceLimits l;
    l.deflection_now = 250;
    l.deflection_long = 150;
    l.least = mm(3);
    l.tilt = 100;
    l.gap_where_walked = mm(2);
    l.post_sway_height = 600;
    l.deflection_now_source = l.deflection_long_source = l.least_source = l.tilt_source =
        invented("rule 7");
    return l;
  }
  [[nodiscard]] LoadValues loads(Length) const override {
    LoadValues v;
    v.imposed = kilopascals(2);
    v.concentrated = kilonewtons(1);
    v.person = kilograms(91);
    v.wet_timber = kg_per_m3(550);
    v.sway_share_of_vertical = 0.025;
    v.sway_share_of_people = 0.1;
    v.imposed_source = v.concentrated_source = v.person_source = invented("rule 8");
    return v;
  }

private:
  Sheet begin(CheckKind check) const {
    asked.insert(check);
    return {check, {"kNm", 1e6}};
  }
  Check on_area(CheckKind check, Force force, Length a, Length b) const {
    asked.insert(check);
    Sheet sheet(check, {"kN", 1e3});
    sheet.given("F", in_newtons(force), "N");
    sheet.given("a", in_mm(a), "mm");
    sheet.given("b", in_mm(b), "mm");
    sheet.taken("f", "a fifth of the strength", strength_ / 5.0, "N/mm2", invented("rule 2"));
    sheet.line("R", "f a b", "N", invented("rule 4"));
    return sheet.finish("F", "R", invented("rule 4"));
  }
  Check by_force(CheckKind check, Force force, Force resistance) const {
    asked.insert(check);
    Sheet sheet(check, {"kN", 1e3});
    sheet.given("F", in_newtons(force), "N");
    sheet.taken("R", "by the piece", in_newtons(resistance), "N", invented("rule 4"));
    return sheet.finish("F", "R", invented("rule 4"));
  }
  double strength_;
};

deck::Deck deck_of(const test::Json& json) {
  const record::Survey survey = deck::read_survey(json.dump(), "test").survey;
  return deck::resolve(survey, record::Reading::cautious).deck;
}

const assessment::Finding& worst(const assessment::DeckAssessment& result,
                                 const std::string& check) {
  const assessment::Finding* found = nullptr;
  for (const assessment::Finding& f : result.findings) {
    if (f.check.check == check && (!found || f.check.utilisation > found->check.utilisation)) {
      found = &f;
    }
  }
  if (!found) throw std::logic_error("no finding of " + check);
  return *found;
}

}  // namespace

TEST_CASE("an invented third standard judges a deck by its own rules", "[standards][law]") {
  const Invented standard(10.0);
  const deck::Deck deck = deck_of(test::platform(4));
  const assessment::DeckAssessment result = assessment::assess_deck(deck, standard);
  REQUIRE_FALSE(result.mechanism);
  REQUIRE_FALSE(result.findings.empty());
  int own = 0;
  for (const assessment::Finding& finding : result.findings) {
    INFO(finding.id);
    if (finding.check.source.key != "invented") continue;  // frost, sway: rules of the place
    ++own;
    CHECK(test::faults_of(finding.check).empty());
    if (finding.combination != "-") CHECK(finding.combination == "all at once");
  }
  CHECK(own > 20);
  for (const CheckKind check :
       {CheckKind::bending, CheckKind::shear, CheckKind::bearing, CheckKind::ground,
        CheckKind::held_upright, CheckKind::board_point_load}) {
    INFO(name_of(check));
    CHECK(standard.asked.contains(check));
  }
  // Its resistances are its own: 10 N/mm2 x 47 x 150^2/6.
  CHECK(worst(result, "bending").check.resistance == Approx(10.0 * 47 * 150 * 150 / 6 / 1e6));
  CHECK(worst(result, "ground pressure").check.resistance == 100.0);

  // Half the strength, the same forces: bending and bearing twice as far used, the ground as before.
  const Invented weaker(5.0);
  const assessment::DeckAssessment weak = assessment::assess_deck(deck, weaker);
  for (const char* check : {"bending", "shear", "bearing across the grain"}) {
    CHECK(worst(weak, check).check.utilisation ==
          Approx(2.0 * worst(result, check).check.utilisation));
  }
  CHECK(worst(weak, "ground pressure").check.utilisation ==
        Approx(worst(result, "ground pressure").check.utilisation));
}

TEST_CASE("what a standard brings outside its rules is a row of data", "[standards]") {
  const std::vector<record::StandardFacts>& all = record::all_standards();
  REQUIRE(all.size() == 2);
  for (const record::StandardFacts& facts : all) {
    INFO(facts.word);
    CHECK(&record::facts_of(facts.id) == &facts);
    const auto standard = assessment::standard_for(facts.id);
    CHECK((facts.units == UnitSystem::us_customary) == standard->us_customary());
    CHECK(catalog::table(facts.prices).at("currency") == facts.currency);
    const double person = catalog::table(facts.folder + "/loads.json")
                              .at(nlohmann::json::json_pointer(facts.person))
                              .get<double>();
    CHECK(person == Approx(in_kilograms(standard->loads(mm(500)).person)));
    CHECK(catalog::table("building.json").contains(facts.key));
    CHECK(catalog::table("works_catalogue.json").contains(facts.key));
  }
}

TEST_CASE("an invented third standard gives the verdict on a whole survey", "[standards]") {
  const record::Survey survey = deck::read_survey(test::platform(5).dump(), "test").survey;
  const assessment::Assessment strong = assessment::assess(survey, Invented(60.0));
  CHECK(strong.standard == "the invented standard");
  CHECK(strong.verdict == assessment::Verdict::carries);
  const assessment::Assessment weak = assessment::assess(survey, Invented(0.5));
  CHECK(weak.verdict == assessment::Verdict::does_not_carry);
  REQUIRE(weak.governing);
  CHECK(weak.governing->check.source.key == "invented");
}

}  // namespace third_standard_test_file

// Laws that every deck must obey whatever its numbers.
#include "support/catch.hpp"
#include "support/decks.hpp"
#include "underprop/assessment/assessment.hpp"
#include "underprop/report/report.hpp"
#include "underprop/survey/read.hpp"

#include <algorithm>

using namespace underprop;
using assessment::Assessment;
using standards::Combination;

namespace {

survey::Survey read(const test::Json& json) {
  return survey::read_survey(json.dump(), "survey.json").survey;
}
Assessment assess(const survey::Survey& survey) {
  return assessment::assess(survey, *assessment::standard_for(survey.standard));
}

/// Off centre, so that a mirror image is another deck.
test::Json lopsided() {
  test::Json json = test::platform(3);
  json["loads"][0]["at"] = {"1.45 m", "1.40 m"};
  json["loads"][0]["people"] = 4;
  return json;
}

survey::Survey mirrored_x(survey::Survey s) {
  const Length width = metres(3.35);
  for (survey::Point& p : s.deck.outline) p.x = width - p.x;
  for (survey::Joists& j : s.deck.joists) {
    for (Length& at : j.positions) at = width - at;
  }
  for (survey::HeavyLoad& load : s.loads) load.at.x = width - load.at.x;
  return s;
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

}  // namespace

TEST_CASE("A mirror image gets the same verdict and the same utilisation", "[law]") {
  const survey::Survey deck = read(lopsided());
  const Assessment a = assess(deck), b = assess(mirrored_x(deck));
  CHECK(a.verdict == b.verdict);
  REQUIRE(a.utilisation.has_value());
  REQUIRE(b.utilisation.has_value());
  CHECK(*a.utilisation == Approx(*b.utilisation).epsilon(1e-6));
  CHECK(*a.utilisation_service == Approx(*b.utilisation_service).epsilon(1e-6));
}

TEST_CASE("The order of entries changes nothing", "[law]") {
  const survey::Survey deck = read(lopsided());
  survey::Survey shuffled = deck;
  std::reverse(shuffled.deck.joists.front().positions.begin(),
               shuffled.deck.joists.front().positions.end());
  std::reverse(shuffled.deck.supports.front().positions.begin(),
               shuffled.deck.supports.front().positions.end());
  std::reverse(shuffled.deck.rims.begin(), shuffled.deck.rims.end());
  const Assessment a = assess(deck), b = assess(shuffled);
  CHECK(a.verdict == b.verdict);
  CHECK(*a.utilisation == Approx(*b.utilisation).epsilon(1e-9));
}

TEST_CASE("Feet and inches and millimetres are one deck", "[law]") {
  test::Json metric = lopsided();
  test::Json feet = metric;
  feet["loads"][0]["width"] = "78.74015748031496 in";
  feet["deck"]["joists"][0]["breadth"] = "1.850393700787402 in";
  feet["deck"]["height"] = "11.811023622047244 in";
  const Assessment a = assess(read(metric)), b = assess(read(feet));
  CHECK(*a.utilisation == Approx(*b.utilisation).epsilon(1e-9));
}

TEST_CASE("Less strength with stiffness held is never safer", "[law]") {
  for (const test::Json& json : {lopsided(), test::raised(6)}) {
    const survey::Survey deck = read(json);
    double before = 0.0;
    for (const double factor : {1.0, 0.9, 0.7, 0.5}) {
      const Weaker standard(assessment::standard_for(deck.standard), factor);
      const survey::Deck settled = survey::settle(deck, survey::Reading::cautious).deck;
      const auto result =
          assessment::assess_deck(settled, standard, {}, assessment::Depth::utilisation);
      CHECK(result.safety >= before);
      before = result.safety;
    }
  }
}

TEST_CASE("The same load made heavier in place is never safer", "[law]") {
  double before = 0.0;
  for (const double factor : {0.5, 0.8, 1.0, 1.3, 1.8}) {
    const Assessment a = assess(read(test::platform(3, 300 * factor, 1250 * factor)));
    REQUIRE(a.utilisation.has_value());
    double bending = 0.0;
    for (const assessment::Finding& f : a.cautious.findings) {
      if (f.piece == "J6" && f.check.check == "bending") bending = f.check.utilisation;
    }
    CHECK(bending >= before);
    CHECK(*a.utilisation >= bending - 1e-12);
    before = bending;
  }
}

TEST_CASE("Pads carry what stands on the deck", "[law]") {
  // Characteristic reactions each at its own worst: their sum is at least the whole load.
  const Assessment a = assess(read(test::platform(5)));
  double sum = 0.0;
  for (const assessment::Reaction& r : a.cautious.reactions) sum += r.characteristic.value();
  CHECK(sum >= 1550.0 * 9.80665);
}

TEST_CASE("The same survey gives the same bytes", "[law]") {
  const survey::Survey deck = read(lopsided());
  CHECK(report::assessment_json(assess(deck)).dump() ==
        report::assessment_json(assess(deck)).dump());
}

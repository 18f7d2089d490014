// Deemed to satisfy: which row of the published tables covers a piece, and that one step beyond it none
// does. The rows are those of DCA 6-12 Tables 2 and 4 and of the Wisconsin UDC, Appendix B Tables 3A, 3B
// and 6, as read; the hangers' least loads are from memory.
#include "catalog/table.hpp"
#include "guide_decks.hpp"
#include "support/catch.hpp"
#include "underprop/standards/prescriptive.hpp"

namespace underprop::test::deemed {

using standards::PrescriptiveTables;

namespace {

const standards::Standard& nds() {
  static const auto standard = standards::make_north_america_us();
  return *standard;
}
const PrescriptiveTables& tables() { return *nds().prescriptive(); }
standards::Timber timber(const std::string& name, double breadth, double depth) {
  return nds().timber(name, standards::Role::joist, inches(breadth), inches(depth), false);
}
standards::PrescriptiveJoist joist(const std::string& name, double depth, double spacing,
                                   double span, double overhang = 0.0) {
  return {timber(name, 1.5, depth), inches(1.5), inches(depth), inches(spacing), inches(span),
          inches(overhang),         inches(1.5)};
}

}  // namespace

TEST_CASE("Joists at the printed spans and overhangs meet their row, a sixteenth beyond meets none",
          "[prescriptive][published]") {
  // DCA 6 Table 2, No.2: Southern Pine 2x8 at 16 in. 11 ft 10 in, overhang 2 ft; Hem-Fir 2x10 at 24 in.
  // 11 ft 1 in, 2 ft 9 in; redwood 2x12 at 12 in. 17 ft 5 in, 3 ft 7 in.
  const auto check = [](const std::string& name, double depth, double spacing, double span,
                        double overhang) {
    INFO(name << " " << depth << " at " << spacing);
    CHECK(tables().joist(joist(name, depth, spacing, span, overhang)));
    CHECK_FALSE(tables().joist(joist(name, depth, spacing, span + 0.0625, overhang)));
    CHECK_FALSE(tables().joist(joist(name, depth, spacing, span, overhang + 0.0625)));
    CHECK_FALSE(tables().joist(joist(name, depth, spacing + 0.0625, span, overhang)));
  };
  check("Southern Pine No.2", 7.25, 16, 142, 24);
  check("Hem-Fir No.2", 9.25, 24, 133, 33);
  check("Redwood No.2", 11.25, 12, 209, 43);
  // Of a short span no more than a quarter may overhang.
  CHECK(tables().joist(joist("Southern Pine No.2", 7.25, 16, 80, 20)));
  CHECK_FALSE(tables().joist(joist("Southern Pine No.2", 7.25, 16, 80, 21)));
}

TEST_CASE("A grade below No.2, a species of no group, a short seat or an odd size meets no row",
          "[prescriptive][published]") {
  CHECK(tables().joist(joist("Hem-Fir No.1", 7.25, 16, 133)));
  CHECK_FALSE(tables().joist(joist("Hem-Fir No.3", 7.25, 16, 100)));
  CHECK_FALSE(tables().joist(joist("Northern Species No.2", 7.25, 16, 100)));
  CHECK_FALSE(tables().joist(joist("Hem-Fir No.2", 6.75, 16, 100)));
  auto seated = joist("Hem-Fir No.2", 7.25, 16, 133);
  seated.seat = inches(1.25);
  CHECK_FALSE(tables().joist(seated));
  // The tables assume slits in Hem-Fir, in Southern Pine none.
  auto slit = joist("Hem-Fir No.2", 7.25, 16, 133);
  slit.timber.incised = true;
  CHECK(tables().joist(slit));
  auto pine = joist("Southern Pine No.2", 7.25, 16, 133);
  pine.timber.incised = true;
  CHECK_FALSE(tables().joist(pine));
}

TEST_CASE("Beams at every printed span meet their row and no wider one",
          "[prescriptive][published]") {
  const auto& table = catalog::table("north_america/prescriptive.json").at("beams");
  int rows = 0;
  for (const auto& row : table.at("rows")) {
    const std::string name = row.at("beam");
    const auto dash = name.find('-');
    const std::string size = dash == std::string::npos ? name : name.substr(dash + 1);
    const int nominal = std::stoi(size.substr(2));
    const double depth = nominal == 6 ? 5.5 : nominal - 0.75;
    standards::PrescriptiveBeam beam;
    beam.plies = dash == std::string::npos ? 1 : std::stoi(name);
    beam.ply_breadth = inches(size[0] == '4' ? 3.5 : 1.5);
    beam.depth = inches(depth);
    beam.timber =
        timber(row.at("species") == "Southern Pine" ? "Southern Pine No.2" : "Hem-Fir No.2",
               in_inches(beam.ply_breadth), depth);
    beam.seat = inches(1.5);
    for (std::size_t k = 0; k < row.at("span_in").size(); ++k) {
      INFO(name << " column " << k);
      beam.joist_span = feet(table.at("joist_span_ft")[k].get<double>());
      beam.joist_overhang = beam.joist_span / 4.0;
      beam.span = inches(row.at("span_in")[k].get<double>());
      beam.overhang = beam.span / 4.0;
      CHECK(tables().beam(beam));
      auto longer = beam;
      longer.span = beam.span + inches(0.0625);
      CHECK_FALSE(tables().beam(longer));
      auto wider = beam;
      wider.joist_span = beam.joist_span + inches(0.0625);
      const auto found = tables().beam(wider);
      CHECK_FALSE(found);
      ++rows;
    }
  }
  CHECK(rows == 140);
}

TEST_CASE("Footings and ledger fixings at the printed sizes meet their row, smaller or wider none",
          "[prescriptive][published]") {
  // DCA 6 Table 4: beam 8 ft, joists up to 14 ft: 21 in. square, 10 in. thick; UDC Table 6: 1/2 in. lag
  // screws in a 2x band under joists of 12 ft every 15 in.
  standards::PrescriptiveFooting footing;
  footing.soil = standards::SoilKind::firm_clay;
  footing.width = footing.length = inches(21);
  footing.thickness = inches(10);
  footing.depth = inches(12);
  footing.from = {feet(8), feet(2), feet(14), feet(3)};
  CHECK(tables().footing(footing));
  auto worse = footing;
  worse.length = inches(20.9);
  CHECK_FALSE(tables().footing(worse));
  worse = footing;
  worse.thickness = inches(9.9);
  CHECK_FALSE(tables().footing(worse));
  worse = footing;
  worse.soil = standards::SoilKind::soft_clay;
  CHECK_FALSE(tables().footing(worse));
  worse = footing;
  worse.from.beam_span = inches(97);
  CHECK_FALSE(tables().footing(worse));

  standards::PrescriptiveLedger ledger;
  ledger.lag_screws = true;
  ledger.diameter = inches(0.5);
  ledger.spacing = inches(15);
  ledger.band = inches(1.5);
  ledger.depth = inches(9.25);
  ledger.heights = {inches(1.25), inches(6)};
  ledger.joist_span = feet(12);
  CHECK(tables().ledger(ledger));
  auto other = ledger;
  other.spacing = inches(15.1);
  CHECK_FALSE(tables().ledger(other));
  other = ledger;
  other.band = inches(1.25);  // an engineered band: 12 in.
  CHECK_FALSE(tables().ledger(other));
  other = ledger;
  other.heights = {inches(0.5), inches(5)};
  CHECK_FALSE(tables().ledger(other));
  other = ledger;
  other.diameter = inches(0.375);
  CHECK_FALSE(tables().ledger(other));
}

}  // namespace underprop::test::deemed

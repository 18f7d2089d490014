// What a joist's end hangs on is what it meets, not what happens to stand first in the record. The deck is
// invented: joists between two ledgers of different timber, on strips.
#include "support/catch.hpp"
#include "support/decks.hpp"
#include "underprop/assessment/assessment.hpp"
#include "underprop/deck/deck.hpp"

#include <string>

namespace end_carrier_test_file {

using namespace underprop;
using test::Json;

namespace {

Json ledger(const char* name, const char* position, const char* timber) {
  return {{"name", name},
          {"direction", "x"},
          {"position", position},
          {"timber", timber},
          {"incised", false},
          {"breadth", "47 mm"},
          {"depth", "150 mm"},
          {"fixed_to", "timber band"},
          {"fixing", "bolt"},
          {"fixing_diameter", "12 mm"},
          {"fixing_spacing", "400 mm"},
          {"penetration", "50 mm"},
          {"sound", true}};
}

/// Joists between two ledgers, on strips: `near` at y = 0 and `far` at y = 3.3 m.
Json between_ledgers(const char* near, const char* far, bool near_first = true) {
  Json json = test::platform(5);
  const Json at_start = ledger("N", "0 m", near), at_end = ledger("F", "3.3 m", far);
  Json& deck = json["deck"];
  deck["ledgers"] = near_first ? Json::array({at_start, at_end}) : Json::array({at_end, at_start});
  for (const char* end : {"start", "end"}) {
    deck["joists"][0][end] = {
        {"held", "ledger strip"}, {"nails", 1}, {"sound", true}, {"seat", "40 mm"}};
  }
  return json;
}

struct WorstEnd {
  std::string where;
  double used = 0.0, resistance = 0.0;
};
/// The worse end of joist J6 as a connection.
WorstEnd worst(const Json& json) {
  const record::Survey record = test::read(json);
  const deck::Deck deck = deck::resolve(record, record::Reading::cautious).deck;
  WorstEnd found;
  for (const assessment::Finding& f :
       assessment::assess_deck(deck, *assessment::standard_for(record.standard)).findings) {
    if (f.piece != "J6" || f.check.check != "end connection") continue;
    if (f.check.utilisation > found.used)
      found = {f.where, f.check.utilisation, f.check.resistance};
  }
  return found;
}

}  // namespace

TEST_CASE(
    "Each end of a joist is judged with the ledger that it meets, wherever that stands in the "
    "record",
    "[assessment][law]") {
  const double weak = worst(between_ledgers("C14", "C14")).resistance,
               strong = worst(between_ledgers("C24", "C24")).resistance;
  REQUIRE(weak > 0.0);
  REQUIRE(strong > 1.1 * weak);  // nails of the strip in denser wood
  for (const bool near_first : {true, false}) {
    INFO(near_first);
    const WorstEnd start = worst(between_ledgers("C14", "C24", near_first)),
                   end = worst(between_ledgers("C24", "C14", near_first));
    CHECK(start.where == "at its start");
    CHECK(end.where == "at its end");
    CHECK(start.resistance == Approx(weak).epsilon(1e-9));
    CHECK(end.resistance == Approx(weak).epsilon(1e-9));
  }
}

}  // namespace end_carrier_test_file

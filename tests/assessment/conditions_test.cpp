// Every defect that can be recorded of any kind of piece changes what is found, and never makes a deck
// carry. The deck is invented.
#include "support/catch.hpp"
#include "support/whole_record.hpp"
#include "underprop/assessment/assessment.hpp"
#include "underprop/base/input_error.hpp"
#include "underprop/deck/read.hpp"
#include "underprop/record/format.hpp"

#include <fmt/format.h>

#include <limits>
#include <set>

namespace conditions_test_file {

using namespace underprop;
using Json = nlohmann::json;
using test::whole_record;

namespace {

constexpr double light = 250.0, heavy = 2400.0;  // litres: the deck passes, and fails

struct Outcome {
  std::string text;     // all that was found
  double safety = 0.0;  // infinity: it refers, or something is loose
  [[nodiscard]] bool passes() const { return safety <= 1.0; }
};

Outcome outcome(const Json& json, bool with_told) {
  const record::Survey survey = deck::read_survey(json.dump(), "survey.json").survey;
  const deck::Deck deck = deck::resolve(survey, record::Reading::cautious).deck;
  assessment::Options few;
  few.extent = assessment::Extent::screening;
  few.depth = assessment::Depth::utilisation;
  const assessment::DeckAssessment found =
      assessment::assess_deck(deck, *assessment::standard_for(survey.standard), few);
  Outcome result;
  result.safety = found.safety;
  if (found.mechanism || !found.refer_reasons.empty()) {
    result.safety = std::numeric_limits<double>::infinity();
  }
  result.text = found.mechanism.value_or("");
  for (const auto& list : {found.findings, found.ordinary_use}) {
    for (const assessment::Finding& f : list) {
      result.text += fmt::format("{} {:.9g}\n", f.id, f.check.utilisation);
    }
  }
  for (const std::string& reason : found.refer_reasons) result.text += reason + "\n";
  if (with_told) {
    for (const std::string& told : deck.assumptions) result.text += told + "\n";
  }
  return result;
}

Json words_of(const char* object, const char* key) {
  for (const record::Field& known : record::survey_fields()) {
    if (known.object == object && known.key == key) return known.words;
  }
  return Json::array();
}

}  // namespace

namespace {

/// `whole`: every defect by both standards on a light and on a heavy load. Else every defect on the light
/// load, every other one on the heavy one, and by the second standard every fifth.
void walk(bool whole) {
  const Json defects = words_of("/deck/condition/[]", "defect");
  REQUIRE(defects.size() >= 17);
  std::set<std::string> recorded;
  for (const bool american : {false, true}) {
    const Json lighter = whole_record(american, light), heavier = whole_record(american, heavy);
    const Outcome before = outcome(lighter, false), failing = outcome(heavier, false);
    REQUIRE(before.passes());
    REQUIRE_FALSE(failing.passes());
    for (const char* piece : {"J3", "B", "L", "R", "K", "P2", "Q1", "W"}) {
      // The standards differ in the checks of timber and of its fixings alone.
      if (american && std::string_view("RKQ1W").find(piece) != std::string_view::npos) continue;
      for (std::size_t which = 0; which < defects.size(); which += american && !whole ? 5 : 1) {
        const Json& defect = defects[which];
        for (const char* from : {"", "2.7 m"}) {
          // A place matters where pieces are long; elsewhere the whole piece is meant.
          if (*from != '\0' && std::string_view(piece) != "J3") continue;
          Json condition = {{"defect", defect}, {"piece", piece}, {"size", "30 mm"}};
          if (*from != '\0') condition["from"] = from;
          const auto with = [&](Json json) {
            json["deck"]["condition"] = Json::array({condition});
            return json;
          };
          Outcome after;
          try {
            after = outcome(with(lighter), false);
          } catch (const InputErrors& refused) {
            continue;  // makes no sense for this piece: said so, not ignored
          }
          INFO(american << " " << condition.dump());
          recorded.insert(defect.get<std::string>());
          CHECK(after.text != before.text);
          CHECK(after.safety >= before.safety * 0.98);
          if (whole || which % 2 == 0) CHECK_FALSE(outcome(with(heavier), false).passes());
        }
      }
    }
  }
  CHECK(recorded.size() == defects.size());
}

}  // namespace

TEST_CASE("Every defect of every piece changes what is found, and none makes a deck safer",
          "[assessment][law][!mayfail]") {
  walk(false);
}

TEST_CASE("No defect of any piece makes a deck that fails carry, by either standard",
          "[.slow][law]") {
  walk(true);
}

}  // namespace conditions_test_file

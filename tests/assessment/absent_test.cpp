// A joist that is not there: its neighbours carry the boards, and the boards reach twice as far.
#include "support/catch.hpp"
#include "support/decks.hpp"
#include "underprop/assessment/assessment.hpp"

using namespace underprop;
using test::Json;

namespace {

assessment::DeckAssessment assessed(const Json& json) {
  const survey::Survey survey = survey::read_survey(json.dump(), "test").survey;
  const auto standard = assessment::standard_for(survey.standard);
  return assessment::assess_deck(survey::settle(survey, survey::Reading::cautious).deck, *standard);
}

double of(const assessment::DeckAssessment& a, const std::string& id) {
  for (const assessment::Finding& f : a.findings) {
    if (f.id == id) return f.check.utilisation;
  }
  return 0.0;
}

}  // namespace

TEST_CASE("A joist that is missing leaves no loose node, and its boards span to the next joists",
          "[assessment][law]") {
  const Json whole = test::platform(5);
  const auto before = assessed(whole);
  REQUIRE_FALSE(before.mechanism.has_value());
  const std::string board = "boards/one person on one board";
  // Wholly missing, and over a stretch near the load: with its pads standing useless below.
  for (const bool part : {false, true}) {
    Json json = whole;
    Json defect = {{"defect", "missing"}, {"piece", "J6"}};
    if (part) {
      defect["from"] = "1.2 m";
      defect["to"] = "1.8 m";
    }
    json["deck"]["condition"] = Json::array({defect});
    const auto after = assessed(json);
    INFO(part);
    CHECK_FALSE(after.mechanism.has_value());
    CHECK(of(after, board) > 1.5 * of(before, board));
    CHECK(after.safety >= before.safety);
  }
}

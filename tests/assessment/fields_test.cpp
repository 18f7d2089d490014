// What is recorded changes something: another value in any of these places changes the result, or is
// refused. Names, notes and dates aside. The decks are invented; common practice, no source.
#include "support/catch.hpp"
#include "support/decks.hpp"
#include "underprop/assessment/assessment.hpp"
#include "underprop/base/input_error.hpp"
#include "underprop/report/report.hpp"
#include "underprop/survey/read.hpp"

using namespace underprop;
using test::Json;

namespace {

/// The whole result as text; "refused" if the survey is.
std::string outcome(const Json& json) {
  try {
    const survey::Survey survey = survey::read_survey(json.dump(), "survey.json").survey;
    return report::assessment_json(
               assessment::assess(survey, *assessment::standard_for(survey.standard)))
        .dump();
  } catch (const InputErrors&) {
    return "refused";
  }
}

}  // namespace

TEST_CASE("Another value in a recorded field changes the result or is refused",
          "[assessment][law]") {
  Json base = test::raised(6);
  base["site"]["house_walls"] = Json::array({{{"name", "H"},
                                              {"from", {"0 ft", "-4 ft"}},
                                              {"to", {"16 ft", "-4 ft"}},
                                              {"height", "4 ft"}}});
  const std::string before = outcome(base);
  REQUIRE(before != "refused");
  const std::pair<const char*, Json> changes[] = {
      {"/site/use", "shared"},
      {"/site/storeys", 2},
      {"/site/space_below", "used"},
      {"/site/seismic_category", "D"},
      {"/site/soil", "soft clay"},
      {"/site/heel_marks", true},
      {"/site/water_in_hole", true},
      {"/site/fill", "younger than ten years"},
      {"/site/slope", "1 in 4"},
      {"/site/frost_depth", "48 in"},
      {"/site/roof_or_screen", true},
      {"/site/house_walls/0/from/1", "-1 in"},
      {"/deck/height", "8 ft"},
      {"/deck/boards/material", "composite"},
      {"/deck/boards/timber", "Southern Pine No.2"},
      {"/deck/boards/width", "3.5 in"},
      {"/deck/boards/thickness", "1 in"},
      {"/deck/boards/gap", "0.5 in"},
      {"/deck/boards/joints", "staggered"},
      {"/deck/boards/direction", "y"},
      {"/deck/joists/0/timber", "Hem-Fir No.3"},
      {"/deck/joists/0/incised", true},
      {"/deck/joists/0/breadth", "2 in"},
      {"/deck/joists/0/depth", "7.25 in"},
      {"/deck/joists/0/over_bearers", "lapped"},
      {"/deck/joists/0/start/seat", "1 in"},
      {"/deck/bearers/1/timber", "Douglas Fir-Larch No.2"},
      {"/deck/bearers/1/incised", true},
      {"/deck/bearers/1/plies", 2},
      {"/deck/bearers/1/ply_breadth", "2 in"},
      {"/deck/bearers/1/depth", "11.25 in"},
      {"/deck/bearers/1/plies_fixed_together", false},
      {"/deck/bearers/1/position", "7 ft"},
      {"/deck/bearers/1/joists_held_down", "screwed"},
      {"/deck/supports/1/packers", 3},
      {"/deck/supports/1/post/timber", "Southern Pine No.2"},
      {"/deck/supports/1/post/incised", true},
      {"/deck/supports/1/post/breadth", "3.5 in"},
      {"/deck/supports/1/post/height", "4 ft"},
      {"/deck/supports/1/post/bearer", "beside"},
      {"/deck/supports/1/post/lean", "2 in"},
      {"/deck/supports/1/footing/kind", "laid slab"},
      {"/deck/supports/1/footing/width", "18 in"},
      {"/deck/supports/1/footing/length", "18 in"},
      {"/deck/supports/1/footing/thickness", "4 in"},
      {"/deck/supports/1/footing/depth", "2 in"},
      {"/deck/supports/1/footing/offset", "3 in"},
      {"/deck/supports/1/footing/contact", "loose"},
      {"/deck/supports/1/footing/below_topsoil", false},
      {"/deck/braces/0/count", 1},
      {"/deck/braces/0/bolts", 1},
      {"/deck/braces/0/direction", "y"},
      {"/deck/braces/0/bolt_diameter", "0.375 in"},
      {"/deck/probed", "none"},
      {"/loads/0/width", "6 ft"},
      {"/loads/0/length", "6 ft"},
      {"/loads/0/height", "30 in"},
      {"/loads/0/at/0", "7 ft"},
      {"/loads/0/dry_mass", "900 lb"},
      {"/loads/0/contents", "2000 l"},
      {"/loads/0/people", 5},
      {"/loads/0/base", "runners"},
  };
  for (const auto& [place, value] : changes) {
    Json json = base;
    json[Json::json_pointer(place)] = value;
    INFO(place << " = " << value.dump());
    CHECK(outcome(json) != before);
  }
}

TEST_CASE("Recording a defect changes the result and never makes a deck carry",
          "[assessment][law]") {
  const Json base = test::platform(2);
  const std::string before = outcome(base);
  const Json conditions[] = {
      {{"defect", "decay"},
       {"piece", "J6"},
       {"from", "1.4 m"},
       {"to", "1.6 m"},
       {"size", "20 mm"},
       {"face", "top"}},
      {{"defect", "surface softening"}, {"piece", "J6"}, {"size", "5 mm"}, {"face", "top"}},
      {{"defect", "notch"},
       {"piece", "J6"},
       {"from", "1.5 m"},
       {"size", "30 mm"},
       {"face", "underside"}},
      {{"defect", "split"}, {"piece", "J6"}, {"from", "1.2 m"}, {"to", "1.9 m"}},
      {{"defect", "hole"}, {"piece", "J6"}, {"from", "1.5 m"}, {"size", "25 mm"}},
      {{"defect", "missing"}, {"piece", "J6"}},
      {{"defect", "crack"}, {"piece", "P11"}},
      {{"defect", "undermined"}, {"piece", "P11"}},
      {{"defect", "loose packing"}, {"piece", "P11"}},
  };
  for (const Json& condition : conditions) {
    Json json = base;
    json["deck"]["condition"] = Json::array({condition});
    INFO(condition.dump());
    const std::string after = outcome(json);
    CHECK(after != before);
    CHECK(after.find("\"verdict\":\"carries\"") == std::string::npos);
  }
}

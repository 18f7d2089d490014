// Each support under the load unlike its neighbours, under soft and rigid bases.
#include "support/catch.hpp"
#include "support/decks.hpp"
#include "underprop/assessment/exported.hpp"

#include <algorithm>
#include <map>
#include <string>

namespace pads_test_file {

using namespace underprop;

TEST_CASE("A hard pad among soft ones under a rigid base is looked at, and governs what it draws",
          "[assessment]") {
  test::Json json = test::platform(6, 200, 300);
  json["loads"][0]["width"] = json["loads"][0]["length"] = "2 m";
  const assessment::Assessment a = test::assess(json);
  std::size_t hard_pads = 0;
  for (const assessment::Finding& f : a.shown.findings) {
    const bool rigid = f.bound.find("stiff base") != std::string::npos;
    if (f.check.check == "ground pressure" && rigid &&
        f.bound.find("stiff among soft") != std::string::npos)
      ++hard_pads;
  }
  CHECK(hard_pads > 4);
}

TEST_CASE(
    "Every pad that carries a hundredth of the load is tried, and its state solved from scratch",
    "[assessment][!mayfail]") {
  test::Json json = test::platform(6, 200, 300);
  json["loads"][0]["width"] = json["loads"][0]["length"] = "2.4 m";
  const record::Survey survey = test::read(json);
  const auto standard = assessment::standard_for(survey.standard);
  const auto deck = deck::resolve(survey, record::Reading::cautious).deck;
  const auto found = assessment::assess_deck(deck, *standard);
  const auto exported = assessment::exported_models(survey, *standard);
  // The exported changes are solved with the plate in the matrix; the assessment's are not.
  std::map<std::string, double> most;
  std::size_t changed = 0;
  for (const assessment::ExportedModel& model : exported.models) {
    if (model.bound.find(" among ") == std::string::npos) continue;
    ++changed;
    for (const assessment::ExportedCombination& c : model.combinations) {
      REQUIRE_FALSE(c.response.mechanism.has_value());
      for (std::size_t s = 0; s < model.frame.supports.size(); ++s) {
        double& kept = most[model.frame.supports[s].id];
        kept = std::max(kept, c.response.supports[s]);
      }
    }
  }
  CHECK(changed > 2 * 16);
  std::size_t compared = 0;
  for (const assessment::Finding& f : found.findings) {
    if (f.check.check != "bearing across the grain" || f.check.unit != "kN") continue;
    if (f.where.rfind("over support ", 0) != 0) continue;
    const std::string pad = f.where.substr(std::string("over support ").size());
    if (most.count(pad) == 0) continue;
    INFO(f.id << " " << f.where << " " << f.bound);
    CHECK(f.check.demand >= most.at(pad) * 1e-3 * (1.0 - 1e-6));
    ++compared;
  }
  CHECK(compared > 3);
}

}  // namespace pads_test_file

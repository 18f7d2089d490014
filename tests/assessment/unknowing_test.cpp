// Who measures a deck's outline and knows nothing else: a valid survey by questions, never "carries".
#include "support/catch.hpp"
#include "underprop/assessment/assessment.hpp"
#include "underprop/deck/deck.hpp"
#include "underprop/interview/interview.hpp"
#include "underprop/report/sentences.hpp"

#include <algorithm>
#include <map>
#include <string>
#include <vector>

namespace underprop::assessment {
namespace unknowing_test_file {
namespace {

using interview::Interview;

/// The answers that must be given: what a glance and a tape show. All else is "don't know".
std::map<std::string, std::string> at_a_glance(const std::string& standard,
                                               const std::string& kind) {
  const bool us = standard == "us";
  std::map<std::string, std::string> given{
      {"place/standard", us ? "north-america-us" : "eurocode-uk"},
      {"place/attached", "no"},
      {"outline/shape", "rectangle"},
      {"outline/x", us ? "8 ft" : "2.4 m"},
      {"outline/y", us ? "8 ft" : "2.4 m"},
      {"outline/obstacles/count", "0"},
      {"boards/material", "softwood"},
      {"boards/direction", "x"},
      {"boards/angle_deg", ""},
      {"boards/groove_depth", ""},
      {"boards/width", us ? "5 1/2 in" : "120 mm"},
      {"joists/kinds", "1"},
      {"joists/J/count", "7"},
      {"joists/J/first", us ? "1 in" : "20 mm"},
      {"joists/J/spacing", "even"},
      {"joists/J/differs/1", ""},
      {"carriers/bearers/count", "2"},
      {"carriers/walls/count", "0"},
      {"carriers/J/otherwise/1", ""},
      {"carriers/J/rim_start/there", "yes"},
      {"carriers/J/rim_start/size", us ? "2x6" : "47 x 145"},
      {"carriers/J/rim_end/there", "yes"},
      {"carriers/J/rim_end/size", us ? "2x6" : "47 x 145"},
      {"carriers/J/blocking", "none"},
      {"pads/under J/there", "no"},
      {"condition/1/wrong", "no"},
      {"load/1/kind", kind},
      {"load/1/name", ""},
      {"load/1/shape", "rectangle"},
      {"load/1/corner_radius", ""},
      {"load/1/at", "middle"},
      {"load/1/another", "no"},
      {"allow/1/move", "yes"}};
  const char* const positions[] = {us ? "6 in" : "150 mm", us ? "7 ft 6 in" : "2.25 m"};
  for (int k = 0; k < 2; ++k) {
    const std::string bearer = "carriers/B" + std::to_string(k + 1) + "/";
    given[bearer + "position"] = positions[k];
    given[bearer + "joists"] = "on top";
    given[bearer + "alike"] = "yes";
    given[bearer + "plies"] = "1";
    given[bearer + "whole"] = "yes";
    given[bearer + "splices"] = "none";
    const std::string letter(1, static_cast<char>('A' + k));
    const std::string group = "pads/P" + letter + "/";
    given[group + "alike"] = "yes";
    given[group + "count"] = "3";
    given[group + "first"] = us ? "1 ft" : "300 mm";
    given[group + "spacing"] = "even";
    given[group + "differs/1"] = "";
    given["posts/P" + letter + "/there"] = "no";
  }
  return given;
}

Interview unknowing(const std::string& standard, const std::string& kind) {
  const auto given = at_a_glance(standard, kind);
  Interview interview;
  constexpr int most_questions = 300;
  for (int k = 0; k < most_questions && !interview.finished(); ++k) {
    const std::string id = interview.question()->id;
    INFO(id);
    const auto found = given.find(id);
    interview::Reply reply = interview.say(found == given.end() ? "don't know" : found->second);
    if (!reply.changed) reply = interview.say("skip");  // a fact that has to be seen
    INFO(reply.text);
    REQUIRE(reply.changed);
  }
  REQUIRE(interview.finished());
  return interview;
}

/// The load as the assessment sees it.
deck::Load resolved_load(const record::Survey& survey) {
  return deck::resolve(survey, record::Reading::cautious).deck.loads.at(0);
}

}  // namespace

TEST_CASE("Who knows nothing is never told that the deck carries", "[interview][law]") {
  for (const char* standard : {"uk"}) {
    const Interview interview = unknowing(standard, "tub");
    const record::Survey survey = deck::read_survey(interview.file_text(), "survey.json").survey;
    const Assessment a = assess(survey, *standard_for(survey.standard));
    INFO(standard << ": " << report::verdict_sentence(a));
    CHECK(a.verdict != Verdict::carries);
    for (const char* field : {"/loads/0/footprint", "/loads/0/dry_mass", "/loads/0/contents"}) {
      INFO(field);
      CHECK(std::ranges::any_of(
          a.must_see, [&](const MustSee& item) { return item.field == field && !item.recorded; }));
    }
  }
}

TEST_CASE("A load of which nothing is known is recorded in nothing", "[interview][law]") {
  for (const char* standard : {"uk", "us"}) {
    for (const char* kind : {"tub", "plunge pool", "water tank", "planter", "store", "other"}) {
      INFO(standard << ", " << kind);
      const deck::Load load = resolved_load(unknowing(standard, kind).survey().survey);
      CHECK_FALSE(load.footprint_recorded);
      CHECK_FALSE(load.mass_recorded);
      CHECK_FALSE(load.contents_recorded);
    }
  }
}

TEST_CASE("A footprint or weight no narrower than the table's own counts as not recorded",
          "[interview][law]") {
  record::Survey survey = unknowing("uk", "tub").survey().survey;
  record::HeavyLoad& load = survey.loads[0];
  load.width = load.length = mm(2000.0);
  CHECK(resolved_load(survey).footprint_recorded);
  load.width = Fact<Length>::range(mm(1500.0), mm(2300.0));  // the table's ends
  CHECK_FALSE(resolved_load(survey).footprint_recorded);
  load.width = Fact<Length>::range(mm(1900.0), mm(2100.0));
  CHECK(resolved_load(survey).footprint_recorded);

  // What the interview wrote for the water still stands there after the rest has been found out.
  CHECK_FALSE(resolved_load(survey).contents_recorded);
  load.contents = Fact<Volume>::range(litres(1000.0), litres(1200.0));
  CHECK(resolved_load(survey).contents_recorded);
  load.contents = Fact<Volume>::range(litres(0.0), litres(1200.0));
  CHECK_FALSE(resolved_load(survey).contents_recorded);

  load.contents = litres(1100.0);
  load.dry_mass = Fact<Mass>::range(kilograms(200.0), kilograms(400.0));
  CHECK_FALSE(resolved_load(survey).mass_recorded);
  load.dry_mass = Fact<Mass>::range(kilograms(300.0), kilograms(350.0));
  CHECK(resolved_load(survey).mass_recorded);
}

}  // namespace unknowing_test_file
}  // namespace underprop::assessment

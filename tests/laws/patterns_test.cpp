// Live load in every pattern of bays, enumerated: nothing worse than what was found.
#include "support/catch.hpp"
#include "support/decks.hpp"
#include "underprop/assessment/exported.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <string>

namespace patterns_test_file {

using namespace underprop;

namespace {

/// Largest moments (kNm) and shear (kN) per combination and joist, and largest factored reaction (N) per pad, over all
/// patterns of bays and the main situations.
struct Enumerated {
  std::map<std::string, double> sag, hog, shear, reactions;
  std::size_t patterns = 0, bays = 0;
};

Enumerated enumerate(const record::Survey& survey, const standards::Standard& standard,
                     const std::map<std::string, double>& joists) {
  Enumerated result;
  const assessment::ExportedModels exported = assessment::exported_models(survey, standard);
  for (const assessment::ExportedModel& model : exported.models) {
    // The bounds themselves; pads unlike their neighbours are another question.
    const auto told = [&](const char* words) {
      return model.bound.find(words) != std::string::npos;
    };
    if (told(" among ") || told(" absent") || told("service") || told("no load")) continue;
    const solver::Analysis analysis(model.frame, model.cases);
    std::vector<int> members, bays;
    for (std::size_t m = 0; m < model.frame.members.size(); ++m) {
      if (joists.count(model.frame.members[m].piece) > 0) members.push_back(static_cast<int>(m));
    }
    for (std::size_t c = 0; c < model.cases.size(); ++c) {
      if (model.cases[c].id.starts_with("bay ")) bays.push_back(static_cast<int>(c));
    }
    result.bays = bays.size();
    const auto bay_of = [&](const solver::CaseFactor& f) {
      return std::find(bays.begin(), bays.end(), f.load_case) - bays.begin();
    };
    for (const assessment::ExportedCombination& combination : model.combinations) {
      const auto loaded = std::count_if(
          combination.factors.begin(), combination.factors.end(),
          [&](const auto& f) { return bay_of(f) < static_cast<std::ptrdiff_t>(bays.size()); });
      if (loaded != static_cast<std::ptrdiff_t>(bays.size())) continue;
      const std::string id = combination.id.substr(0, combination.id.find(';'));
      for (unsigned mask = 0; mask < (1U << bays.size()); ++mask) {
        std::vector<solver::CaseFactor> factors;
        for (const solver::CaseFactor& f : combination.factors) {
          const auto bay = bay_of(f);
          if (bay < static_cast<std::ptrdiff_t>(bays.size()) && (mask >> bay & 1U) == 0U) continue;
          factors.push_back(f);
        }
        const solver::Response response = analysis.solve(factors);
        if (response.mechanism) continue;
        ++result.patterns;
        const auto forces = analysis.member_forces(response, factors, members);
        for (std::size_t m = 0; m < members.size(); ++m) {
          const std::string key =
              id + "/" + model.frame.members[static_cast<std::size_t>(members[m])].piece;
          double &sag = result.sag[key], &hog = result.hog[key];
          hog = std::max({hog, -forces[m].Mi * 1e-6, -forces[m].Mj * 1e-6});
          double& shear = result.shear[key];
          shear = std::max({shear, std::abs(forces[m].Vi) * 1e-3, std::abs(forces[m].Vj) * 1e-3});
          // An extreme between the ends is a sagging one: the loads there act downwards.
          sag = std::max({sag, forces[m].Mi * 1e-6, forces[m].Mj * 1e-6});
          if (forces[m].Mmax > std::max(std::abs(forces[m].Mi), std::abs(forces[m].Mj)))
            sag = std::max(sag, forces[m].Mmax * 1e-6);
        }
        for (std::size_t s = 0; s < model.frame.supports.size(); ++s) {
          double& most = result.reactions[model.frame.supports[s].id];
          most = std::max(most, response.supports[s]);
        }
      }
    }
  }
  return result;
}

}  // namespace

TEST_CASE("No pattern of live load on the bays is worse for a joist or a pad than what was found",
          "[law][!mayfail]") {
  for (const int rows : {3, 4, 5, 6}) {
    test::Json json = test::platform(rows, 200, 300);
    // A small load in a corner, so that live load on the other bays matters.
    json["loads"][0]["width"] = json["loads"][0]["length"] = "0.9 m";
    json["loads"][0]["contents"] = "300 l";
    json["loads"][0]["at"] = test::Json::array({"1.6 m", "0.6 m"});
    const record::Survey survey = deck::read_survey(json.dump(), "test").survey;
    const auto standard = assessment::standard_for(survey.standard);
    const auto found =
        assessment::assess_deck(deck::resolve(survey, record::Reading::cautious).deck, *standard);
    std::map<std::string, double> bending;
    for (const assessment::Finding& f : found.findings) {
      if (f.check.check == "bending" && f.check.unit == "kNm") bending[f.piece] = f.check.demand;
    }
    REQUIRE_FALSE(bending.empty());
    const Enumerated all = enumerate(survey, *standard, bending);
    INFO(rows << " rows of pads, " << all.bays << " bays");
    CHECK(all.patterns >= 4 * (std::size_t{1} << all.bays));
    std::size_t bent = 0, sheared = 0;
    for (const assessment::Finding& f : found.findings) {
      const std::string key = f.combination + "/" + f.piece;
      if (all.sag.count(key) == 0) continue;
      INFO(f.piece << ", " << f.check.check << ", " << f.combination << ", " << f.situation << ", "
                   << f.bound);
      if (f.check.check == "shear" && f.check.unit == "kN") {
        CHECK(f.check.demand >= all.shear.at(key) * (1.0 - 1e-6));
        ++sheared;
      } else if (f.check.check == "bending" && f.check.unit == "kNm") {
        // One finding for both senses, of which hogging may resist less: it is never below hogging, and
        // below sagging only where it tells of hogging.
        CHECK(f.check.demand >= all.hog.at(key) * (1.0 - 1e-6));
        const bool of_hogging = f.check.demand < all.sag.at(key) * (1.0 - 1e-6);
        if (of_hogging) CHECK(all.hog.at(key) > 0.5 * f.check.demand);
        bent += of_hogging ? 0 : 1;
      }
    }
    CHECK(sheared > 3);
    CHECK(bent > 3);
    for (const assessment::Reaction& reaction : found.reactions) {
      INFO("pad " << reaction.support);
      CHECK(reaction.factored.value() >= all.reactions.at(reaction.support) * (1.0 - 1e-6));
    }
  }
}

}  // namespace patterns_test_file
